//! What `oddment suggest` answers, and what it writes.
//!
//! Must not know how the mix is found; that it is the best is held elsewhere.

use std::collections::BTreeSet;

use oddment::files::StashFolder;
use serde_json::Value;

use super::shell::{Stash, Told};

/// No test may depend on how fast a machine is: so long a time is never used up.
const AMPLE: &str = "600";

fn json(answer: &Told) -> Value {
    assert!(answer.out.starts_with("{\"format\":1,"), "{answer:?}");
    serde_json::from_str(&answer.out).unwrap()
}

fn suggest(stash: &Stash, args: &[&str]) -> Told {
    stash.run(&[&["suggest"], args, &["--seconds", AMPLE]].concat())
}

/// Points in whole tenths.
#[track_caller]
#[expect(clippy::cast_possible_truncation, reason = "a score has far fewer digits")]
fn tenths(points: &Value) -> i64 {
    let tenths = points.as_f64().unwrap() * 10.0;
    assert!((tenths - tenths.round()).abs() < 1e-6, "{points} has more than one decimal");
    tenths.round() as i64
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

fn sum(terms: &Value) -> i64 {
    terms.as_object().unwrap().values().map(tenths).sum()
}

/// The chips of the first strip of a suggestion, slot by slot.
fn chips(suggestion: &Value) -> Vec<String> {
    list(&suggestion["strips"][0]["letters"]).iter().map(|letter| letter["chip"].to_string()).collect()
}

#[test]
fn the_points_of_every_check_add_up_to_the_score() {
    let stash = Stash::sample();
    for plan in ["lantern-walk", "quayside-supper"] {
        let answer = suggest(&stash, &[plan, "--json"]);
        assert_eq!((answer.code, answer.err.as_str()), (0, ""), "{plan}");
        let value = json(&answer);
        assert_eq!(value["outcome"], "best");
        assert_eq!((tenths(&value["gap"]), &value["bound"]), (0, &value["suggestions"][0]["score"]));
        assert!(value["explored"].as_u64().unwrap() > 0 && value["milliseconds"].as_f64().unwrap() > 0.0);
        assert_eq!(list(&value["suggestions"]).len(), 1);
        let first = &value["suggestions"][0];
        let mut whole = 0;
        for strip in list(&first["strips"]) {
            let letters = list(&strip["letters"]);
            let wording = strip["wording"].as_str().unwrap();
            assert_eq!(letters.len(), wording.chars().filter(|c| !c.is_whitespace()).count());
            let points: i64 = letters.iter().map(|letter| sum(&letter["points"])).sum();
            assert_eq!(points + sum(&strip["terms"]), tenths(&strip["score"]), "{strip}");
            assert!(strip["height"].as_f64().unwrap() > 5.0, "{strip}");
            for (letter, slot) in letters.iter().zip(1..) {
                assert_eq!(letter["slot"], slot);
                assert!(letter["wanted"].is_string() && letter["points"].is_object(), "{letter}");
                assert!(letter["as"].is_null() || letter["as"].is_string());
            }
            whole += tenths(&strip["score"]);
        }
        assert_eq!(whole, tenths(&first["score"]));
        assert_eq!(first["checked"], first["score"]);
    }
}

#[test]
fn what_is_pinned_or_by_hand_stays_as_it_is() {
    let stash = Stash::sample();
    let value = json(&suggest(&stash, &["quayside-supper", "--json", "--apply"]));
    let strips = &value["suggestions"][0]["strips"];
    let pinned = &strips[0]["letters"][0];
    assert_eq!((&pinned["chip"], &pinned["kept"]), (&"net-floats/Q".into(), &true.into()));
    let button = &strips[1]["letters"][1];
    assert_eq!((&button["chip"], &button["by_hand"]), (&Value::Null, &"button".into()));
    assert_eq!(button["kept"], true);
    let kept = |letter: &&Value| letter["kept"] == true;
    let all = list(strips).iter().flat_map(|strip| list(&strip["letters"]));
    assert_eq!(all.filter(kept).count(), 2);
    let text = stash.read("pages/quayside-supper.toml");
    for line in [
        "pinned = true                  # the Q is the joke of the page",
        "by = \"hand\"\nlabel = \"button\"",
        "# off the old oilskin",
        "# two lines on one carrier",
    ] {
        assert!(text.contains(line), "{line} is gone:\n{text}");
    }
}

#[test]
fn what_was_applied_is_judged_as_it_was_told() {
    let stash = Stash::sample();
    let before = stash.read("pages/lantern-walk.toml");
    let looked = json(&suggest(&stash, &["lantern-walk", "--json"]));
    assert_eq!(stash.read("pages/lantern-walk.toml"), before, "nothing is written unasked");
    assert!(looked.get("written").is_none());
    let written = json(&suggest(&stash, &["lantern-walk", "--json", "--apply"]));
    assert_eq!(written["suggestions"], looked["suggestions"]);
    assert!(written["written"]["file"].as_str().unwrap().ends_with("pages/lantern-walk.toml"));
    assert!(written["written"]["letters"].as_u64().unwrap() >= 18);
    let checked = json(&stash.run(&["check", "lantern-walk", "--json"]));
    assert_eq!(checked["score"], looked["suggestions"][0]["score"]);
    for (place, strip) in list(&checked["strips"]).iter().enumerate() {
        assert_eq!(strip["score"], looked["suggestions"][0]["strips"][place]["score"]);
        assert_eq!(strip["height"], looked["suggestions"][0]["strips"][place]["height"]);
    }
    let after = stash.read("pages/lantern-walk.toml");
    for comment in before.lines().filter_map(|line| line.split_once("# ")).map(|(_, comment)| comment) {
        assert!(after.contains(comment), "{comment} is gone");
    }
    let again = suggest(&stash, &["lantern-walk", "--apply"]);
    assert_eq!(again.code, 0);
    assert!(again.out.ends_with("\nnothing written: the plan has it already\n"), "{}", again.out);
    assert_eq!(stash.read("pages/lantern-walk.toml"), after);
}

#[test]
fn a_letter_that_another_plan_speaks_for_is_told_and_can_be_taken() {
    let stash = Stash::sample();
    let sheet = |left: u8| {
        format!(
            "name = 'Lone'\ntag = '7'\nform = 'tile'\nheight = '22 mm'\ncolour = 'teal'\n[letters]\n'Ж' = {left}\n"
        )
    };
    let strip = "[[strip]]\nwording = 'Ж'\n";
    let letter = "[[strip.letter]]\nslot = 1\nfor = 'Ж'\nchip = 'lone/Ж'\n";
    stash.write("sheets/lone.toml", sheet(1));
    stash.write("pages/first.toml", format!("name = 'First page'\n{strip}{letter}"));
    stash.write("pages/second.toml", strip);
    let value = json(&suggest(&stash, &["second", "--json", "--apply"]));
    let told = &value["suggestions"][0]["strips"][0]["letters"][0];
    assert_eq!((&told["chip"], &told["spoken_for"]), (&"lone/Ж".into(), &serde_json::json!(["First page"])));
    assert!(suggest(&stash, &["second"]).out.contains("  also in First page\n"));
    let checked = stash.run(&["check", "second"]);
    let note = "note    0.0  title: the last Ж of 7 Lone is in First page as well\n";
    assert_eq!((checked.code, checked.out.contains(note)), (0, true), "{}", checked.out);
    // Of two there is one for each.
    stash.write("sheets/lone.toml", sheet(2));
    let value = json(&suggest(&stash, &["second", "--json"]));
    assert_eq!(value["suggestions"][0]["strips"][0]["letters"][0]["spoken_for"], serde_json::json!([]));
    assert!(!stash.run(&["check", "second"]).out.contains("First page"));
    stash.write("pages/third.toml", format!("{strip}{letter}"));
    let of_two = stash.run(&["check", "third"]).out;
    assert!(of_two.contains("of the 2 Ж left of 7 Lone 2 are in First page and second as well"), "{of_two}");
}

#[test]
fn five_mixes_differ_and_come_the_best_first() {
    let stash = Stash::sample();
    let args = ["lantern-walk", "--strip", "title", "--count", "5"];
    let value = json(&suggest(&stash, &[&args[..], &["--json"]].concat()));
    let all = list(&value["suggestions"]);
    assert_eq!((all.len(), &value["outcome"]), (5, &"best".into()));
    let scores: Vec<i64> = all.iter().map(|one| tenths(&one["score"])).collect();
    assert!(scores.is_sorted(), "{scores:?}");
    assert_eq!(tenths(&value["bound"]), scores[0]);
    for (place, one) in all.iter().enumerate() {
        for before in &all[..place] {
            let pairs = chips(one).into_iter().zip(chips(before));
            // A quarter of eleven slots, rounded up.
            assert!(pairs.filter(|(a, b)| a != b).count() >= 3, "{place}");
        }
    }
    let words = suggest(&stash, &args).out;
    for (place, one) in all.iter().enumerate() {
        assert!(words.contains(&format!("\nsuggestion {} of 5: {}\n", place + 1, one["score"])), "{words}");
    }
}

#[test]
fn one_strip_can_be_asked_about_alone() {
    let stash = Stash::sample();
    let before = stash.read("pages/lantern-walk.toml");
    let value = json(&suggest(&stash, &["lantern-walk", "--strip", "subtitle", "--apply", "--json"]));
    let strips = list(&value["suggestions"][0]["strips"]);
    assert_eq!((strips.len(), &strips[0]["role"]), (1, &"subtitle".into()));
    assert_eq!(strips[0]["score"], value["suggestions"][0]["score"]);
    assert_eq!((&value["bound"], tenths(&value["now"])), (&strips[0]["score"], 24_000));
    assert_eq!(value["written"]["letters"], 12);
    let after = stash.read("pages/lantern-walk.toml");
    let title = before.split("role = \"subtitle\"").next().unwrap();
    assert!(after.starts_with(title), "the title is touched:\n{after}");
    let unknown = stash.run(&["suggest", "lantern-walk", "--strip", "titel"]);
    assert_eq!((unknown.code, unknown.out.as_str()), (2, ""));
    assert_eq!(unknown.err, "oddment: there is no strip \"titel\"; this plan has: title, subtitle\n");
}

#[test]
fn words_tell_the_same_as_json() {
    let stash = Stash::sample();
    let value = json(&suggest(&stash, &["quayside-supper", "--strip", "subtitle", "--json"]));
    let words = suggest(&stash, &["quayside-supper", "--strip", "subtitle"]).out;
    let strip = &value["suggestions"][0]["strips"][0];
    assert!(words.starts_with(&format!("the best mix there is: {}\n", strip["score"])), "{words}");
    assert!(words.contains(&format!("as it stands now: {}\n", value["now"])), "{words}");
    let table: Vec<&str> = words.lines().skip_while(|line| !line.starts_with("  slot")).skip(1).collect();
    for (letter, line) in list(&strip["letters"]).iter().zip(&table) {
        let chip = letter["chip"].as_str().unwrap_or("by hand: button");
        assert!(line.contains(chip) && line.contains(letter["colour"].as_str().unwrap()), "{line}");
        let points = sum(&letter["points"]);
        assert!(line.contains(&format!(" {}.{}", points / 10, points % 10)), "{line}: {letter}");
        assert_eq!(line.contains("left alone"), letter["kept"] == true, "{line}");
        assert!(!line.contains("near ") && !line.contains("scarce "), "{line}");
    }
    let explained = suggest(&stash, &["quayside-supper", "--strip", "subtitle", "--explain"]).out;
    let ids: BTreeSet<&String> =
        list(&strip["letters"]).iter().flat_map(|one| one["points"].as_object().unwrap().keys()).collect();
    assert!(!ids.is_empty());
    for id in ids {
        assert!(explained.contains(&format!("{id} ")), "{id}: {explained}");
    }
}

#[test]
fn a_letter_that_nothing_serves_is_told_and_the_rest_is_made() {
    let stash = Stash::sample();
    stash.write("pages/odd.toml", "[[strip]]\nwording = 'AЖE'\n");
    let answer = suggest(&stash, &["odd", "--json", "--apply"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    let value = json(&answer);
    assert_eq!(value["outcome"], "best");
    assert_eq!(value["empty"], serde_json::json!([{ "strip": "title", "slot": 2, "wanted": "Ж" }]));
    let letters = &value["suggestions"][0]["strips"][0]["letters"];
    assert_eq!((&letters[1]["chip"], tenths(&letters[1]["points"]["missing"])), (&Value::Null, 2_000));
    assert_eq!(value["written"]["letters"], 2);
    let words = suggest(&stash, &["odd"]);
    assert_eq!(words.code, 1);
    assert!(words.out.contains("title: nothing in the stash can stand for Ж in slot 2\n"), "{}", words.out);
}

#[test]
fn where_nothing_can_be_filled_there_is_no_mix() {
    let stash = Stash::sample();
    stash.write("pages/blank.toml", "[[strip]]\nwording = ''\n");
    let answer = suggest(&stash, &["blank", "--json", "--apply"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    let value = json(&answer);
    assert_eq!((&value["outcome"], &value["bound"]), (&"impossible".into(), &Value::Null));
    assert_eq!((list(&value["suggestions"]).len(), &value["written"]["letters"]), (0, &0.into()));
    assert!(value["reason"]["message"].as_str().unwrap().contains("the wording is empty"));
    assert_eq!(stash.read("pages/blank.toml"), "[[strip]]\nwording = ''\n");
    let words = suggest(&stash, &["blank"]);
    assert_eq!(words.code, 1);
    assert!(words.out.starts_with("impossible: the wording is empty"), "{}", words.out);
}

#[test]
fn where_nothing_may_change_nothing_is_asked_for() {
    let stash = Stash::sample();
    let pinned = "[[strip]]\nwording = 'OX'\nroom = '12 mm'\n[[strip.letter]]\nslot = 1\nfor = 'O'\nby = 'hand'\n\
                  label = 'ring'\nwidth = '8 mm'\n[[strip.letter]]\nslot = 2\nfor = 'X'\nby = 'hand'\nlabel = 'cross'\n\
                  width = '9 mm'\n";
    stash.write("pages/held.toml", format!("{pinned}[[strip]]\nwording = ''\n"));
    for args in [&["held"][..], &["held", "--strip", "title"], &["held", "--strip", "subtitle"]] {
        let answer = suggest(&stash, args);
        assert_eq!((answer.code, answer.err.as_str()), (1, ""), "{args:?}");
        assert!(answer.out.starts_with("impossible: nothing is asked for"), "{args:?}: {}", answer.out);
        assert!(!answer.out.contains("best"), "{}", answer.out);
    }
    // A line that stays as it is, too long or not, is in nobody's way.
    stash.write("pages/held.toml", format!("{pinned}[[strip]]\nwording = 'sea'\n"));
    let beside = suggest(&stash, &["held", "--strip", "subtitle"]);
    assert_eq!((beside.code, beside.err.as_str()), (0, ""), "{}", beside.out);
    assert!(beside.out.starts_with("the best mix there is: "), "{}", beside.out);
}

#[test]
fn a_room_that_no_mix_fits_is_no() {
    let stash = Stash::sample();
    stash.write("pages/narrow.toml", "[[strip]]\nwording = 'LANTERN'\nroom = '40 mm'\n");
    let answer = suggest(&stash, &["narrow"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    assert!(answer.out.contains("its room") && answer.out.contains("40 mm"), "{}", answer.out);
}

#[test]
fn a_search_without_time_says_what_it_does_not_know() {
    let stash = Stash::sample();
    let before = stash.read("pages/quayside-supper.toml");
    let args = ["suggest", "quayside-supper", "--seconds", "0.000001", "--apply"];
    let value = json(&stash.run(&[&args[..], &["--json"]].concat()));
    let first = &value["suggestions"][0];
    assert_eq!(tenths(&value["gap"]), tenths(&first["score"]) - tenths(&value["bound"]));
    if value["outcome"] == "best-so-far" {
        // What stands there is good already, and is not spoilt.
        assert!(tenths(&value["now"]) < tenths(&first["score"]), "{value}");
        assert_eq!(stash.read("pages/quayside-supper.toml"), before);
        let words = stash.run(&args).out;
        assert!(words.starts_with("the best so far: ") && words.contains("none scores below"), "{words}");
        assert!(words.contains("\nnothing written: what stands there scores less, "), "{words}");
    } else {
        assert_eq!((&value["outcome"], tenths(&value["gap"])), (&"best".into(), 0));
    }
}

#[test]
fn no_bound_of_one_strip_is_below_nothing() {
    let stash = Stash::sample();
    // The subtitle is empty and costs 2400.0 whatever becomes of the title.
    let args = ["suggest", "lantern-walk", "--strip", "title", "--seconds", "0.000001", "--json"];
    let value = json(&stash.run(&args));
    assert!(tenths(&value["bound"]) >= 0, "{value}");
}

#[test]
fn colours_beyond_counting_get_an_answer_without_a_proof() {
    let stash = Stash::sample();
    let mut colours = Vec::new();
    for place in 0..30 {
        // All round the colours, in three shades.
        let at = |third: usize| 255 * ((place + 10 * third) % 30) / (29 * (1 + place % 3));
        colours.push(format!("\"#{:02x}{:02x}{:02x}\"", at(0), at(1), at(2)));
        stash.write(
            &format!("sheets/rich-{place}.toml"),
            format!(
                "form = 'die-cut'\nheight = '22 mm'\ncolour = {}\n[letters]\nA = 1\nE = 1\nR = 1\n",
                colours[place]
            ),
        );
    }
    stash.write("taste.toml", "[monotony]\nwant = 8\n");
    let wording = "AREA REAR ERA AREA REAR";
    let plan = format!("colours = [{}]\n[[strip]]\nwording = '{wording}'\n", colours.join(", "));
    stash.write("pages/rich.toml", plan);
    let value = json(&suggest(&stash, &["rich", "--json"]));
    assert_eq!((&value["outcome"], tenths(&value["bound"])), (&"best-so-far".into(), 0));
    let letters = list(&value["suggestions"][0]["strips"][0]["letters"]);
    assert!(letters.iter().all(|letter| letter["chip"].is_string()), "{value}");
}

#[test]
fn who_may_not_write_is_told_before_anything_is_searched() {
    let stash = Stash::sample();
    let before = stash.read("pages/lantern-walk.toml");
    let other = StashFolder::at(stash.path()).ask_to_write().unwrap();
    assert!(other.may_write());
    let refused = suggest(&stash, &["lantern-walk", "--apply"]);
    assert_eq!((refused.code, refused.out.as_str()), (3, ""));
    assert_eq!(refused.err, "oddment: another oddment holds this stash; leave it there, then try again\n");
    assert_eq!(stash.run(&["new", "x"]).code, 3);
    assert_eq!(suggest(&stash, &["lantern-walk", "--strip", "subtitle"]).code, 0, "looking needs no right");
    drop(other);
    std::fs::create_dir_all(stash.path().join("trials")).unwrap();
    stash.write("trials/lantern-walk.toml", &before);
    let waiting = suggest(&stash, &["lantern-walk", "--apply"]);
    assert_eq!((waiting.code, waiting.out.as_str()), (2, ""));
    assert!(waiting.err.contains("changes that were never saved"), "{}", waiting.err);
    assert_eq!(stash.read("trials/lantern-walk.toml"), before);
    assert_eq!(stash.read("pages/lantern-walk.toml"), before);
}

#[test]
fn a_read_only_stash_can_be_asked_and_not_written() {
    let stash = Stash::sample();
    let set = |read_only: bool| {
        let mut permissions = std::fs::metadata(stash.path()).unwrap().permissions();
        permissions.set_readonly(read_only);
        std::fs::set_permissions(stash.path(), permissions).unwrap();
    };
    set(true);
    let asked = suggest(&stash, &["lantern-walk", "--strip", "subtitle"]);
    let refused = suggest(&stash, &["lantern-walk", "--strip", "subtitle", "--apply"]);
    set(false);
    assert_eq!(asked.code, 0);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""));
    assert!(refused.err.contains("takes no changes"), "{}", refused.err);
}

#[test]
fn names_from_files_cannot_steer_the_terminal() {
    let stash = Stash::sample();
    stash.write(
        "pages/odd.toml",
        "[[strip]]\nwording = 'OX'\n[[strip.letter]]\nslot = 1\nfor = 'O'\nby = 'hand'\n\
         label = \"b\\u001b[31m\\u202etton\"\nwidth = '8 mm'\n",
    );
    let answer = suggest(&stash, &["odd"]);
    for told in [&answer.out, &answer.err] {
        assert!(!told.contains(['\u{1b}', '\u{202e}']), "{told:?}");
    }
    assert!(!answer.out.is_empty() || answer.err.contains("label"), "{answer:?}");
}
