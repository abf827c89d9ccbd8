//! What other hands change in the stash's folder while the bench is open: noticed, taken in, or asked about.
//!
//! A change is taken in when two looks in a row find it the same, so that a file half written is let be; before anything is
//! written, at once. Must not know how a change is found, nor when a look is made.

mod plan_file;
mod telling;

use std::collections::BTreeSet;
use std::mem;
use std::path::PathBuf;

use crate::app::{Over, ReadOnly};
use crate::files::{
    Access, Change, FilesError, Level, Loaded, Part, Problem, Seen, new_plan_text, replace_file,
};
use crate::plan::Plan;

use super::desk::{Desk, shelf};

/// What is known of the folder that other hands may change.
#[derive(Debug, Default)]
pub(super) struct Outside {
    seen: Seen,
    /// The plan as its file had it when it was last opened or saved; `None` where it has no file yet.
    base: Option<Plan>,
    plan: PlanFileNow,
    /// What the last look found, and waits for the next to find it the same.
    settling: Vec<Change>,
    /// Problems of the files that are known to the user.
    told: BTreeSet<String>,
    /// Problems to be shown when nothing lies over the view.
    waiting: Vec<String>,
    /// Why the folder cannot be looked at, while it cannot.
    fault: Option<Fault>,
    /// Where the trial is kept while the folder is gone.
    refuge: Option<PathBuf>,
}

/// Why the folder cannot be looked at.
#[derive(Debug, PartialEq, Eq)]
struct Fault {
    told: String,
    /// Whether it is gone; else it is merely closed to us.
    is_gone: bool,
}

/// What the open plan's file is to the trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum PlanFileNow {
    /// It says what it said when it was opened or saved.
    #[default]
    AsKnown,
    /// It says something else, and was opened anew in place of the trial in this very look.
    Reopened,
    /// It says something else, and so does the trial.
    Differs {
        /// Whether that is still to be asked about at leisure.
        unasked: bool,
    },
    /// It has errors or cannot be read.
    Unreadable,
    /// It is not there.
    Gone,
}

impl Outside {
    /// Begins with what was just read; `plan` is what the open plan's file holds, if it has one.
    pub(super) fn of(loaded: &mut Loaded, plan: Option<Plan>) -> Self {
        let told = loaded.problems.all().iter().map(ToString::to_string).collect();
        Self { seen: mem::take(&mut loaded.seen), base: plan, told, ..Self::default() }
    }

    /// The plan's file says what `plan` says: it was saved.
    pub(super) fn was_saved(&mut self, plan: Plan) {
        (self.base, self.plan) = (Some(plan), PlanFileNow::AsKnown);
    }
}

impl Desk {
    /// Looks for changes by another hand, and takes them in when they have settled; whether there is something new to see.
    /// Nothing comes between a line that is being typed, or a question, and its answer.
    pub(super) fn look(&mut self) -> bool {
        if self.state.waits_for_an_answer() {
            return false;
        }
        let shown = self.show_what_waits();
        let changes = match self.folder.changes_since(&mut self.outside.seen, &self.file) {
            Ok(changes) => changes,
            Err(error) => return self.folder_fails(&error) || shown,
        };
        let mut said = self.folder_is_back();
        if changes.is_empty() || changes != self.outside.settling {
            self.outside.settling = changes;
        } else {
            said.extend(self.take_in(&changes));
        }
        if self.outside.plan == PlanFileNow::Reopened {
            self.outside.plan = PlanFileNow::AsKnown;
        }
        self.tell(&said) | self.show_what_waits() | self.show_order_if_due() | shown
    }

    /// Looks for changes by another hand and takes them in at once: something is about to be written. What there is to
    /// say; an error where the folder cannot be written now, which is told.
    fn look_at_once(&mut self) -> Result<Vec<Said>, ()> {
        let changes = match self.folder.changes_since(&mut self.outside.seen, &self.file) {
            Ok(changes) => changes,
            Err(error) => {
                self.folder_fails(&error);
                self.state.complain(format!("nothing is saved: {error}"));
                return Err(());
            }
        };
        let mut said = self.folder_is_back();
        if !changes.is_empty() {
            said.extend(self.take_in(&changes));
        }
        self.outside.settling.clear();
        if !self.access.may_write() {
            self.tell(&said);
            return Err(());
        }
        Ok(said)
    }

    /// Takes in what other hands have changed, as something is about to be written; whether it can be written.
    pub(super) fn look_before_writing(&mut self) -> bool {
        let looked = self.look_at_once();
        let may_write = looked.is_ok();
        self.tell(&looked.unwrap_or_default());
        may_write
    }

    /// Reads the stash anew after something was written; the trial and what is looked at stay.
    pub(super) fn read_anew(&mut self) -> Result<(), FilesError> {
        let mut loaded = self.folder.load()?;
        loaded.seen.add_plan(&self.file);
        self.outside.seen = mem::take(&mut loaded.seen);
        self.state.take_shelf(shelf(&mut loaded, &self.file));
        Ok(())
    }

    /// Reads the stash anew after these changes. What there is to say of it.
    fn take_in(&mut self, changes: &[Change]) -> Vec<Said> {
        let mut loaded = match self.folder.load() {
            Ok(loaded) => loaded,
            Err(error) => {
                self.folder_fails(&error);
                return Vec::new();
            }
        };
        loaded.seen.add_plan(&self.file);
        if changes.iter().any(|change| change.part == Part::OnSale) {
            loaded.problems.append(self.folder.on_sale(&loaded.colours).1);
        }
        self.outside.settling.clear();
        let mut said: Vec<Said> = telling::of_files(changes, &loaded.problems).into_iter().collect();
        self.note_problems(changes, &loaded);
        self.outside.seen = mem::take(&mut loaded.seen);
        let of_shelf = |part| !matches!(part, Part::ThisPlan | Part::OnSale | Part::Keys);
        let names = self.state.shelf.names.clone();
        if changes.iter().any(|change| of_shelf(change.part)) {
            self.state.take_shelf(shelf(&mut loaded, &self.file));
        }
        let recoloured = names != self.state.shelf.names;
        if recoloured {
            self.take_colours(&names);
        }
        if recoloured || changes.iter().any(|change| change.part == Part::ThisPlan) {
            said.extend(self.see_plan());
        }
        said
    }

    /// Problems that are new to the user wait to be shown: all that changed files have, and errors that others have now.
    fn note_problems(&mut self, changes: &[Change], loaded: &Loaded) {
        let problems = loaded.problems.all();
        let of_changed = |one: &Problem| changes.iter().any(|change| change.file == one.file);
        let shown = problems.iter().filter(|one| one.level == Level::Error || of_changed(one));
        let fresh = shown.map(ToString::to_string).filter(|one| !self.outside.told.contains(one));
        self.outside.waiting = fresh.collect();
        self.outside.told = problems.iter().map(ToString::to_string).collect();
    }

    /// Shows what could not be shown before because something lay over the view.
    fn show_what_waits(&mut self) -> bool {
        // What is typed for a sheet in hand must not answer a question.
        if !matches!(self.state.over, Over::Nothing) || self.state.sheets.counting.is_some() {
            return false;
        }
        if !self.outside.waiting.is_empty() {
            let text = mem::take(&mut self.outside.waiting).join("\n");
            self.state.show_page("what is wrong in the stash's files", &text);
            return true;
        }
        self.ask_at_leisure()
    }

    /// Tells once that the folder cannot be looked at. Where it is gone, the trial is the only copy there is.
    fn folder_fails(&mut self, error: &FilesError) -> bool {
        let fault = Fault { told: error.to_string(), is_gone: matches!(error, FilesError::Gone(_)) };
        if self.outside.fault.as_ref() == Some(&fault) {
            return false;
        }
        self.state.complain(fault.told.clone());
        let is_gone = fault.is_gone;
        self.outside.fault = Some(fault);
        if is_gone {
            if self.outside.base.is_some() {
                self.state.is_saved_nowhere();
            }
            // Also of a plan that was never saved.
            self.state.is_kept_nowhere();
        }
        true
    }

    /// The folder can be looked at. After a time in which it could not, or where another lies there now, the right to
    /// write is asked for again.
    fn folder_is_back(&mut self) -> Vec<Said> {
        let mut said = Vec::new();
        let was_away = self.outside.fault.take().is_some();
        if was_away {
            said.push(Said::plain("the stash's folder can be read again"));
            self.state.is_kept_nowhere();
            said.extend(self.see_plan());
        }
        if matches!(&self.access, Access::Writer(lock) if !lock.holds()) {
            self.access = Access::ReadOnly;
            let asked = self.folder.ask_to_write();
            self.access = asked.unwrap_or(Access::ReadOnly);
            let why = match self.access {
                Access::Writer(_) => return said,
                Access::OtherWriter => ReadOnly::Held,
                Access::ReadOnly => ReadOnly::Folder,
            };
            self.state.file.read_only = Some(why);
            said.push(Said::fault(why.told()));
        }
        said
    }

    /// Whether the folder was gone when it was last looked at.
    pub(super) const fn is_homeless(&self) -> bool {
        matches!(&self.outside.fault, Some(fault) if fault.is_gone)
    }

    /// Keeps the trial in the system's folder for scratch files: the stash's own is gone, and is not made anew for one
    /// trial.
    pub(super) fn keep_elsewhere(&mut self) -> Option<PathBuf> {
        let text = new_plan_text(self.state.trial.plan(), &self.state.shelf.names);
        let kept = self.refuge().and_then(|path| {
            replace_file(&path, text.as_bytes())?;
            Ok(path)
        });
        match kept {
            Ok(path) => {
                self.state.was_kept();
                let shown = path.display().to_string().escape_debug().to_string();
                self.state.complain(format!("the stash's folder is gone; the trial is kept as {shown}"));
                Some(path)
            }
            Err(error) => {
                self.state.complain(format!("the stash's folder is gone, and {error}"));
                None
            }
        }
    }

    fn refuge(&mut self) -> Result<PathBuf, FilesError> {
        if let Some(path) = &self.outside.refuge {
            return Ok(path.clone());
        }
        let place = std::env::temp_dir();
        let name = format!("oddment-trial-{}-", self.file.slug());
        let made = tempfile::Builder::new().prefix(&name).suffix(".toml").tempfile_in(&place);
        let kept = made.and_then(|file| file.keep().map_err(|error| error.error));
        let (_, path) = kept.map_err(|source| FilesError::Write { path: place, source })?;
        self.outside.refuge = Some(path.clone());
        Ok(path)
    }

    /// The trial is kept or saved in the stash, or let go: what was kept elsewhere is not needed any more.
    pub(super) fn leave_refuge(&mut self) {
        if let Some(path) = self.outside.refuge.take() {
            // A scratch file that stays harms nobody.
            let _ = std::fs::remove_file(path);
        }
    }

    fn tell(&mut self, said: &[Said]) -> bool {
        if said.is_empty() {
            return false;
        }
        let text = said.iter().map(|one| one.text.as_str()).collect::<Vec<_>>().join("; ");
        if said.iter().any(|one| one.fault) {
            self.state.complain(text);
        } else {
            self.state.say(text);
        }
        true
    }
}

/// A part of what is said after a look.
#[derive(Debug)]
struct Said {
    text: String,
    fault: bool,
}

impl Said {
    fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), fault: false }
    }

    fn fault(text: impl Into<String>) -> Self {
        Self { text: text.into(), fault: true }
    }
}

#[cfg(test)]
mod tests;
