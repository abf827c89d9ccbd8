//! The rows, tried one by one; and that no action is left out.
//!
//! Must not know what an action does.

use oddment::app::ACTIONS;

use super::bench::Bench;
use super::rows::{self, Case};
use super::{order_rows, page_rows, sheet_rows, wording_rows};

/// Every row.
fn cases() -> impl Iterator<Item = &'static Case> {
    let of_views = [page_rows::CASES, sheet_rows::CASES, wording_rows::CASES, order_rows::CASES];
    rows::CASES.iter().chain(of_views.into_iter().flatten())
}

#[test]
fn each_row_of_keys_gives_what_it_says() {
    let mut wrong = String::new();
    for (name, before, keys, after) in cases() {
        let mut bench = Bench::on(before);
        let told = bench.press(keys).told();
        if told != *after {
            wrong += &format!("{name}: {before}  <{keys}>\n  is     {told}\n  not    {after}\n");
        }
        let ran = bench.ran.last().and_then(|ran| ACTIONS.iter().find(|row| row.action == *ran));
        assert_eq!(ran.map(|row| row.name), Some(*name), "{before}  <{keys}>");
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn no_action_is_left_out() {
    for row in ACTIONS {
        assert!(cases().any(|(name, ..)| *name == row.name), "{} is tried by no row", row.name);
    }
    for (name, ..) in cases() {
        assert!(ACTIONS.iter().any(|row| row.name == *name), "{name} is no action");
    }
}

#[test]
fn every_key_of_an_action_runs_it() {
    for row in ACTIONS {
        for (name, before, keys, _) in cases().filter(|(name, ..)| *name == row.name).take(1) {
            let first = keys.trim_end().rsplit_once(' ').map_or("", |(first, _)| first);
            let told = |key: &str| {
                let mut bench = Bench::on(before);
                bench.press(first).press(key);
                assert_eq!(bench.ran.last(), Some(&row.action), "{name} by {key}");
                bench.told()
            };
            let by_first = told(row.keys[0]);
            for key in &row.keys[1..] {
                assert_eq!(told(key), by_first, "{name} by {key}");
            }
        }
    }
}
