//! A plan opened with all that it is judged by.
//!
//! Must not know what is done with it.

use std::time::{Duration, Instant};

use anyhow::Result;

use crate::app::Shelf;
use crate::files::{Access, FilesError, Loaded, PlanFile, Problems, StashFolder, StashLock, escaped};
use crate::plan::Plan;

use super::args::Args;
use super::say::{Fault, say_beside, warn};

/// A plan, the stash, and the scene it is judged in.
#[derive(Debug)]
pub(super) struct Opened {
    pub(super) plan: Plan,
    pub(super) shelf: Shelf,
    pub(super) file: PlanFile,
    pub(super) folder: StashFolder,
}

/// How long a command waits for another to let go of the stash. While others come and go it is the queue that takes long, and
/// it waits on.
const PATIENCE: Duration = Duration::from_secs(5);

/// The right to write to a stash, which lasts as long as it is kept. Another command that writes is waited for.
pub(super) fn right_to_write(folder: &StashFolder) -> Result<StashLock> {
    patiently(folder, || folder.ask_to_write())
}

/// The same, without a change to what a writer that was killed left behind.
pub(super) fn right_to_mend(folder: &StashFolder) -> Result<StashLock> {
    patiently(folder, || folder.ask_to_mend())
}

fn patiently(folder: &StashFolder, ask: impl Fn() -> Result<Access, FilesError>) -> Result<StashLock> {
    let (mut began, mut came) = (Instant::now(), folder.last_writer_came());
    loop {
        match ask()? {
            Access::Writer(lock) => return Ok(lock),
            Access::OtherWriter if began.elapsed() < PATIENCE => {
                std::thread::sleep(Duration::from_millis(10));
                let comes = folder.last_writer_came();
                if comes != came {
                    (began, came) = (Instant::now(), comes);
                }
            }
            Access::OtherWriter => return Err(Fault::Held.into()),
            Access::ReadOnly => {
                let text = "this stash takes no changes: its folder is read-only; see who may write there";
                return Err(Fault::Input(text.into()).into());
            }
        }
    }
}

/// The right to write, and the stash with all that a crash left half done finished.
pub(super) fn writer(folder: &StashFolder) -> Result<(StashLock, Loaded)> {
    let lock = right_to_write(folder)?;
    let loaded = folder.load()?;
    let done = folder.complete(&lock, &loaded)?;
    for what in &done {
        say_beside(&format!("finished what was left half done: {what}"))?;
    }
    let loaded = if done.is_empty() { loaded } else { folder.load()? };
    Ok((lock, loaded))
}

impl Opened {
    /// Opens a plan to write into it.
    pub(super) fn to_write(args: &Args, name: &str) -> Result<(Self, StashLock)> {
        let folder = args.folder()?;
        let file = folder.find_plan(name)?;
        let (writer, _) = writer(&folder)?;
        // Saving lets go of the trial: changes on the bench that nobody has saved yet.
        if folder.trial_path(&file).exists() {
            let slug = file.slug();
            let text = format!(
                "{slug} has changes that were never saved; open it on the bench and save or drop them"
            );
            return Err(Fault::Input(text).into());
        }
        Ok((Self::plan(args, name)?, writer))
    }

    /// The place of the strip of this role.
    pub(super) fn strip_called(&self, role: &str) -> Result<usize> {
        self.plan.strip_called(role).ok_or_else(|| {
            let roles: Vec<&str> = self.plan.strips().iter().map(|strip| strip.role().as_str()).collect();
            let (role, roles) = (escaped(role), escaped(&roles.join(", ")));
            Fault::Input(format!("there is no strip \"{role}\"; this plan has: {roles}")).into()
        })
    }

    /// Opens the plan called `name`; what is wrong in the stash's files is told on the way.
    pub(super) fn plan(args: &Args, name: &str) -> Result<Self> {
        let folder = args.folder()?;
        let mut loaded = folder.load()?;
        let file = folder.find_plan(name)?;
        let opened = folder.open_plan(&file, &loaded.colours, &loaded.stash);
        match &opened {
            Err(FilesError::BadPlan(own)) => warn(&loaded.problems, own)?,
            _ => warn(&loaded.problems, &Problems::new())?,
        }
        let plan = opened?.plan;
        let others = loaded.take_others(&file);
        let mut shelf = Shelf::new(loaded.stash, loaded.taste, loaded.colours, &others);
        shelf.look_at(&plan.page);
        Ok(Self { plan, shelf, file, folder })
    }
}
