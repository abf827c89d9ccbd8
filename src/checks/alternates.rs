//! Every letter that could serve a slot, the best first.
//!
//! Must not know how a list is shown.

use std::collections::HashMap;

use crate::letter::{Character, StandInKind, stand_ins};
use crate::measure::Points;
use crate::plan::{Plan, Spoken};
use crate::stash::{ChipIx, Form, Stash};
use crate::title::{Layout, Strip};

use super::look::Fill;
use super::scene::Scene;
use super::verdict::lying_view;
use super::view::StripView;

/// A chip that can serve a slot, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Candidate {
    /// The chip.
    pub chip: ChipIx,
    /// How it stands in; `None`: as itself.
    pub stands_in: Option<StandInKind>,
}

/// A candidate on trial.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alternate {
    /// The chip and how it would stand.
    pub candidate: Candidate,
    /// The strip's score with it.
    pub score: Points,
    /// How many of it would be left, this plan's other slots counted.
    pub leaves: u16,
}

/// Every chip that can stand for `wanted` under the strip's rules, spent ones included: as itself, then stand-ins. A
/// turned tile must not tell which way is up; thick and soft letters cannot be trimmed, nor tiles.
#[must_use]
pub fn candidates(stash: &Stash, strip: &Strip, wanted: &Character) -> Vec<Candidate> {
    let itself = stash.carrying(wanted).iter().map(|&chip| Candidate { chip, stands_in: None });
    let mut found: Vec<Candidate> = itself.collect();
    for row in stand_ins(wanted) {
        if row.kind == StandInKind::OtherCase && !strip.rules.allows_other_case() {
            continue;
        }
        let serves = |chip: &ChipIx| {
            let make = stash.chip(*chip).sheet.make;
            match row.kind {
                StandInKind::Turned if row.turn.is_turned() => make.form == Form::DieCut || make.plain_tile,
                StandInKind::Trimmed => make.form == Form::DieCut && make.finish.can_be_trimmed(),
                _ => true,
            }
        };
        let stands_in = Some(row.kind);
        let chips = stash.carrying(&row.used).iter().copied().filter(serves);
        found.extend(chips.map(|chip| Candidate { chip, stands_in }));
    }
    found
}

/// The letters that could stand in `slot` of the strip at `place` and are to be had, the best first: by the strip's
/// score with each, ties by the chip's id. What lies under the strip is taken as it lies now.
#[must_use]
pub fn alternates(plan: &Plan, place: usize, slot: usize, stash: &Stash, scene: &Scene) -> Vec<Alternate> {
    let strip = &plan.strips()[place];
    let layout = Layout::of(strip, stash);
    let mut view = lying_view(plan, strip, &layout, stash, scene);
    let spoken = Spoken::by(plan, stash);
    let own = view.fills[slot].look().map(|look| look.chip);
    let mut trial = Trial::new(&mut view, slot);
    let mut found = Vec::new();
    let wanted = trial.view.wanted[slot].clone();
    for candidate in candidates(stash, strip, &wanted) {
        let used = spoken.times(candidate.chip) - u16::from(own == Some(candidate.chip));
        let left = stash.chip(candidate.chip).letter.left;
        if let Some(leaves) = left.checked_sub(used + 1) {
            found.push(Alternate { candidate, score: trial.score_with(candidate), leaves });
        }
    }
    found.sort_by(|a, b| {
        let order = |one: &Alternate| (one.score, one.candidate.stands_in);
        order(a).cmp(&order(b)).then_with(|| a.candidate.chip.cmp(&b.candidate.chip))
    });
    found
}

/// Tries candidates in one slot. Letters that no check can tell apart are scored once.
struct Trial<'v, 'a> {
    view: &'v mut StripView<'a>,
    slot: usize,
    scores: HashMap<Key, Points>,
}

/// What the checks can tell of a letter that is tried in a given slot.
type Key = String;

impl<'v, 'a> Trial<'v, 'a> {
    fn new(view: &'v mut StripView<'a>, slot: usize) -> Self {
        Self { view, slot, scores: HashMap::new() }
    }

    fn score_with(&mut self, candidate: Candidate) -> Points {
        let StripView { scene, stash, under, .. } = *self.view;
        let wanted = self.view.wanted[self.slot].clone();
        let look = scene.look(stash, candidate.chip, &wanted, candidate.stands_in, under);
        self.view.replace(self.slot, Fill::Letter(look));
        self.view.score()
    }
}
