//! Each deed, stopped after each of its steps.
//!
//! Must not know which steps there are.

use std::io;

use oddment::files::{Lift, RecordError, StashFolder, StashLock, read_csv};
use oddment::measure::ColourNames;
use oddment::stash::{Kind, SheetId};
use oddment::title::{Wish, Wording};

use super::stage::{DAY, LEDGER, Seen, Stage, Stopper, deed};

/// Something done to a stash.
type Act = fn(&StashFolder, &StashLock) -> Result<(), RecordError>;

fn stick(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    let loaded = stash.load()?;
    let file = stash.find_plan("walk")?;
    let plan = stash.open_plan(&file, &loaded.colours, &loaded.stash)?.plan;
    stash.stick(lock, (&file, &plan, 0), DAY, &loaded.colours).map(|_| ())
}

fn lift_how(stash: &StashFolder, lock: &StashLock, how: Lift<'_>) -> Result<(), RecordError> {
    let loaded = stash.load()?;
    let file = stash.find_plan("walk")?;
    let plan = stash.open_plan(&file, &loaded.colours, &loaded.stash)?.plan;
    stash.lift(lock, (&file, &plan, 0), how, DAY, &loaded.colours).map(|_| ())
}

fn lift(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    lift_how(stash, lock, Lift::All)
}

fn lift_one(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    lift_how(stash, lock, Lift::Whole(&[1]))
}

fn tear_one(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    lift_how(stash, lock, Lift::Torn(&[2]))
}

fn count(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    stash.record(lock, deed(Kind::Added, &[("kelp/A", 2), ("kelp/é", 1), ("oars/N", -1)]), DAY).map(|_| ())
}

fn recount(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    stash.record(lock, deed(Kind::Counted, &[("kelp/A", 0), ("oars/N", 9)]), DAY).map(|_| ())
}

/// A new sheet like one that is there, and letters counted on that one, all at once.
fn take_in(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    let mut sheet = stash.load()?.stash.sheets()[0].clone();
    sheet.id = SheetId::new("weed").unwrap();
    let more = deed(Kind::Counted, &[("kelp/L", 5)]);
    stash.take_in(lock, &[sheet], more, DAY).map(|_| ())
}

/// A table with two new sheets, and letters counted on both that are there, one of them new to its sheet.
const TABLE: &str = "sheet,form,height,colour,character,left\r\nkelp,die-cut,20 mm,teal,A,9\r\nDune grass,tile,12 mm,tan,A,4\r\n\
    oars,tile,20 mm,red,N,3\r\nsand,die-cut,1 in,gold,S,2\r\nsand,die-cut,1 in,navy,S,1\r\nkelp,die-cut,20 mm,teal,Q,0\r\n";

fn take_in_table(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    let intake = read_csv("table.csv", TABLE, &stash.load()?).unwrap();
    assert_eq!((intake.new.len(), intake.counted.chips.len()), (2, 3));
    stash.take_in(lock, &intake.new, intake.counted, DAY).map(|_| ())
}

fn save(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    let _ = lock;
    let loaded = stash.load()?;
    let file = stash.find_plan("walk")?;
    let mut plan = stash.open_plan(&file, &loaded.colours, &loaded.stash)?.plan;
    plan.name = Some("The walk".into());
    stash.keep_trial(&file, &plan, &ColourNames::default())?;
    stash.save_plan(&file, &plan, &ColourNames::default())?;
    Ok(())
}

fn said(text: &str) -> Wording {
    Wording::new(text).unwrap()
}

fn wish(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    let note = Some("with the long photo".into());
    Ok(stash.add_wish(lock, &Wish { wording: said("HARBOUR\nLIGHTS"), note })?)
}

fn wish_more(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    Ok(stash.add_wish(lock, &Wish { wording: said("QUAY"), note: None })?)
}

fn drop_wish(stash: &StashFolder, lock: &StashLock) -> Result<(), RecordError> {
    stash.drop_wish(lock, &said("HARBOUR\nLIGHTS"))?;
    Ok(())
}

/// The deed, what was done before it, and what is done.
const DEEDS: [(&str, &[Act], Act); 12] = [
    ("stick", &[], stick),
    ("lift", &[stick], lift),
    ("lift one", &[stick], lift_one),
    ("tear one", &[stick], tear_one),
    ("count", &[stick], count),
    ("recount", &[stick], recount),
    ("take in", &[stick], take_in),
    ("take in a table", &[stick], take_in_table),
    ("save", &[], save),
    ("wish", &[], wish),
    ("wish more", &[wish], wish_more),
    ("drop a wish", &[wish, wish_more], drop_wish),
];

/// A stash on which `acts` were done.
fn after(acts: &[Act]) -> Stage {
    let stage = Stage::new();
    for act in acts {
        let (lock, _) = stage.start();
        act(&stage.stash(), &lock).unwrap();
    }
    stage
}

/// All after that start are equal to the state before or the state after, and both are met.
fn stopped(kind: io::ErrorKind) {
    for (name, before, act) in DEEDS {
        let nothing = after(before).seen();
        let all = after(&[before, &[act]].concat()).seen();
        assert_ne!(nothing, all, "{name} does something");
        let mut met = [0, 0];
        for steps in 0.. {
            let stage = after(before);
            let stopper = Stopper::after(steps, kind);
            let outcome = {
                let (lock, _) = stage.start();
                act(&stage.stash().watched(stopper.clone()), &lock)
            };
            let told = outcome.as_ref().map_err(ToString::to_string).err().unwrap_or_default();
            assert!(outcome.is_ok() || stopper.has_stopped(), "{name} after {steps}: {told}");
            let seen = is_whole(name, steps, stage.seen(), &nothing, &all);
            met[usize::from(seen)] += 1;
            if outcome.is_ok() {
                assert!(seen && steps > 3, "{name}: done after {steps}");
                break;
            }
        }
        assert!(met[0] > 0 && met[1] > 0, "{name}: {met:?}");
    }
}

/// Whether all is done; else nothing is.
fn is_whole(name: &str, steps: u32, mut seen: Seen, nothing: &Seen, all: &Seen) -> bool {
    // A trial may be there or not: it is offered.
    seen.files.retain(|file| !file.starts_with("trials/"));
    // The ledger may be there before anything is in it; a new sheet's file comes with it.
    if seen == *all {
        return true;
    }
    assert_eq!(seen.counts, nothing.counts, "{name} stopped after {steps} steps: counts");
    assert_eq!(seen.plan, nothing.plan, "{name} stopped after {steps} steps: plan");
    assert_eq!(seen.wishes, nothing.wishes, "{name} stopped after {steps} steps: wishes");
    assert_eq!(seen.files, nothing.files, "{name} stopped after {steps} steps: files");
    false
}

#[test]
fn killed_between_any_two_steps_it_is_all_or_nothing() {
    stopped(io::ErrorKind::Other);
}

#[test]
fn a_disk_that_is_full_from_any_step_on_loses_nothing() {
    stopped(io::ErrorKind::StorageFull);
}

#[test]
fn sticking_twice_changes_nothing_and_lifting_puts_all_back() {
    let stage = after(&[stick]);
    let stuck = stage.seen();
    let again = after(&[stick, stick]);
    assert_eq!(again.seen(), stuck);
    let lifted = after(&[stick, lift]).seen();
    assert_eq!(lifted.counts, Stage::new().seen().counts);
    assert_eq!(lifted.plan, Stage::new().seen().plan);
    let text = std::fs::read_to_string(stage.path().join("sheets/kelp.toml")).unwrap();
    assert!(text.starts_with("# By hand.\n") && text.contains("A = 1 # three"), "{text}");
}

#[test]
fn what_is_no_longer_there_is_refused_by_name_and_nothing_is_done() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    stage.stash().record(&lock, deed(Kind::Added, &[("kelp/A", -2), ("oars/N:red", -1)]), DAY).unwrap();
    drop(lock);
    let before = stage.seen();
    let (lock, _) = stage.start();
    let refused = stick(&stage.stash(), &lock).unwrap_err().to_string();
    assert_eq!(
        refused,
        "the stash has too few letters: kelp/A: 2 asked for, 1 left; oars/N:red: 1 asked for, 0 left"
    );
    drop(lock);
    assert_eq!(stage.seen(), before);
}

/// The text of every step's error is for people: what cannot be written, why, and whether the deed is done all the same.
#[test]
fn a_full_disk_is_told_and_whether_the_deed_is_done() {
    let mut said = [0, 0];
    for steps in 0.. {
        let stage = Stage::new();
        let nothing = stage.seen();
        let (lock, _) = stage.start();
        let outcome = count(&stage.stash().watched(Stopper::after(steps, io::ErrorKind::StorageFull)), &lock);
        drop(lock);
        let Err(error) = outcome else { break };
        let text = error.to_string();
        assert!(
            text.starts_with("cannot write ") && text.contains(".toml") && text.contains("the disk is full"),
            "{text}"
        );
        let is_done = matches!(error, RecordError::Unfinished(..));
        said[usize::from(is_done)] += 1;
        if is_done {
            assert!(text.contains("do not do it again"), "{text}");
            assert_ne!(stage.seen().counts, nothing.counts, "{steps}");
        }
    }
    assert!(said[0] > 0 && said[1] > 0, "{said:?}");
}

#[test]
fn a_folder_taken_away_meanwhile_is_told_and_not_made_anew_by_a_count() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    let (own, away) = (stage.path().join("sheets"), stage.path().join("away"));
    std::fs::rename(&own, &away).unwrap();
    let refused = count(&stage.stash(), &lock).unwrap_err().to_string();
    assert_eq!(refused, "the stash has no sheet \"kelp\"");
    let refused = stick(&stage.stash(), &lock).unwrap_err().to_string();
    assert_eq!(refused, "the stash has no sheet \"kelp\"");
    assert!(!own.exists());
    assert_eq!(std::fs::read_to_string(stage.path().join("ledger.toml")).unwrap(), LEDGER);
    std::fs::rename(&away, &own).unwrap();
    drop(lock);
    assert_eq!(stage.seen(), Stage::new().seen());
}

#[test]
fn sheets_that_take_no_changes_are_told_by_name_and_nothing_is_done() {
    let stage = Stage::new();
    let (lock, _) = stage.start();
    let set = |read_only: bool| {
        let mut permissions = std::fs::metadata(stage.path().join("sheets")).unwrap().permissions();
        permissions.set_readonly(read_only);
        std::fs::set_permissions(stage.path().join("sheets"), permissions).unwrap();
    };
    set(true);
    let refused = stick(&stage.stash(), &lock).unwrap_err();
    set(false);
    drop(lock);
    let text = refused.to_string();
    assert!(text.contains("kelp.toml") && text.contains("you may not"), "{text}");
    assert!(matches!(refused, RecordError::Files(_)), "{refused:?}");
    assert_eq!(stage.seen(), Stage::new().seen());
}

#[test]
fn a_table_taken_in_is_one_entry_and_its_counts() {
    let stage = after(&[stick, take_in_table]);
    let (_, loaded) = stage.start();
    let last = loaded.ledger.entries().last().unwrap();
    assert_eq!((last.number, last.deed.kind, loaded.ledger.entries().len()), (6, Kind::Counted, 2));
    let seen = stage.seen().counts;
    let told: Vec<_> = last.deed.chips.iter().map(|(chip, left)| (chip.to_string(), *left)).collect();
    let wanted = [
        ("dune-grass/A", 4),
        ("kelp/A", 9),
        ("kelp/Q", 0),
        ("oars/N:red", 3),
        ("sand/S", 2),
        ("sand/S:navy", 1),
    ];
    assert_eq!(told, wanted.map(|(chip, left)| (chip.to_owned(), left)));
    assert!(wanted.iter().all(|(chip, left)| i32::from(seen[*chip]) == *left), "{seen:?}");
}
