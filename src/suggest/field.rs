//! What a search looks things up in: all that is worked out of a problem once, and never changes.
//!
//! Must not know what is being searched.

use std::sync::Arc;

use super::chain::Entry;
use super::heights::Heights;
use super::memory::Memory;
use super::pairs::Pairs;
use super::problem::Problem;
use super::region::bare_entry;

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
        Self { heights, pairs, memories, nothing, entries, problem }
    }
}
