//! A plan opened with all that it is judged by.
//!
//! Must not know what is done with it.

use anyhow::Result;

use crate::app::Shelf;
use crate::plan::Plan;

use super::args::Args;
use super::say::warn;

/// A plan, the stash, and the scene it is judged in.
#[derive(Debug)]
pub(super) struct Opened {
    pub(super) plan: Plan,
    pub(super) shelf: Shelf,
}

impl Opened {
    /// Opens the plan called `name`; what is wrong in the stash's files is told on the way.
    pub(super) fn plan(args: &Args, name: &str) -> Result<Self> {
        let folder = args.folder()?;
        let loaded = folder.load()?;
        let file = folder.find_plan(name)?;
        warn(&loaded.problems)?;
        let plan = folder.open_plan(&file, &loaded.colours, &loaded.stash)?.plan;
        let others: Vec<(String, Plan)> = loaded
            .plans
            .into_iter()
            .filter(|entry| entry.file.path() != file.path())
            .filter_map(|entry| Some((entry.file.slug().to_string(), entry.plan?)))
            .collect();
        let mut shelf = Shelf::new(loaded.stash, loaded.taste, loaded.colours, &others);
        shelf.look_at(&plan.page);
        Ok(Self { plan, shelf })
    }
}
