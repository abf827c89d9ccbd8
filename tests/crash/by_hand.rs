//! The program is stopped between the ledger and a sheet, and its owner changes the sheet before it starts again.
//!
//! Must not know how that is noticed.

use std::fs;
use std::io;

use oddment::files::StashFolder;
use oddment::stash::Kind;

use super::stage::{DAY, Stage, Stopper, deed};

/// What is asked then.
const QUESTION: &str = "sheets/kelp.toml:1:1: warning: as_of: kelp/A (3 before, 7 now) changed by hand before entry 5 of the \
     ledger was counted in it; `oddment mend --write` counts that in now, or, if your counts include it already, write as_of = 5 \
     into the file";

/// A stash whose ledger has an entry that its sheet does not include, the sheet changed by hand since.
fn edited() -> Stage {
    for steps in 0.. {
        let stage = Stage::new();
        {
            let (lock, _) = stage.start();
            let watched = stage.stash().watched(Stopper::after(steps, io::ErrorKind::Other));
            let done = watched.record(&lock, deed(Kind::Added, &[("kelp/A", -2), ("kelp/L", 1)]), DAY);
            assert!(done.is_err(), "it is stopped before the sheet is written");
        }
        if stage.stash().load().unwrap().behind.len() == 1 {
            change(&stage, "A = 3", "A = 7");
            return stage;
        }
    }
    unreachable!("the ledger is written before the sheet")
}

fn change(stage: &Stage, from: &str, to: &str) {
    let path = stage.path().join("sheets/kelp.toml");
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.contains(from), "{text}");
    fs::write(path, text.replace(from, to)).unwrap();
}

fn told(stash: &StashFolder) -> String {
    stash.load().unwrap().problems.to_string()
}

#[test]
fn nothing_is_applied_before_the_owner_was_asked() {
    let stage = edited();
    let before = fs::read(stage.path().join("sheets/kelp.toml")).unwrap();
    let stash = stage.stash();
    assert_eq!(told(&stash), QUESTION);
    let lock = stage.lock();
    let loaded = stash.load().unwrap();
    assert_eq!(stash.complete(&lock, &loaded).unwrap(), Vec::<String>::new());
    let refused = stash.record(&lock, deed(Kind::Added, &[("kelp/L", 1)]), DAY).unwrap_err();
    assert_eq!(refused.to_string(), QUESTION.replace(":1:1: warning: as_of", ""));
    // Another sheet is not concerned.
    stash.record(&lock, deed(Kind::Added, &[("oars/N", 1)]), DAY).unwrap();
    assert_eq!(fs::read(stage.path().join("sheets/kelp.toml")).unwrap(), before);
    assert_eq!(told(&stash), QUESTION);
}

#[test]
fn mending_counts_the_entry_in() {
    let stage = edited();
    let mended = stage.stash().mend(&stage.lock(), DAY).unwrap();
    assert_eq!(
        mended.found.iter().filter(|one| one.file == "sheets/kelp.toml").count(),
        1,
        "{:?}",
        mended.found
    );
    let seen = stage.seen().counts;
    assert_eq!((seen["kelp/A"], seen["kelp/L"]), (5, 3));
}

#[test]
fn a_number_written_by_hand_says_that_it_is_counted_in() {
    let stage = edited();
    change(&stage, "as_of = 4", "as_of = 5");
    let seen = stage.seen().counts;
    assert_eq!((seen["kelp/A"], seen["kelp/L"]), (7, 2));
}

#[test]
fn an_edit_of_other_letters_is_taken_in() {
    let stage = edited();
    change(&stage, "A = 7", "A = 3");
    change(&stage, "L = 2", "L = 2\nM = 6");
    let seen = stage.seen().counts;
    assert_eq!((seen["kelp/A"], seen["kelp/L"], seen["kelp/M"]), (1, 3, 6));
}
