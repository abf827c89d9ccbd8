//! The trial: a plan being changed, its history, and what the checks say of it now.
//!
//! Must not know what is chosen or shown.

use crate::checks::{Verdict, judge};
use crate::measure::Points;
use crate::plan::{History, Plan, PlanEdit, Spoken};
use crate::title::{Edit, Strip};

use super::shelf::Shelf;

/// A plan on trial. Whatever changes it goes through [`Trial::change`], so the verdict is never behind.
#[derive(Debug, Clone)]
pub struct Trial {
    plan: Plan,
    history: History,
    verdict: Verdict,
    spoken: Spoken,
    /// The score before the last change, for showing the difference.
    before: Option<Points>,
}

impl Trial {
    /// Begins with `plan` and no history.
    #[must_use]
    pub fn new(plan: Plan, shelf: &Shelf) -> Self {
        let (verdict, spoken) = (judge(&plan, &shelf.stash, &shelf.scene), Spoken::by(&plan, &shelf.stash));
        Self { plan, history: History::default(), verdict, spoken, before: None }
    }

    /// The plan as it is now.
    #[must_use]
    pub const fn plan(&self) -> &Plan {
        &self.plan
    }

    /// The strip at `place`; the last one where there is none.
    #[must_use]
    pub fn strip(&self, place: usize) -> &Strip {
        let strips = self.plan.strips();
        &strips[place.min(strips.len() - 1)]
    }

    /// What the checks say of it.
    #[must_use]
    pub const fn verdict(&self) -> &Verdict {
        &self.verdict
    }

    /// Which letters stand on its strips.
    #[must_use]
    pub const fn spoken(&self) -> &Spoken {
        &self.spoken
    }

    /// By how much the last change changed the score.
    #[must_use]
    pub fn difference(&self) -> Option<Points> {
        self.before.map(|before| self.verdict.score - before)
    }

    /// A number that changes with every change.
    #[must_use]
    pub const fn version(&self) -> u64 {
        self.history.version()
    }

    /// How many steps can be taken back.
    #[must_use]
    pub const fn steps(&self) -> usize {
        self.history.steps()
    }

    /// Makes an edit of the plan.
    pub fn change(&mut self, edit: PlanEdit, shelf: &mut Shelf) {
        let of_page = !matches!(edit, PlanEdit::Strip(..) | PlanEdit::Insert(..) | PlanEdit::Remove(_));
        self.history.make(&mut self.plan, edit);
        self.judge_anew(of_page, shelf);
    }

    /// Makes an edit of one strip.
    pub fn change_strip(&mut self, place: usize, edit: Edit, shelf: &mut Shelf) {
        self.change(PlanEdit::Strip(place, edit), shelf);
    }

    /// Ends the newest step of history: what follows is a step of its own.
    pub const fn close_step(&mut self) {
        self.history.close_step();
    }

    /// Takes the last step back; `false` where there is none.
    pub fn undo(&mut self, shelf: &mut Shelf) -> bool {
        let undone = self.history.undo(&mut self.plan);
        self.judge_anew(true, shelf);
        undone
    }

    /// Makes the last step again; `false` where there is none.
    pub fn redo(&mut self, shelf: &mut Shelf) -> bool {
        let redone = self.history.redo(&mut self.plan);
        self.judge_anew(true, shelf);
        redone
    }

    /// Judges the plan again, the page too where it may have changed.
    pub fn judge_anew(&mut self, page: bool, shelf: &mut Shelf) {
        if page {
            shelf.look_at(&self.plan.page);
        }
        self.before = Some(self.verdict.score);
        self.verdict = judge(&self.plan, &shelf.stash, &shelf.scene);
        self.spoken = Spoken::by(&self.plan, &shelf.stash);
    }
}
