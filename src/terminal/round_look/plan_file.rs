//! The open plan's file, when another hand changes it or takes it away.
//!
//! Nothing of either side is lost without a word: a trial without changes of its own gives way; of one that has some, the user
//! decides, and what she does not take is set aside or told to be written over. Must not know other files.

use crate::app::{Effect, Then};
use crate::files::{FilesError, new_plan_text, read_plan};
use crate::measure::ColourNames;
use crate::plan::Plan;

use super::super::desk::Desk;
use super::super::program::{Flow, Program as _};
use super::{PlanFileNow, Said};

impl Desk {
    /// Whether the plan may be written into its file now: all that other hands have changed is taken in first. If not, it
    /// is told or asked why; `then` is what waits for the saving.
    pub(in super::super) fn may_save(&mut self, then: Option<&Then>) -> bool {
        let was_gone = self.outside.plan == PlanFileNow::Gone;
        self.state.notice = None;
        let Ok(said) = self.look_at_once() else { return false };
        self.tell(&said);
        match self.outside.plan {
            PlanFileNow::Differs { .. } => {
                self.outside.plan = PlanFileNow::Differs { unasked: false };
                self.state.ask_which_plan(then.cloned());
                false
            }
            // It is told first, and written anew when she asks again.
            PlanFileNow::Gone => was_gone,
            // She is to see first what stands there now.
            PlanFileNow::Reopened => {
                self.outside.plan = PlanFileNow::AsKnown;
                false
            }
            // Of a file that cannot be read saving fails by itself, and tells what is wrong with it.
            PlanFileNow::Unreadable | PlanFileNow::AsKnown => true,
        }
    }

    /// Asks which plan to go on with, where that was not asked yet and nothing lies over the view.
    pub(super) fn ask_at_leisure(&mut self) -> bool {
        if self.outside.plan != (PlanFileNow::Differs { unasked: true }) {
            return false;
        }
        self.outside.plan = PlanFileNow::Differs { unasked: false };
        if self.state.file.read_only.is_some() {
            let told = "the plan's file was changed outside; this trial goes on from what it was before";
            self.state.say(told);
        } else {
            self.state.ask_which_plan(None);
        }
        true
    }

    /// Looks at what the plan's file says now. What there is to say of it.
    pub(super) fn see_plan(&mut self) -> Option<Said> {
        let base = self.outside.base.clone()?;
        if !self.file.path().exists() {
            let is_news = self.outside.plan != PlanFileNow::Gone;
            self.outside.plan = PlanFileNow::Gone;
            self.state.is_saved_nowhere();
            let told = format!("the file of {} is gone; saving (s) writes it anew", self.file.slug());
            return is_news.then(|| Said::fault(told));
        }
        let theirs = match self.plan_of_file() {
            Ok(theirs) => theirs,
            Err(error) => {
                self.outside.plan = PlanFileNow::Unreadable;
                if self.outside.waiting.is_empty() {
                    // A plan that lies elsewhere is not among the stash's problems.
                    self.outside.waiting.extend(error.to_string().lines().map(str::to_owned));
                }
                return Some(Said::fault("the plan's file has errors now; this trial goes on without it"));
            }
        };
        let mine = self.state.trial.plan();
        if theirs == *mine {
            self.state.is_as_saved();
            self.outside.was_saved(theirs);
            return None;
        }
        if theirs == base {
            self.outside.plan = PlanFileNow::AsKnown;
            return None;
        }
        if *mine == base {
            self.state.take_file(theirs.clone());
            self.outside.was_saved(theirs);
            self.outside.plan = PlanFileNow::Reopened;
            return Some(Said::plain("the plan was changed outside; it is opened anew"));
        }
        self.outside.plan = PlanFileNow::Differs { unasked: true };
        None
    }

    fn plan_of_file(&self) -> Result<Plan, FilesError> {
        let shelf = &self.state.shelf;
        self.folder.open_plan(&self.file, &shelf.names, &shelf.stash).map(|open| open.plan)
    }

    /// The names of colours stand for others than when they were `old`: the trial goes with them, as the files do.
    pub(super) fn take_colours(&mut self, old: &ColourNames) {
        let new = &self.state.shelf.names;
        let mine = in_new_colours(self.state.trial.plan(), old, new);
        self.outside.base =
            self.outside.base.take().map(|base| in_new_colours(&base, old, new).unwrap_or(base));
        if let Some(mine) = mine.filter(|mine| mine != self.state.trial.plan()) {
            self.state.take_new_colours(mine);
        }
    }

    /// Sets the trial aside and goes on with the plan as its file has it now.
    pub(in super::super) fn take_file(&mut self) {
        let kept = self
            .folder
            .keep_trial(&self.file, self.state.trial.plan(), &self.state.shelf.names)
            .and_then(|()| self.folder.set_trial_aside(&self.file));
        let aside = match kept {
            Ok(aside) => aside,
            Err(error) => return self.state.complain(error.to_string()),
        };
        let shown = aside.strip_prefix(self.folder.path()).unwrap_or(&aside).display().to_string();
        let shown = shown.escape_debug();
        match self.plan_of_file() {
            Ok(plan) => {
                self.state.take_file(plan.clone());
                self.outside.was_saved(plan);
                self.state.say(format!("the file's plan is opened; yours is set aside as {shown}"));
            }
            Err(_) => self.state.complain(format!(
                "the plan's file cannot be read now; this trial goes on, and is copied to {shown}"
            )),
        }
    }

    /// Goes on with the trial, and saves it over what the file says now where something waits for that.
    pub(in super::super) fn keep_mine(&mut self, then: Option<Then>) -> Flow {
        if let Ok(plan) = self.plan_of_file() {
            self.outside.was_saved(plan);
        }
        let slug = self.state.file.slug.clone();
        if let (Some(then), Some(slug)) = (then, slug) {
            return self.effect(Effect::Save(slug, then));
        }
        self.state.say("this trial goes on; saving it writes over what its file says now");
        Flow::On
    }
}

/// `plan` with every colour that has a name of the owner's as that name has it now. `None` where it cannot be told, as
/// when a name is gone: the colours stay as they are then.
fn in_new_colours(plan: &Plan, old: &ColourNames, new: &ColourNames) -> Option<Plan> {
    let text = new_plan_text(plan, old);
    let read = |names| read_plan("", &text, names, None).0;
    (read(old).as_ref() == Some(plan)).then(|| read(new)).flatten()
}
