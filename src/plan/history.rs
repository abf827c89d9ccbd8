//! One history of edits for a plan: undo and redo without end.
//!
//! Must not know who asked for an edit.

use crate::page::Page;
use crate::title::{Edit, Strip};

use super::Plan;

/// One change of a plan. Applying it gives the edit that undoes it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlanEdit {
    /// Changes one strip, by its place.
    Strip(usize, Edit),
    /// Changes the page.
    Page(Box<Page>),
    /// Puts a strip in, at the end where there are fewer; nothing happens where its role is taken.
    Insert(usize, Box<Strip>),
    /// Takes a strip out.
    Remove(usize),
    /// Goes on with another plan in its place.
    Whole(Box<Plan>),
    /// Changes nothing: the inverse of an edit that met nothing to change.
    Nothing,
}

impl PlanEdit {
    fn apply(self, plan: &mut Plan) -> Self {
        match self {
            Self::Strip(place, edit) => plan
                .with_strip(place, |strip| edit.apply(strip))
                .map_or(Self::Nothing, |inverse| Self::Strip(place, inverse)),
            Self::Page(page) => Self::Page(Box::new(std::mem::replace(&mut plan.page, *page))),
            Self::Insert(place, strip) => plan.insert(place, *strip).map_or(Self::Nothing, Self::Remove),
            Self::Remove(place) => {
                plan.remove(place).map_or(Self::Nothing, |strip| Self::Insert(place, Box::new(strip)))
            }
            Self::Whole(other) => Self::Whole(Box::new(std::mem::replace(plan, *other))),
            Self::Nothing => Self::Nothing,
        }
    }
}

/// What was done, and what was undone and can be done again.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct History {
    /// Inverses of what was done, newest last.
    done: Vec<Step>,
    /// What was undone, newest last.
    undone: Vec<PlanEdit>,
    /// Whether the next edit may join the newest step.
    open: bool,
    /// Counts every change, so that a reader can tell whether anything changed since it looked.
    version: u64,
}

/// A step that undo takes back as one.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Step {
    edit: PlanEdit,
    inverse: PlanEdit,
}

impl History {
    /// Makes `edit` on `plan`. A repeated nudge, raise, tilt or carry of the same thing joins the step before it,
    /// unless [`History::close_step`] was called between. What was undone before can no longer be redone.
    pub fn make(&mut self, plan: &mut Plan, edit: PlanEdit) {
        let goes_on = self.open && self.goes_on(&edit);
        let inverse = edit.clone().apply(plan);
        self.undone.clear();
        self.version += 1;
        self.open = true;
        match self.done.last_mut() {
            Some(step) if goes_on => step.edit = edit,
            _ => self.done.push(Step { edit, inverse }),
        }
    }

    fn goes_on(&self, edit: &PlanEdit) -> bool {
        let Some(Step { edit: PlanEdit::Strip(a, last), inverse: PlanEdit::Strip(_, inverse) }) =
            self.done.last()
        else {
            return false;
        };
        // The step itself must be such a move: a swap to another letter and back are two steps.
        matches!(edit, PlanEdit::Strip(b, next) if a == b && inverse.goes_on_as(last) && inverse.goes_on_as(next))
    }

    /// Ends the newest step: the next edit starts another, even if it moves the same thing.
    pub const fn close_step(&mut self) {
        self.open = false;
    }

    /// Takes back the newest step; `false` when there is none.
    pub fn undo(&mut self, plan: &mut Plan) -> bool {
        let Some(step) = self.done.pop() else { return false };
        let again = step.inverse.apply(plan);
        self.undone.push(again);
        self.version += 1;
        self.open = false;
        true
    }

    /// Makes again what was undone last; `false` when there is nothing.
    pub fn redo(&mut self, plan: &mut Plan) -> bool {
        let Some(edit) = self.undone.pop() else { return false };
        let inverse = edit.clone().apply(plan);
        self.done.push(Step { edit, inverse });
        self.version += 1;
        self.open = false;
        true
    }

    /// How many steps can be taken back.
    #[must_use]
    pub const fn steps(&self) -> usize {
        self.done.len()
    }

    /// A number that changes with every change.
    #[must_use]
    pub const fn version(&self) -> u64 {
        self.version
    }
}
