//! The search for a strip's resting places, and which of them was taken.
//!
//! Must not know what a key does, or any clock.

use crate::checks::resting;
use crate::page::{Rest, Resting};
use crate::plan::Plan;
use crate::title::{Edit, Place};

use super::pursuit::Run;
use super::shelf::Shelf;

/// How many resting places are looked for.
pub const RESTS: usize = 8;

/// A search for the resting places of one strip.
#[derive(Debug)]
pub struct Seeking {
    strip: usize,
    /// The plan that it is for, with that strip as it lay.
    plan: Plan,
    search: Box<Resting>,
    places: Vec<Rest>,
    run: Run,
    /// Whether a place is taken as soon as the search is over.
    pub(super) awaited: bool,
    /// Which of the places was taken last.
    pub(super) taken: Option<usize>,
}

impl Seeking {
    /// Begins to look; `None` where the page has no size, the strip no letters, or the letters no room on the page.
    #[must_use]
    pub fn new(plan: &Plan, strip: usize, shelf: &Shelf) -> Option<Self> {
        let search = Box::new(resting(plan, strip, &shelf.stash, &shelf.scene, RESTS)?);
        let (plan, places, run) = (plan.clone(), Vec::new(), Run::Going);
        Some(Self { strip, plan, search, places, run, awaited: true, taken: None })
    }

    /// Whether it is for that strip of `plan` as it is: all but the strip's own place is the same, and its turn is that for
    /// which places were looked for, or that of one of them.
    #[must_use]
    pub fn is_for(&self, plan: &Plan, strip: usize) -> bool {
        let turn = plan.strips().get(strip).map(|strip| strip.place.turn);
        let was = self.plan.strips()[self.strip].place.turn;
        let known = turn == Some(was) || self.places.iter().any(|rest| Some(rest.turn) == turn);
        strip == self.strip && known && apart(plan, strip) == apart(&self.plan, strip)
    }

    /// Whether it is taken on whenever no key waits.
    #[must_use]
    pub fn is_going(&self) -> bool {
        self.run == Run::Going
    }

    /// Whether all of the page was gone through.
    #[must_use]
    pub fn is_done(&self) -> bool {
        self.run == Run::Done
    }

    /// The places, best first; so far, unless all of the page was gone through.
    #[must_use]
    pub fn places(&self) -> &[Rest] {
        &self.places
    }

    /// How far it is: `34 %`.
    #[must_use]
    pub fn progress(&self) -> String {
        let (done, all) = self.search.progress();
        format!("{} %", done * 100 / all.max(1))
    }

    /// Takes it on by some steps.
    pub(super) fn work(&mut self, steps: u32) {
        if self.is_going() && self.search.run(steps) {
            self.run = Run::Done;
            self.places = self.search.places();
        }
    }

    /// Stops it, if it goes; what it has found so far can be taken.
    pub(super) fn stop(&mut self, why: Run) {
        if self.is_going() {
            self.run = why;
            self.places = self.search.places();
        }
    }

    /// Lets it go on from where it was; `false` where nothing is left to do.
    pub(super) fn go_on(&mut self) -> bool {
        self.run.go_on()
    }
}

/// The plan with that strip off the page.
fn apart(plan: &Plan, strip: usize) -> Plan {
    let mut plan = plan.clone();
    plan.edit_strip(strip, Edit::Place(Place::default()));
    plan
}
