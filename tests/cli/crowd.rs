//! Many commands on one stash at the same time: each is done whole, one after the other, and none is lost.
//!
//! Must not know how they wait for each other.

use std::thread;

use super::shell::Stash;

/// Commands that run at once, and how often each is run again.
const PROCESSES: usize = 20;
const TIMES: usize = 5;

#[test]
fn letters_counted_in_by_many_at_once_are_all_there() {
    let stash = Stash::sample();
    // Ten letters, so that 100 counts stay countable, each its own way.
    let letters = ["A", "BB", "C", "É", "Z"];
    thread::scope(|scope| {
        for process in 0..PROCESSES {
            let stash = &stash;
            scope.spawn(move || {
                for _ in 0..TIMES {
                    let told = stash.run(&["count", "kelp-caps", letters[process % letters.len()], "--add"]);
                    assert_eq!((told.code, told.err.as_str()), (0, ""), "{}", told.out);
                }
            });
        }
    });
    let sheet = stash.read("sheets/kelp-caps.toml");
    let each = PROCESSES / letters.len() * TIMES;
    for (letter, was, more) in [("A", 1, each), ("B", 2, 2 * each), ("C", 2, each), ("Z", 6, each)] {
        assert!(sheet.contains(&format!("\n{letter} = {}\n", was + more)), "{letter}\n{sheet}");
    }
    assert!(sheet.contains(&format!("É = {each}")) || sheet.contains(&format!("\"É\" = {each}")), "{sheet}");
    let ledger = stash.read("ledger.toml");
    let numbers: Vec<usize> =
        ledger.lines().filter_map(|line| line.strip_prefix("number = ")?.parse().ok()).collect();
    assert!(numbers.iter().copied().eq(1..=PROCESSES * TIMES), "{numbers:?}");
    assert!(sheet.contains(&format!("as_of = {}\n", PROCESSES * TIMES)), "{sheet}");
}
