//! Letters stuck down and lifted on the user's word.
//!
//! Must not know keys or screens.

use super::counted::today;
use crate::files::{Access, Lift, PlanFile, RecordError, StashFolder, StashLock, check_together};

/// What is done with the letters of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Act {
    /// All that are not stuck down yet are.
    Stick,
    /// All that are stuck down came off whole.
    LiftAll,
    /// The one in a slot, from 0, of the strip at a place came off.
    LiftOne { strip: usize, slot: usize, torn: bool },
}

/// Does it with a saved plan; tells what was done.
///
/// # Errors
/// In words: what the stash lacks, or what cannot be read or written.
pub(super) fn deed(
    folder: &StashFolder,
    access: &Access,
    file: &PlanFile,
    act: Act,
) -> Result<String, String> {
    let Access::Writer(lock) = access else { return Err("this stash is only looked at".into()) };
    done(folder, lock, file, act).map_err(|error| error.to_string())
}

fn done(folder: &StashFolder, lock: &StashLock, file: &PlanFile, act: Act) -> Result<String, RecordError> {
    let loaded = folder.load()?;
    let mut plan = folder.open_plan(file, &loaded.colours, &loaded.stash)?.plan;
    if act == Act::Stick {
        check_together(&loaded.stash, &plan, &(0..plan.strips().len()).collect::<Vec<_>>())?;
    }
    let day = today();
    let mut told = Vec::new();
    for place in 0..plan.strips().len() {
        let strip = &plan.strips()[place];
        let is_meant = |slot: &usize| match act {
            Act::Stick => strip.letter(*slot).is_some() && !strip.is_down(*slot),
            Act::LiftAll => strip.is_down(*slot),
            Act::LiftOne { strip: of, slot: one, .. } => (of, one) == (place, *slot) && strip.is_down(one),
        };
        let slots: Vec<usize> = (0..strip.len()).filter(is_meant).collect();
        let (role, which) = (strip.role().to_string(), (file, &plan, place));
        let done = match act {
            Act::Stick => folder.stick(lock, which, &day, &loaded.colours)?,
            Act::LiftAll => folder.lift(lock, which, Lift::All, &day, &loaded.colours)?,
            Act::LiftOne { torn, .. } => {
                let lift = if torn { Lift::Torn(&slots) } else { Lift::Whole(&slots) };
                folder.lift(lock, which, lift, &day, &loaded.colours)?
            }
        };
        if let Some(now) = done {
            plan = now;
            told.push(format!("{role} {}", slots.len()));
        }
    }
    let what = match act {
        Act::Stick => "stuck down",
        Act::LiftAll | Act::LiftOne { torn: false, .. } => "lifted",
        Act::LiftOne { torn: true, .. } => "came off torn, and spent",
    };
    Ok(format!("{what}: {}", told.join(", ")))
}
