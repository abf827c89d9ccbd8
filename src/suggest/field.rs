//! What a search looks things up in: all that is worked out of a problem once, and never changes.
//!
//! Must not know what is being searched.

use std::sync::Arc;

use super::chain::{Entry, NO_SHEET};
use super::heights::Heights;
use super::memory::{Memory, cost_of};
use super::pairs::Pairs;
use super::problem::{Choice, Problem};

/// What never changes in a search.
#[derive(Debug)]
pub(super) struct Field {
    pub(super) problem: Problem,
    /// A strip each.
    pub(super) heights: Vec<Heights>,
    pub(super) pairs: Vec<Arc<Pairs>>,
    pub(super) memories: Vec<Arc<Memory>>,
    /// Whether there is too much to remember: then nothing can be proved.
    pub(super) is_too_rich: bool,
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
        let nothing = Memory::none(problem.slots.len());
        let found: Vec<Option<Memory>> =
            problem.parts.iter().map(|part| Memory::of(&problem, part)).collect();
        let is_too_rich = found.iter().any(Option::is_none);
        let memories: Vec<Arc<Memory>> =
            found.into_iter().map(|memory| Arc::new(memory.unwrap_or_else(|| nothing.clone()))).collect();
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
        let floors = vec![0; problem.parts.len()];
        Self { problem, heights, pairs, memories, is_too_rich, nothing, entries, floors }
    }
}

/// The entry of a choice before it is priced.
fn bare_entry(choice: &Choice, place: u16, tinge: usize) -> Entry {
    Entry {
        choice: place,
        kind: u16::try_from(choice.kind).unwrap_or(u16::MAX),
        tinge: u16::try_from(tinge).unwrap_or(u16::MAX),
        sheet: choice.fill.sheet().map_or(NO_SHEET, |sheet| u32::try_from(sheet).unwrap_or(NO_SHEET)),
        meets: 0,
        base: cost_of(choice.alone),
        cost: cost_of(choice.alone),
    }
}
