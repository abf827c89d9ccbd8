//! `restock`: what to look for, from a stash of two small sheets.
//!
//! Must not know how it is reckoned.

use serde_json::json;

use super::shell::Stash;
use super::spell::{objects, small};

const WISHES: &str =
    "[[wish]]\nwording = \"TAB\"\n[[wish]]\nwording = \"BEAT\"\n[[wish]]\nwording = \"LILY\\nPOND\"\n";
const ON_SALE: &str = "[[sheet]]\nname = \"Sale \\u001b caps\"\nform = \"die-cut\"\nheight = \"20 mm\"\ncolour = \"white\"\n\
    [sheet.letters]\nE = 4\nI = 1\nL = 1\nY = 1\nP = 1\nD = 1\n";

fn looking_ahead() -> Stash {
    let stash = small();
    stash.write("wishes.toml", WISHES);
    stash.write("on-sale.toml", ON_SALE);
    stash
}

#[test]
fn letters_shop_and_spent_sheets_are_told() {
    let answer = looking_ahead().run(&["restock"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    insta::assert_snapshot!(answer.out, @r"
    Letters that run out first:
      gone: I N H R D C U F G Y P V K J X Z
      O: 1 capital; enough for a text of 13 letters
      E: 2 capitals; enough for a text of 15 letters
      S: 1 capital; enough for a text of 15 letters
      T: 2 capitals; enough for a text of 22 letters
      L: 1 capital; enough for a text of 24 letters
      A: 3 capitals; enough for a text of 36 letters
      M: 1 capital; enough for a text of 41 letters
      W: 1 capital; enough for a text of 42 letters
      B: 1 capital; enough for a text of 67 letters
      Q: 1 capital; enough for a text of 1052 letters
    Sheets on sale; of 3 wishes 1 can be made at once without them:
      Sale \u{1b} caps: 1 at once
        BEAT: now; mixed heights without it
        LILY / POND: still short of N, no longer of D, I, L, Y
    Sheets that are spent or nearly so:
      Low \u{1b} tide: 3 letters
    ");
}

#[test]
fn other_programs_read_one_object() {
    let object = &objects(&looking_ahead().run(&["restock", "--json"]).out)[0];
    assert_eq!(object["letters"].as_array().unwrap().len(), 26);
    assert_eq!(object["letters"][0], json!({"letter": "I", "capitals": 0, "small": 0, "text": 0}));
    let sale = &object["on_sale"][0];
    let better = json!([{"wording": "BEAT", "without": "mixed heights", "with": "now"}]);
    assert_eq!((&sale["name"], &sale["unlocks"]), (&json!("Sale \u{1b} caps"), &better));
    let short =
        json!([{"wording": "LILY\nPOND", "cured": {"D": 1, "I": 1, "L": 1, "Y": 1}, "short": {"N": 1}}]);
    assert_eq!(sale["still_short"], short);
    assert_eq!(
        (&sale["together"], &object["together"]),
        (&json!({"made": 1, "most": 1}), &json!({"made": 1, "most": 1}))
    );
    assert_eq!(object["spent"][0]["sheet"], "low-tide");
}

#[test]
fn what_is_wrong_with_the_list_of_the_shop_is_told() {
    let stash = looking_ahead();
    stash.write("on-sale.toml", "[[sheet]]\nform = \"tle\"\n");
    let answer = stash.run(&["restock"]);
    assert_eq!(answer.code, 2);
    assert!(answer.err.contains("on-sale.toml:2:8: ") && answer.out.starts_with("Letters"), "{}", answer.err);
}

#[test]
fn with_nothing_to_look_at_the_letters_are_gone() {
    let answer = Stash::nowhere().run(&["restock"]);
    assert_eq!(answer.code, 0);
    assert!(answer.out.starts_with("Letters that run out first:\n  gone: E T A O I N "), "{}", answer.out);
    assert!(answer.err.starts_with("oddment: no sheets yet; "), "{}", answer.err);
}

#[test]
fn where_there_is_nothing_in_a_shop_or_nothing_is_wished_for_that_is_said() {
    let stash = looking_ahead();
    stash.write("wishes.toml", "");
    let answer = stash.run(&["restock"]);
    assert!(
        answer.out.contains("\nSheets on sale: nothing is wished for that one of them could unlock\n"),
        "{}",
        answer.out
    );
    stash.write("on-sale.toml", "");
    let answer = stash.run(&["restock"]);
    let told = "\nSheets on sale: none; put those that you see in a shop into on-sale.toml\n";
    assert!(answer.out.contains(told), "{}", answer.out);
}
