//! What another hand has changed, as far as the state takes it in.
//!
//! Must not know how it was noticed.

use crate::plan::{Plan, PlanEdit};

use super::asking::Question;
use super::bench::Bench;
use super::effect::Then;
use super::over::Over;
use super::state::{PlanFile, State};

impl State {
    /// Whether a line is being typed or a question waits: nothing may come between then.
    #[must_use]
    pub fn waits_for_an_answer(&self) -> bool {
        matches!(self.over.beneath(), Over::Typing(_) | Over::Question(_))
    }

    /// Asks whether to take the plan as its file has it now; `then` is what comes after saving, where that waits.
    pub fn ask_which_plan(&mut self, then: Option<Then>) {
        self.over = Over::Question(Question::TakeFile(then));
    }

    /// Goes on with the plan as its file has it now. Its history begins anew; the view, the pane, what is kept to compare
    /// with and, where they are still there, the strip and the slot in hand stay.
    pub fn take_file(&mut self, plan: Plan) {
        let file = PlanFile { saved: 0, kept: 0, ..self.file.clone() };
        let Bench { pane, strip, slot, kept, .. } = self.bench.clone();
        self.take_plan(plan, file);
        (self.bench.pane, self.bench.kept) = (pane, kept);
        self.bench.strip = strip.min(self.trial.plan().strips().len() - 1);
        self.choose_slot(slot);
        self.list_grid();
    }

    /// Goes on with the same plan in the colours that their names stand for now, as one step of history.
    pub fn take_new_colours(&mut self, plan: Plan) {
        let is_saved = !self.is_unsaved();
        self.trial.close_step();
        self.trial.change(PlanEdit::Whole(Box::new(plan)), &mut self.shelf);
        self.trial.close_step();
        if is_saved {
            self.is_as_saved();
        }
    }

    /// The plan's file says what the trial says.
    pub const fn is_as_saved(&mut self) {
        self.file.saved = self.trial.version();
    }

    /// The plan's file is gone: nothing of the trial is saved, and it is to be kept.
    pub const fn is_saved_nowhere(&mut self) {
        self.file.saved = u64::MAX;
        self.is_kept_nowhere();
    }

    /// What was kept of the trial is out of reach: it is to be kept again.
    pub const fn is_kept_nowhere(&mut self) {
        self.file.kept = u64::MAX;
    }
}
