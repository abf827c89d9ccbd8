//! Letters stuck down and lifted on the user's word.
//!
//! Must not know keys or screens.

use super::counted::today;
use crate::files::{Access, Lift, PlanFile, RecordError, StashFolder, check_together};

/// Sticks all letters of a saved plan down that are not yet, or lifts all that are; tells what was done.
///
/// # Errors
/// In words: what the stash lacks, or what cannot be read or written.
pub(super) fn deed(
    folder: &StashFolder,
    access: &Access,
    file: &PlanFile,
    stick: bool,
) -> Result<String, String> {
    let Access::Writer(lock) = access else { return Err("this stash is only looked at".into()) };
    act(folder, lock, file, stick).map_err(|error| error.to_string())
}

fn act(
    folder: &StashFolder,
    lock: &crate::files::StashLock,
    file: &PlanFile,
    stick: bool,
) -> Result<String, RecordError> {
    let loaded = folder.load()?;
    let mut plan = folder.open_plan(file, &loaded.colours, &loaded.stash)?.plan;
    if stick {
        check_together(&loaded.stash, &plan, &(0..plan.strips().len()).collect::<Vec<_>>())?;
    }
    let day = today();
    let mut told = Vec::new();
    for place in 0..plan.strips().len() {
        let strip = &plan.strips()[place];
        let open = |slot: &usize| strip.letter(*slot).is_some() && strip.is_down(*slot) != stick;
        let (role, letters) = (strip.role().to_string(), (0..strip.len()).filter(open).count());
        let done = if stick {
            folder.stick(lock, (file, &plan, place), &day, &loaded.colours)?
        } else {
            folder.lift(lock, (file, &plan, place), Lift::All, &day, &loaded.colours)?
        };
        if let Some(now) = done {
            plan = now;
            told.push(format!("{role} {letters}"));
        }
    }
    let what = if stick { "stuck down" } else { "lifted" };
    Ok(format!("{what}: {}", told.join(", ")))
}
