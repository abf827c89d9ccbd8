//! Mending, stopped after each of its steps: no file is lost, and mending again does the rest.
//!
//! Must not know which steps there are.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use oddment::files::{Access, StashFolder};
use tempfile::TempDir;

use super::stage::{DAY, Stopper};

const HEAD: &str = "form = \"tile\"\nheight = 20\ncolour = \"teal\"\n";
const STRIP: &str =
    "[[strip.letter]]\nslot = 1\nchip = \"kelp/A\"\n[[strip.letter]]\nslot = 2\nchip = \"kelp/L\"\n";

/// A stash with something wrong of every kind that mending writes for.
fn stash() -> TempDir {
    let entry =
        |number: u32, rest: &str| format!("[[entry]]\nnumber = {number}\ndate = \"2031-01-02\"\n{rest}\n\n");
    let added = |number, chips: &str| entry(number, &format!("kind = \"added\"\nchips = {{ {chips} }}"));
    let sheet = |more: &str, letters: &str| format!("{HEAD}{more}\n[letters]\n{letters}\n");
    let plan = |more: &str| format!("[[strip]]\nwording = \"AL\"\n{more}\n{STRIP}");
    let stuck = entry(
        2,
        "kind = \"stuck\"\npage = \"walk\"\nstrip = \"title\"\nchips = { \"kelp/A\" = 1, \"kelp/L\" = 1 }",
    );
    let edited = added(6, "\"rope/A\" = 1").replace("}\n", "}\nhad = { \"rope/A\" = 4 }\n");
    let ledger = [
        stuck,
        added(1, "\"kelp/A\" = 1"),
        added(3, "\"kelp/A\" = 2, \"oars/A\" = 1"),
        added(3, "\"kelp/L\" = 5, \"oars/A\" = 4"),
        added(4, "\"weed/A\" = 3"),
        "[[entry]]\nnumber = 5\nkind = \n\n".into(),
        edited,
        "\0\0\0".into(),
    ];
    let files = [
        ("ledger.toml", ledger.concat()),
        ("sheets/kelp.toml", sheet("as_of = 9", "A = 2\nL = 1")),
        ("sheets/oars.toml", sheet("as_of = 2", "A = 2")),
        ("sheets/moss.toml", sheet("", "A = -2\nB = 3")),
        ("sheets/rope.toml", sheet("as_of = 4", "A = 9")),
        ("sheets/.waiting-4-weed", sheet("as_of = 4", "A = 3")),
        ("sheets/.waiting-5-reed", sheet("as_of = 5", "A = 3")),
        ("pages/walk.toml", plan("")),
        ("pages/pier.toml", plan("stuck = 7")),
        ("pages/torn.toml", "[[strip]\n".into()),
    ];
    let folder = TempDir::new().unwrap();
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    folder
}

fn files(root: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![root.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(root).unwrap().to_str().unwrap().to_owned();
                files.insert(name, fs::read(path).unwrap());
            }
        }
    }
    files
}

/// Mends; what is still told afterwards, and all that is left of every letter.
fn mended(folder: &Path) -> (Vec<String>, BTreeMap<String, u16>) {
    let stash = StashFolder::at(folder);
    let Access::Writer(lock) = stash.ask_to_mend().unwrap() else { unreachable!("nobody else is here") };
    stash.mend(&lock, DAY).unwrap();
    let loaded = stash.load().unwrap();
    assert!(!loaded.is_ledger_damaged && loaded.behind.is_empty(), "{}", loaded.problems);
    let left = stash.ailments(DAY).unwrap().iter().map(ToString::to_string).collect();
    let counts = loaded
        .stash
        .chips()
        .map(|ix| loaded.stash.chip(ix))
        .map(|chip| (chip.id().to_string(), chip.letter.left));
    (left, counts.collect())
}

/// `start` is what the next start of the program does before somebody mends again.
fn stopped(start: fn(&StashFolder)) {
    let whole = stash();
    let old = files(whole.path());
    let (left, counts) = mended(whole.path());
    assert_eq!(left.len(), 1, "only the torn plan is left: {left:?}");
    assert_eq!(
        counts.iter().map(|(chip, count)| format!("{chip} {count}")).collect::<Vec<_>>().join(", "),
        "kelp/A 2, kelp/L 1, moss/A 0, moss/B 3, oars/A 7, rope/A 10, weed/A 3"
    );
    for steps in 0.. {
        let folder = stash();
        let stopper = Stopper::after(steps, io::ErrorKind::StorageFull);
        let stash = StashFolder::at(folder.path()).watched(stopper.clone());
        let done = {
            let Access::Writer(lock) = stash.ask_to_mend().unwrap() else {
                unreachable!("nobody else is here")
            };
            stash.mend(&lock, DAY).is_ok()
        };
        assert!(done || stopper.has_stopped());
        start(&StashFolder::at(folder.path()));
        let again = mended(folder.path());
        assert_eq!((&again.0, &again.1), (&left, &counts), "stopped after {steps} steps");
        let now = files(folder.path());
        for (name, bytes) in &old {
            let is_it = |(other, there): (&String, &Vec<u8>)| {
                there == bytes
                    && (other == name || other.starts_with("kept-aside/") && other.ends_with(name.as_str()))
            };
            // A new sheet that waited has its own name now.
            let taken_in = name == "sheets/.waiting-4-weed" && now.get("sheets/weed.toml") == Some(bytes);
            assert!(taken_in || now.iter().any(is_it), "{name} is lost after {steps} steps");
        }
        if done {
            assert!(steps > 50, "{steps}");
            break;
        }
    }
}

#[test]
fn killed_or_with_a_full_disk_from_any_step_on_nothing_is_lost_and_mending_again_does_the_rest() {
    stopped(|_| ());
}

#[test]
fn a_start_of_the_program_between_two_mendings_changes_nothing_of_it() {
    stopped(|stash| {
        let Access::Writer(lock) = stash.ask_to_write().unwrap() else { unreachable!("nobody else is here") };
        let loaded = stash.load().unwrap();
        stash.complete(&lock, &loaded).unwrap();
    });
}
