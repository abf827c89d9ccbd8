//! One history of edits for a plan: undo and redo without end.
//!
//! Must not know who asked for an edit.

use crate::page::{Element, Page};
use crate::title::{Edit, Strip};

use super::Plan;

/// One change of a plan. Applying it gives the edit that undoes it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlanEdit {
    /// Changes one strip, by its place.
    Strip(usize, Edit),
    /// Changes the page.
    Page(Box<Page>),
    /// Changes one thing on the page, by its place in the stack.
    Element(usize, Box<Element>),
    /// Puts a thing on the page, under those from this place on; on top of all where there are fewer.
    InsertElement(usize, Box<Element>),
    /// Takes a thing off the page.
    RemoveElement(usize),
    /// Exchanges two things in the stack; each stays where it lies.
    Restack(usize, usize),
    /// Puts a strip in, at the end where there are fewer; nothing happens where its role is taken.
    Insert(usize, Box<Strip>),
    /// Takes a strip out.
    Remove(usize),
    /// Goes on with another plan in its place.
    Whole(Box<Plan>),
    /// Several, in order, as one.
    Several(Vec<PlanEdit>),
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
            Self::Several(edits) => {
                let mut inverse: Vec<Self> = edits.into_iter().map(|edit| edit.apply(plan)).collect();
                inverse.reverse();
                Self::Several(inverse)
            }
            Self::Whole(other) => Self::Whole(Box::new(std::mem::replace(plan, *other))),
            Self::Nothing => Self::Nothing,
            on_page => on_page.apply_to_things(&mut plan.page.elements),
        }
    }

    /// Makes an edit of the things on the page.
    fn apply_to_things(self, things: &mut Vec<Element>) -> Self {
        match self {
            Self::Element(place, thing) => match things.get_mut(place) {
                Some(was) => Self::Element(place, Box::new(std::mem::replace(was, *thing))),
                None => Self::Nothing,
            },
            Self::InsertElement(place, thing) => {
                let place = place.min(things.len());
                things.insert(place, *thing);
                Self::RemoveElement(place)
            }
            Self::RemoveElement(place) if place < things.len() => {
                Self::InsertElement(place, Box::new(things.remove(place)))
            }
            Self::Restack(a, b) if a < things.len() && b < things.len() => {
                things.swap(a, b);
                Self::Restack(a, b)
            }
            _ => Self::Nothing,
        }
    }

    /// Whether `next`, made right after the edit whose inverse this is, belongs to the same step: the same letter, strip or
    /// thing moved a little further.
    fn goes_on_as(&self, next: &Self) -> bool {
        match (self, next) {
            (Self::Strip(a, was), Self::Strip(b, next)) => a == b && was.goes_on_as(next),
            (Self::Element(a, was), Self::Element(b, next)) => a == b && was.is_but_for_its_lie(next),
            _ => false,
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
    /// Makes `edit` on `plan`. A repeated nudge, raise or tilt of the same letter, and whatever moves, turns or sizes the same strip
    /// or thing, joins the step before it, unless [`History::close_step`] was called between. What was undone before can no longer be redone.
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
        // The step itself must be such a move: a swap to another letter and back are two steps.
        self.done
            .last()
            .is_some_and(|Step { edit: last, inverse }| inverse.goes_on_as(last) && inverse.goes_on_as(edit))
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
