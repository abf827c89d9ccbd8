//! Every letter that could serve a slot, the best first.
//!
//! Must not know how a list is shown.

use crate::letter::Character;
use crate::measure::{Length, Points};
use crate::plan::{Plan, Spoken};
use crate::stash::{ChipIx, Stash};
use crate::title::Layout;

use super::candidate::{Candidate, candidates};
use super::look::Fill;
use super::room::Squeeze;
use super::scene::Scene;
use super::verdict::lying_view;
use super::view::StripView;

/// A candidate on trial.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alternate {
    /// The chip and how it would stand.
    pub candidate: Candidate,
    /// The strip's score with it.
    pub score: Points,
    /// How many of it would be left, this plan's other slots counted.
    pub leaves: u16,
    /// By how much the line would be longer than its room with it, if it would.
    pub too_long: Option<Length>,
}

/// The letters that could stand in `slot` of the strip at `place` and are to be had, the best first: by the strip's
/// score with each, ties by how they stand in, then by size, then by the chip's place in the stash. What lies under the strip is taken
/// as it lies now. An order that does not depend on what stands in the slot.
#[must_use]
pub fn alternates(plan: &Plan, place: usize, slot: usize, stash: &Stash, scene: &Scene) -> Vec<Alternate> {
    let mut tryout = Tryout::new(plan, place, slot, stash, scene);
    let spoken = Spoken::by(plan, stash);
    // The letters of a strip that is stuck down are off the stash; those of an open one are spoken for.
    let open = plan.strips()[place].stuck.is_none();
    let own = tryout.view.fills[slot].look().map(|look| look.chip).filter(|_| open);
    let mut line = Squeeze::new(plan, (place, slot), stash);
    let mut found = Vec::new();
    for candidate in candidates(stash, &plan.strips()[place], &tryout.wanted) {
        let used = spoken.times(candidate.chip).saturating_sub(u16::from(own == Some(candidate.chip)));
        let left = stash.chip(candidate.chip).on_hand();
        if let Some(leaves) = left.checked_sub(used + 1) {
            let too_long = line.as_mut().and_then(|line| line.over(candidate, &tryout.wanted, stash));
            found.push(Alternate { candidate, score: tryout.score_with(candidate), leaves, too_long });
        }
    }
    // Where no check prefers one, a title's letters are large and a subtitle's small.
    let small = plan.strips()[place].role().as_str() == "subtitle";
    let size =
        |chip: ChipIx| if small { stash.chip(chip).shown_height() } else { -stash.chip(chip).shown_height() };
    found.sort_by_cached_key(|one| {
        let candidate = one.candidate;
        (one.score, candidate.stands_in, size(candidate.chip), candidate.chip)
    });
    found
}

/// Tries letters in one slot of a strip.
#[derive(Debug)]
pub struct Tryout<'a> {
    view: StripView<'a>,
    slot: usize,
    wanted: Character,
}

impl<'a> Tryout<'a> {
    /// Tries letters in `slot` of the strip at `place`.
    #[must_use]
    pub fn new(plan: &'a Plan, place: usize, slot: usize, stash: &'a Stash, scene: &'a Scene) -> Self {
        let strip = &plan.strips()[place];
        let view = lying_view(plan, strip, &Layout::of(strip, stash), stash, scene);
        let wanted = view.wanted[slot].clone();
        Self { view, slot, wanted }
    }

    /// The points of each check as the strip is now, or as it was tried last.
    #[must_use]
    pub fn points(&self) -> Vec<(&'static str, Points)> {
        let counted = |id: &str| !self.view.strip.accepted.contains(id);
        let heard = self.view.heard().filter(|check| counted(check.id));
        heard.map(|check| (check.id, self.view.points_of(check))).collect()
    }

    /// Puts `candidate` in the slot.
    pub fn put(&mut self, candidate: Candidate) {
        let StripView { scene, stash, under, .. } = self.view;
        let look = scene.look(stash, candidate.chip, &self.wanted, candidate.stands_in, under);
        self.view.replace(self.slot, Fill::Letter(look));
    }

    /// The strip's score with `candidate` in the slot.
    pub fn score_with(&mut self, candidate: Candidate) -> Points {
        self.put(candidate);
        self.view.score()
    }
}
