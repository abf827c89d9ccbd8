//! `ideas`: words that can be spelled from a stash of two small sheets.
//!
//! Must not know how they are looked for.

use serde_json::json;

use super::shell::Stash;
use super::spell::{fed, objects, small};

const WORDS: &str = "boat\ntab\nbeat\nboot\nAt last\natlas\nqualm\n";

#[test]
fn words_of_a_list_are_told_as_they_can_be_spelled() {
    let stash = small();
    let answer = fed(&stash, &["ideas", "--list", "-"], WORDS);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    insta::assert_snapshot!(answer.out, @r"
    BOAT: now, from letters of 20 mm; 4 scarce
    TAB: now, from letters of 20 mm; 3 scarce
    AT LAST: now, from letters of 20 mm; 6 scarce
    ATLAS: now, from letters of 20 mm; 5 scarce
    ");
    let answer = fed(
        &stash,
        &["ideas", "--list", "-", "--stand-ins", "--length", "4", "--count", "2", "--json"],
        WORDS,
    );
    let all = objects(&answer.out);
    let boat = json!({"format": 1, "wording": "BOAT", "verdict": "now", "band": [20.0, 20.0], "short": {}, "stand_ins": [],
        "scarce": 4});
    assert_eq!((all.len(), &all[0]), (2, &boat));
    assert_eq!(all[1]["stand_ins"][0]["chip"], "sea-caps/0");
}

#[test]
fn rules_leave_words_out() {
    let stash = small();
    for (args, told) in [
        (&["--with", "oB"][..], "BOAT: now, from letters of 20 mm; 4 scarce\n"),
        (&["--length", "3"], "TAB: now, from letters of 20 mm; 3 scarce\n"),
        (&["--scarce", "3"], "TAB: now, from letters of 20 mm; 3 scarce\n"),
        (&["LOT", "--stand-ins", "--length", "3"], "TAB: now, from letters of 20 mm; 3 scarce\n"),
        (&["BOAT", "--length", "3"], ""),
        (&["--scarce", "0"], ""),
        (&["--tall", "30-40"], ""),
    ] {
        let answer = fed(&stash, &[&["ideas", "--list", "-"], args].concat(), WORDS);
        let is_found = !told.is_empty();
        assert_eq!((answer.code, answer.out.as_str()), (i32::from(!is_found), told), "{args:?}");
        let said = if is_found { "" } else { "oddment: nothing is found; 7 words looked at\n" };
        assert_eq!(answer.err, said, "{args:?}");
    }
}

#[test]
fn english_words_come_from_the_program() {
    let stash = Stash::sample();
    let answer = stash.run(&["ideas", "--with", "zz", "--count", "3"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    assert_eq!(answer.out.lines().count(), 3);
    assert!(answer.out.lines().all(|line| line.contains("ZZ") && line.contains(": now, ")), "{}", answer.out);
}

#[test]
fn words_of_ones_own_come_first() {
    let stash = small();
    stash.write("words.txt", "# for the harbour\nqualm\nAt last\n");
    let answer = stash.run(&["ideas", "--count", "2"]);
    let told: Vec<&str> = answer.out.lines().collect();
    assert_eq!((answer.code, told.len(), told[0]), (0, 2, "AT LAST: now, from letters of 20 mm; 6 scarce"));
    let answer = fed(&stash, &["ideas", "--list", "-"], "tab\n");
    assert_eq!(answer.out, "TAB: now, from letters of 20 mm; 3 scarce\n");
    stash.write("words.txt", b"k\xe4lp\n");
    let answer = stash.run(&["ideas"]);
    assert_eq!((answer.code, answer.out.as_str()), (2, ""));
    assert!(answer.err.contains("words.txt:1:2: here is a byte that is no UTF-8"), "{}", answer.err);
}

#[test]
fn wrong_use_and_nothing_to_look_through() {
    let stash = small();
    for args in [
        &["--length", "0"][..],
        &["--length", "8-4"],
        &["--length", "4-201"],
        &["--with", "\u{1b}"],
        &["--count", "0"],
        &["--scarce", "-1"],
        &[""],
        &["--list", "/nowhere/at-all.txt"],
    ] {
        let answer = stash.run(&[&["ideas"], args].concat());
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}");
    }
    let answer = fed(&stash, &["ideas", "--list", "-"], "# none\n");
    let told = "oddment: the list holds no word; there is nothing to look through\n";
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (1, "", told));
    let empty = fed(&Stash::nowhere(), &["ideas", "--list", "-"], "tab\n");
    assert_eq!((empty.code, empty.out.as_str()), (1, ""));
    let latin = fed(&stash, &["ideas", "--list", "-"], b"tab\nk\xe4lp\n");
    let told = "oddment: standard input:2: here is a byte that is no UTF-8; save the list as UTF-8\n";
    assert_eq!((latin.code, latin.out.as_str(), latin.err.as_str()), (2, "", told));
}
