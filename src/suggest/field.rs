//! What a search looks things up in: all that is worked out of a problem once, and never changes.
//!
//! Must not know what is being searched.

use std::sync::Arc;

use super::chain::{Entry, NEVER};
use super::heights::Heights;
use super::memory::{Memory, cost_of};
use super::pairs::Pairs;
use super::problem::Problem;
use super::region::{Share, bare_entry};

/// What never changes in a search.
#[derive(Debug)]
pub(super) struct Field {
    pub(super) problem: Problem,
    /// A strip each.
    pub(super) heights: Vec<Heights>,
    pub(super) pairs: Vec<Arc<Pairs>>,
    pub(super) memories: Vec<Arc<Memory>>,
    /// The memory that remembers nothing, for any strip.
    pub(super) nothing: Memory,
    /// Every choice of every slot, without prices.
    pub(super) entries: Vec<Vec<Entry>>,
    /// For each strip a cost that it cannot go below, whatever the others use.
    pub(super) floors: Vec<i32>,
}

impl Field {
    pub(super) fn new(problem: Problem) -> Self {
        let heights = problem.parts.iter().map(|part| Heights::of(&problem, part)).collect();
        let pairs = problem.parts.iter().map(|part| Arc::new(Pairs::of(part))).collect();
        let memories: Vec<Arc<Memory>> =
            problem.parts.iter().map(|part| Arc::new(Memory::of(&problem, part))).collect();
        let entries = problem
            .slots
            .iter()
            .map(|slot| {
                let memory = &memories[slot.part];
                let entry =
                    |(place, choice): (u16, _)| bare_entry(choice, place, memory.tinge_of(&choice.fill));
                (0..).zip(&slot.choices).map(entry).collect()
            })
            .collect();
        let nothing = Memory::none(problem.slots.len());
        let floors = vec![0; problem.parts.len()];
        Self { heights, pairs, memories, nothing, entries, floors, problem }
    }

    /// For each strip what all others cost at least, and the prices give back: by their own `least`, or by their floors.
    pub(super) fn rest(&self, least: &[i32], base: i32, shares: &[Share]) -> Vec<i32> {
        let paid = |place: usize| {
            let crowd = self.problem.parts[place].crowd().filter(|_| shares[place].crowd);
            crowd.map_or(0, |(_, points)| cost_of(points))
        };
        let strips = 0..least.len();
        let priced = |place: usize| least[place].saturating_add(paid(place)).min(NEVER);
        let rest = |place: usize| {
            let others = || strips.clone().filter(move |&other| other != place);
            let (by_least, by_floors): (i64, i64) = (
                others().map(|other| i64::from(priced(other))).sum(),
                others().map(|other| i64::from(self.floors[other])).sum(),
            );
            let rest = by_least.max(by_floors) + i64::from(base) + i64::from(paid(place));
            i32::try_from(rest).unwrap_or(NEVER).min(NEVER)
        };
        strips.clone().map(rest).collect()
    }
}
