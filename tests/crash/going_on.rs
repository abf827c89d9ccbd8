//! A step fails, and the program goes on: what is done next does not count twice what was done, nor do what was not.
//!
//! Must not know which steps there are.

use std::fs;
use std::io;
use std::path::Path;
use std::sync::Arc;

use oddment::files::{Onlooker, RecordError, StashFolder, StashLock, Step};
use oddment::stash::{Kind, SheetId};

use super::stage::{DAY, LEDGER, Stage, deed};

/// Forbids one kind of step at one file or folder.
#[derive(Debug)]
struct Forbids(Step, &'static str);

impl Onlooker for Forbids {
    fn before(&self, step: Step, path: &Path) -> io::Result<()> {
        if step == self.0 && path.ends_with(self.1) { Err(io::ErrorKind::StorageFull.into()) } else { Ok(()) }
    }
}

fn forbidden(stage: &Stage, step: Step, name: &'static str) -> StashFolder {
    stage.stash().watched(Arc::new(Forbids(step, name)))
}

fn take_in(stash: &StashFolder, lock: &StashLock, name: &str) -> Result<u32, RecordError> {
    let mut sheet = stash.load()?.stash.sheets()[0].clone();
    sheet.id = SheetId::new(name).unwrap();
    sheet.record.was.clear();
    stash.take_in(lock, &[sheet], deed(Kind::Added, &[]), DAY)
}

fn stick(stash: &StashFolder, lock: &StashLock) -> Result<bool, RecordError> {
    let loaded = stash.load()?;
    let file = stash.find_plan("walk")?;
    let plan = stash.open_plan(&file, &loaded.colours, &loaded.stash)?.plan;
    Ok(stash.stick(lock, (&file, &plan, 0), DAY, &loaded.colours)?.is_some())
}

#[test]
fn a_sheet_that_was_not_taken_in_does_not_come_with_the_next_deed() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    let failed = take_in(&forbidden(&stage, Step::Sync, "ledger.toml"), &lock, "weed").unwrap_err();
    assert!(matches!(failed, RecordError::Files(_)), "{failed}");
    stage.stash().record(&lock, deed(Kind::Added, &[("kelp/A", 1)]), DAY).unwrap();
    drop(lock);
    let seen = stage.seen();
    assert_eq!(seen.counts["kelp/A"], 4);
    assert!(seen.counts.keys().all(|chip| !chip.starts_with("weed/")), "{:?}", seen.counts);
}

#[test]
fn a_new_sheet_never_gets_an_earlier_name_of_another() {
    let stage = Stage::new();
    let path = stage.path().join("sheets/kelp.toml");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replace("colour =", "was = [\"weed\"]\ncolour =")).unwrap();
    let (lock, _) = stage.start();
    let refused = take_in(&stage.stash(), &lock, "weed").unwrap_err().to_string();
    assert_eq!(
        refused,
        "the sheet \"kelp\" was called \"weed\" once, and the ledger speaks of it so; take another name"
    );
    assert_eq!(fs::read_to_string(stage.path().join("ledger.toml")).unwrap(), LEDGER);
}

#[test]
fn a_sheet_that_waits_beside_one_made_by_hand_is_told_and_kept() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    let failed = take_in(&forbidden(&stage, Step::Rename, "sheets/weed.toml"), &lock, "weed").unwrap_err();
    assert!(matches!(failed, RecordError::Unfinished(..)), "{failed}");
    let own = stage.path().join("sheets/weed.toml");
    fs::copy(stage.path().join("sheets/kelp.toml"), &own).unwrap();
    let stash = stage.stash();
    let done = stash.complete(&lock, &stash.load().unwrap()).unwrap();
    assert_eq!(done, Vec::<String>::new());
    let waiting = stage.path().join("sheets/.waiting-5-weed");
    assert!(waiting.exists(), "only mending takes it away, and keeps a copy");
    let mended = stash.mend(&lock, DAY).unwrap();
    assert!(!waiting.exists());
    assert!(mended.kept.unwrap().join("sheets/.waiting-5-weed").exists());
}

#[test]
fn a_ledger_that_is_written_but_perhaps_does_not_last_is_no_ledger_without_the_deed() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    let folder: &'static str = Box::leak(stage.path().display().to_string().into_boxed_str());
    let failed = stage
        .stash()
        .watched(Arc::new(Forbids(Step::SyncFolder, folder)))
        .record(&lock, deed(Kind::Added, &[("kelp/A", 1)]), DAY)
        .unwrap_err();
    assert!(matches!(failed, RecordError::Unfinished(5, _)), "{failed}");
    drop(lock);
    assert_eq!(stage.seen().counts["kelp/A"], 4);
}

#[test]
fn sticking_again_what_was_recorded_and_not_marked_only_marks_it() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    let failed = stick(&forbidden(&stage, Step::Rename, "pages/walk.toml"), &lock).unwrap_err();
    assert!(matches!(failed, RecordError::Unfinished(5, _)), "{failed}");
    assert!(stick(&stage.stash(), &lock).unwrap());
    assert_eq!(stage.stash().load().unwrap().ledger.last(), 5, "nothing is recorded twice");
    drop(lock);
    let seen = stage.seen();
    assert_eq!((seen.counts["kelp/A"], seen.counts["kelp/L"]), (1, 1));
    assert_eq!(seen.plan.unwrap().strips()[0].stuck, Some(5));
}

#[test]
fn a_new_plan_of_an_old_name_has_none_of_its_letters_down() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    assert!(stick(&stage.stash(), &lock).unwrap());
    let path = stage.path().join("pages/walk.toml");
    fs::remove_file(&path).unwrap();
    let other = "[[strip]]\nwording = \"AN\"\n\n[[strip.letter]]\nslot = 1\nchip = \"kelp/A\"\n[[strip.letter]]\nslot = 2\nchip = \
                 \"oars/N\"\n";
    fs::write(&path, other).unwrap();
    drop(lock);
    let (lock, loaded) = stage.start();
    let strip = &loaded.plans[0].plan.as_ref().unwrap().strips()[0];
    assert_eq!(strip.stuck, None, "{strip:?}");
    assert_eq!(fs::read_to_string(&path).unwrap(), other);
    // It can be stuck down itself, and its letters are counted off.
    assert!(stick(&stage.stash(), &lock).unwrap());
    drop(lock);
    let seen = stage.seen();
    assert_eq!((seen.counts["kelp/A"], seen.counts["oars/N"]), (0, 1));
}

#[test]
fn no_entry_gets_a_number_that_cannot_be_read_again() {
    let stage = Stage::new();
    let path = stage.path().join("sheets/oars.toml");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replace("as_of = 4", "as_of = 4294967294")).unwrap();
    let lock = stage.lock();
    let refused = stage.stash().record(&lock, deed(Kind::Added, &[("kelp/A", 1)]), DAY).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "no number is left for another entry of the ledger: as_of in a sheet is far too high; `oddment mend` tells where"
    );
    assert_eq!(fs::read_to_string(stage.path().join("ledger.toml")).unwrap(), LEDGER);
    assert_eq!(stage.stash().ailments(DAY).unwrap().len(), 1);
}
