//! `oddment places`: where a strip rests, in words and in JSON, and what it writes.
//!
//! Must not know how a place is found.

use serde_json::Value;

use super::shell::{Stash, Told};

fn json(answer: &Told) -> Value {
    assert!(answer.out.starts_with("{\"format\":1,\"strip\":"), "{answer:?}");
    assert_eq!(answer.out.matches('\n').count(), 1, "one line: {}", answer.out);
    serde_json::from_str(&answer.out).unwrap()
}

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

/// Time enough on any machine.
const AMPLE: [&str; 2] = ["--seconds", "600"];

fn places(stash: &Stash, args: &[&str]) -> Told {
    stash.run(&[&["places"][..], args, &AMPLE].concat())
}

/// A plan of one letter on a page of this size.
fn one_letter(stash: &Stash, size: &str, more: &str) {
    let page = if size.is_empty() { String::new() } else { format!("size = '{size}'\n") };
    let text = format!(
        "{page}[[strip]]\nrole = 'title'\nwording = 'K'\n{more}[[strip.letter]]\nslot = 1\nfor = 'K'\nchip = 'lit-windows/K'\n"
    );
    stash.write("pages/one.toml", text);
}

#[test]
fn the_best_places_are_told_with_what_they_touch() {
    let stash = Stash::sample();
    let before = stash.read("pages/lantern-walk.toml");
    let answer = places(&stash, &["lantern-walk", "--json"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    let value = json(&answer);
    assert_eq!(keys(&value), ["finished", "format", "places", "strip"]);
    assert_eq!((&value["strip"], &value["finished"]), (&"title".into(), &true.into()));
    let all = list(&value["places"]);
    assert_eq!(all.len(), 5);
    let scores: Vec<f64> = all.iter().map(|one| one["score"].as_f64().unwrap()).collect();
    assert!(scores.is_sorted(), "{scores:?}");
    let names: Vec<&str> =
        before.lines().filter_map(|line| line.strip_prefix("name = ")?.split('"').nth(1)).collect();
    for one in all {
        assert_eq!(keys(one), ["at", "score", "touches", "trapped_mm2", "turn"]);
        for side in list(&one["at"]) {
            let mm = side.as_f64().unwrap();
            assert!((-10.0..305.0).contains(&mm) && mm.fract() == 0.0, "{one}");
        }
        assert!(one["turn"].as_f64().unwrap().abs() <= 6.0, "{one}");
        assert!(one["trapped_mm2"].is_u64(), "{one}");
        assert!(!list(&one["touches"]).is_empty(), "adrift: {one}");
        for touch in list(&one["touches"]) {
            assert!(names.iter().any(|name| touch.as_str().unwrap().starts_with(name)), "{touch}");
        }
    }
    assert_eq!(stash.read("pages/lantern-walk.toml"), before, "nothing is written unasked");
}

#[test]
fn words_tell_the_same_as_json() {
    let stash = Stash::sample();
    let args = ["quayside-supper", "--strip", "subtitle", "--count", "3"];
    let value = json(&places(&stash, &[&args[..], &["--json"]].concat()));
    let words = places(&stash, &args);
    assert_eq!((words.code, &value["strip"]), (0, &"subtitle".into()));
    assert_eq!((words.out.lines().count(), list(&value["places"]).len()), (3, 3));
    for (number, (line, one)) in (1..).zip(words.out.lines().zip(list(&value["places"]))) {
        let (x, y) = (one["at"][0].as_f64().unwrap(), one["at"][1].as_f64().unwrap());
        let start = format!("{number}. feet {x} mm from the left and {y} mm from the top edge");
        assert!(line.starts_with(&start), "{line}: {one}");
        let told = format!(": {}, {} mm2 trapped; ", one["score"], one["trapped_mm2"]);
        assert!(line.contains(&told), "{line}: {one}");
        for touch in list(&one["touches"]) {
            assert!(line.contains(touch.as_str().unwrap()), "{line}: {one}");
        }
    }
}

#[test]
fn the_fewer_are_the_first_of_the_more() {
    let stash = Stash::sample();
    // Straight, so that no place is made better by a slight turn that depends on the others.
    one_letter(&stash, "70 x 60 mm", "");
    let some = |count: &str| json(&places(&stash, &["one", "--count", count, "--json"]))["places"].clone();
    let (two, six) = (some("2"), some("6"));
    assert_eq!((list(&two).len(), list(&six).len()), (2, 6));
    assert_eq!(list(&two), &list(&six)[..2]);
}

#[test]
fn what_is_applied_is_what_check_says() {
    let stash = Stash::sample();
    let plan = "pages/lantern-walk.toml";
    let before = stash.read(plan);
    assert!(json_check(&stash, "lantern-walk")["place"].as_f64().unwrap() > 0.0, "a hair above the mat");
    let answer = places(&stash, &["lantern-walk", "--json", "--apply"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    let first = json(&answer)["places"][0].clone();
    let after = stash.read(plan);
    assert_ne!(after, before);
    let (x, y) = (&first["at"][0], &first["at"][1]);
    let written = format!("at = [\"{} mm\", \"{} mm\"]", x.as_f64().unwrap(), y.as_f64().unwrap());
    assert!(after.contains(&written), "{written} is not in\n{after}");
    for comment in before.lines().filter_map(|line| line.split_once("# ")).map(|(_, comment)| comment) {
        assert!(after.contains(comment), "{comment} is gone");
    }
    assert_eq!(json_check(&stash, "lantern-walk")["place"], first["score"]);
    let words = places(&stash, &["lantern-walk", "--apply"]);
    assert!(words.out.ends_with("\nthe first is written into the plan\n"), "{}", words.out);
}

fn json_check(stash: &Stash, plan: &str) -> Value {
    serde_json::from_str(&stash.run(&["check", plan, "--json"]).out).unwrap()
}

#[test]
fn check_tells_the_place_apart_from_the_score() {
    let stash = Stash::sample();
    let value = json_check(&stash, "lantern-walk");
    let of_place = ["adrift", "trapped", "cover", "edge", "overlap", "off", "margin"];
    let findings = list(&value["findings"]).iter();
    let points = findings
        .filter(|one| of_place.contains(&one["id"].as_str().unwrap()) && one["accepted"] == false)
        .map(|one| one["points"].as_f64().unwrap());
    assert!((points.sum::<f64>() - value["place"].as_f64().unwrap()).abs() < 0.05, "{value}");
    let words = stash.run(&["check", "lantern-walk"]).out;
    assert!(words.contains(&format!("\nplace on the page: {}\n", value["place"])), "{words}");
    // Not placed, or no page to be placed on: there is nothing to tell.
    for (size, at) in [("100 x 100 mm", ""), ("", "at = ['10 mm', '50 mm']\n")] {
        one_letter(&stash, size, at);
        assert_eq!(json_check(&stash, "one")["place"], Value::Null, "{size:?} {at:?}");
        assert!(!stash.run(&["check", "one"]).out.contains("place on the page"));
    }
}

#[test]
fn what_cannot_be_asked_ends_with_2() {
    let stash = Stash::sample();
    let told = |args: &[&str], words: &str| {
        let answer = places(&stash, args);
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}: {answer:?}");
        assert!(answer.err.contains(words), "{args:?}: {}", answer.err);
    };
    one_letter(&stash, "", "");
    told(&["one"], "the page has no size yet; give the plan one, such as size = \"12 x 12 in\"");
    told(
        &["lantern-walk", "--strip", "titel"],
        "there is no strip \"titel\"; this plan has: title, subtitle",
    );
    told(&["lantern-walk", "--strip", "subtitle"], "no letter stands on the subtitle yet");
    one_letter(&stash, "100 x 100 mm", "at = ['10 mm', '50 mm']\nstuck = 1\n");
    told(&["one"], "the title is stuck down; lift it before it is moved");
    told(&["one", "--apply"], "the title is stuck down");
    told(&["lantern-wlak"], "did you mean lantern-walk?");
    told(&["lantern-walk", "--count", "0"], "0");
    told(&["lantern-walk", "--count", "101"], "101");
}

#[test]
fn where_there_is_no_room_the_answer_is_no() {
    let stash = Stash::sample();
    one_letter(&stash, "12 x 12 mm", "");
    let before = stash.read("pages/one.toml");
    let answer = places(&stash, &["one", "--json", "--apply"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    let value = json(&answer);
    assert_eq!((list(&value["places"]).len(), &value["finished"]), (0, &true.into()));
    assert_eq!(stash.read("pages/one.toml"), before);
    let words = places(&stash, &["one"]);
    assert_eq!(words.code, 1);
    assert_eq!(words.out, "the title finds no room on the page as it is turned\n");
}

#[test]
fn a_search_without_time_does_not_say_that_there_is_no_room() {
    let stash = Stash::sample();
    let answer = stash.run(&["places", "lantern-walk", "--seconds", "0.000000001", "--json"]);
    let value = json(&answer);
    assert_eq!((list(&value["places"]).len(), &value["finished"], answer.code), (0, &false.into(), 1));
    let words = stash.run(&["places", "lantern-walk", "--seconds", "0.000000001"]);
    assert_eq!((words.code, words.out.as_str()), (1, "the time is up: no place is found yet\n"));
}

#[test]
fn names_from_files_cannot_steer_the_terminal() {
    let stash = Stash::sample();
    one_letter(&stash, "60 x 60 mm", "");
    let page = stash.read("pages/one.toml");
    let mat = "\n[[element]]\nname = \"m\\u001b[31m\\u202eat\"\nkind = 'mat'\nat = ['5 mm', '30 mm']\nsize = ['20 mm', '20 mm']\n";
    stash.write("pages/one.toml", page + mat);
    for args in [&["one"][..], &["one", "--json"]] {
        let answer = places(&stash, args);
        assert!(answer.out.contains("at (") && !answer.out.contains('\u{1b}'), "{answer:?}");
    }
    assert!(!places(&stash, &["one"]).out.contains('\u{202e}'));
}
