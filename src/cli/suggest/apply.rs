//! Writes the first mix into its plan.
//!
//! Must not know how a plan is spelled in its file.

use anyhow::Result;

use crate::checks::judge;
use crate::plan::Plan;
use crate::suggest::Outcome;

use super::super::opened::Opened;
use super::answer::{Answer, Written};

/// Writes the first mix of `outcome`, unless what stands there scores less and could be stuck down as it is.
pub(super) fn write(opened: &Opened, outcome: &Outcome, answer: &Answer) -> Result<Written> {
    let Opened { plan, shelf, file, folder } = opened;
    let mut written = Written { file: file.path().display().to_string(), letters: 0 };
    let (Some(first), Some(told)) = (outcome.suggestions.first(), answer.suggestions.first()) else {
        return Ok(written);
    };
    if answer.now < told.score && !judge(plan, &shelf.stash, &shelf.scene).stops() {
        return Ok(written);
    }
    let applied = first.applied(plan, &shelf.stash);
    written.letters = changed(plan, &applied);
    if written.letters > 0 {
        folder.save_plan(file, &applied, &shelf.names)?;
    }
    Ok(written)
}

/// How many slots have something else in them.
fn changed(old: &Plan, new: &Plan) -> usize {
    let strips = old.strips().iter().zip(new.strips());
    let slots = strips.flat_map(|(old, new)| old.letters().iter().zip(new.letters()));
    slots.filter(|(old, new)| old != new).count()
}
