//! The heights that a strip could be compared by, and what its letters cost under each.
//!
//! Every check of letters that looks at the line's height asks less the nearer the two are; so over a range of heights a
//! letter costs no less than under the nearest of them. Must not know which letters are chosen.

use std::ops::Range;

use crate::checks::height_points;
use crate::measure::Length;

use super::memory::cost_of;
use super::problem::{Part, Problem};

/// The heights of one strip.
#[derive(Debug, Clone)]
pub(super) struct Heights {
    /// The heights of letters, each once, ascending.
    pub(super) own: Vec<Length>,
    /// A slot and choice that has each of them.
    samples: Vec<(usize, usize)>,
    /// Each brought into the band that suits: the heights that the line could be compared by, each once, ascending.
    pub(super) lines: Vec<Length>,
    /// For each slot of the part and choice its place in `own`, from 1; 0 for what has no height.
    places: Vec<Vec<u16>>,
}

impl Heights {
    pub(super) fn of(problem: &Problem, part: &Part) -> Self {
        let mut all: Vec<(Length, usize, usize)> = Vec::new();
        for slot in part.slots.clone() {
            let choices = problem.slots[slot].choices.iter().enumerate();
            all.extend(
                choices.filter_map(|(place, choice)| Some((choice.fill.look()?.height?, slot, place))),
            );
        }
        all.sort_unstable();
        all.dedup_by_key(|one| one.0);
        let own: Vec<Length> = all.iter().map(|one| one.0).collect();
        let mut lines: Vec<Length> = own.iter().map(|&height| part.suits.clamp(height)).collect();
        lines.dedup();
        let place = |height: Option<Length>| {
            let found = height.and_then(|height| own.binary_search(&height).ok());
            found.map_or(0, |place| u16::try_from(place + 1).unwrap_or(u16::MAX))
        };
        let of_slot = |slot: usize| {
            let choices = problem.slots[slot].choices.iter();
            choices.map(|choice| place(choice.fill.look().and_then(|look| look.height))).collect()
        };
        let places = part.slots.clone().map(of_slot).collect();
        Self { samples: all.iter().map(|one| (one.1, one.2)).collect(), own, lines, places }
    }

    /// All heights that a line could be compared by; `None` where no letter has one.
    pub(super) fn all(&self) -> Option<Range<usize>> {
        (!self.lines.is_empty()).then_some(0..self.lines.len())
    }

    /// The place of a choice's height in `own`, by its slot within the part; `None` without a height.
    pub(super) fn place(&self, slot: usize, choice: usize) -> Option<usize> {
        usize::from(self.places[slot][choice]).checked_sub(1)
    }

    /// For each height what its letters cost more, at least, in a line compared by one of `lines`.
    pub(super) fn costs(&self, problem: &Problem, part: &Part, lines: &Range<usize>) -> Vec<i32> {
        let (low, high) = (self.lines[lines.start], self.lines[lines.end - 1]);
        let cost =
            |(place, own): (usize, &Length)| self.cost_under(problem, part, place, (*own).clamp(low, high));
        self.own.iter().enumerate().map(cost).collect()
    }

    /// What a letter of a height costs more in a line compared by the height at `line`.
    pub(super) fn cost(&self, problem: &Problem, part: &Part, own: usize, line: usize) -> i32 {
        self.cost_under(problem, part, own, self.lines[line])
    }

    fn cost_under(&self, problem: &Problem, part: &Part, own: usize, line: Length) -> i32 {
        let (slot, choice) = self.samples[own];
        let choice = &problem.slots[slot].choices[choice];
        cost_of(part.letter_points(&choice.fill, Some(line)) - choice.fixed)
    }

    /// What a letter of a height, by its place, adds to the sum that decides which height a line is compared by; in
    /// tenths of a point.
    pub(super) fn weight(&self, part: &Part, own: usize, line: Length) -> i32 {
        height_points(self.own[own], line, &part.lore.taste).tenths()
    }

    /// The height by which a line could be compared that a letter of a height brings, by their places.
    pub(super) fn line_of(&self, part: &Part, own: usize) -> usize {
        self.lines.binary_search(&part.suits.clamp(self.own[own])).unwrap_or(0)
    }
}
