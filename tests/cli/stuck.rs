//! What is said of letters that are stuck down.
//!
//! Must not know how anything is scored.

use serde_json::Value;

use super::shell::{Stash, Told};

/// No test may depend on how fast a machine is: so long a time is never used up.
const AMPLE: &str = "600";

fn json(answer: &Told) -> Value {
    serde_json::from_str(&answer.out).unwrap()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

/// Points in whole tenths.
#[expect(clippy::cast_possible_truncation, reason = "a score has far fewer digits")]
fn tenths(points: &Value) -> i64 {
    (points.as_f64().unwrap() * 10.0).round() as i64
}

#[test]
fn letters_that_are_stuck_down_are_no_longer_the_last_of_anything() {
    let stash = Stash::sample();
    assert_eq!(stash.run(&["suggest", "lantern-walk", "--apply", "--seconds", AMPLE]).code, 0);
    let checked = || json(&stash.run(&["check", "lantern-walk", "--json"]));
    let scarce = |checked: &Value, role: &str| {
        list(&checked["findings"]).iter().filter(|one| one["id"] == "scarce" && one["strip"] == role).count()
    };
    let before = checked();
    assert_eq!((scarce(&before, "title"), scarce(&before, "subtitle")), (0, 4), "{before}");
    let score = |checked: &Value, place: usize| tenths(&checked["strips"][place]["score"]);
    assert_eq!(stash.run(&["stick", "lantern-walk", "--strip", "title"]).code, 0);
    let title_down = checked();
    assert_eq!((score(&title_down, 0), score(&title_down, 1)), (score(&before, 0), score(&before, 1)));
    assert_eq!(stash.run(&["stick", "lantern-walk"]).code, 0);
    let all_down = checked();
    assert_eq!(scarce(&all_down, "title") + scarce(&all_down, "subtitle"), 0, "{all_down}");
    assert_eq!(score(&all_down, 0), score(&before, 0));
    // What the subtitle cost for taking the last letters of their size, and nothing else, is gone.
    let saved: i64 = list(&before["findings"])
        .iter()
        .filter(|one| one["id"] == "scarce")
        .map(|one| tenths(&one["points"]))
        .sum();
    assert_eq!(score(&all_down, 1), score(&before, 1) - saved);
    // And a search asked what is there says the same.
    let asked = json(&stash.run(&["suggest", "lantern-walk", "--json", "--seconds", AMPLE]));
    assert!(asked["suggestions"].as_array().is_none_or(Vec::is_empty), "{asked}");
}
