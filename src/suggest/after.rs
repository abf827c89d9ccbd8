//! The least cost of all that comes after a slot, by dynamic programming from the end of the strip.
//!
//! Nothing runs out here: it is a relaxation, and its costs are bounds. What a slot costs depends on the slot before it
//! (kinds, sheets) and on what is remembered of the colours so far. Sheets stay out of the state: the best, and the best
//! of another sheet, are enough. Must not know limits or heights.

use crate::title::Joint;

use super::chain::{Bundle, Chain, NEVER, NO_SHEET};
use super::memory::Memory;

/// The least cost of all slots after one, by what is remembered, by the bundle that stands in it, and by whether its word so
/// far is wholly of one sheet.
#[derive(Debug, Clone, Default)]
pub(super) struct After {
    costs: Vec<[i32; 2]>,
    bundles: usize,
}

impl After {
    /// The least cost after `bundle`, its word so far wholly of one sheet or not, in `state`.
    pub(super) fn get(&self, bundle: usize, whole: bool, state: usize) -> i32 {
        self.costs[state * self.bundles + bundle][usize::from(whole)]
    }

    /// The costs after each bundle in `state`.
    pub(super) fn row(&self, state: usize) -> &[[i32; 2]] {
        &self.costs[state * self.bundles..(state + 1) * self.bundles]
    }

    /// How many costs there are.
    pub(super) fn size(&self) -> u64 {
        self.costs.len() as u64
    }
}

/// The best of several, and the best of those that are of another sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Two {
    best: i32,
    sheet: u32,
    other: i32,
}

impl Two {
    pub(super) const NONE: Self = Self { best: NEVER, sheet: NO_SHEET, other: NEVER };

    pub(super) fn add(&mut self, cost: i32, sheet: u32) {
        if cost < self.best {
            if sheet != self.sheet || sheet == NO_SHEET {
                self.other = self.best;
            }
            (self.best, self.sheet) = (cost, sheet);
        } else if (sheet != self.sheet || sheet == NO_SHEET) && cost < self.other {
            self.other = cost;
        }
    }

    /// Takes in all of `two`, each `more` dearer. Whose sheet the other is need not be known: where it is not of the
    /// best's sheet either, the best of its own has come before it.
    pub(super) fn merge(&mut self, two: Self, more: i32) {
        if two.best < NEVER {
            self.add(two.best + more, two.sheet);
        }
        if two.other < NEVER && self.sheet == two.sheet {
            self.other = self.other.min(two.other + more);
        }
    }

    /// The best that is not of `sheet`.
    pub(super) const fn without(self, sheet: u32) -> i32 {
        if sheet == self.sheet && sheet != NO_SHEET { self.other } else { self.best }
    }
}

impl Chain {
    /// For each slot the least cost of all that come after it.
    pub(super) fn after(&self, memory: &Memory) -> Vec<After> {
        let mut all: Vec<After> = Vec::with_capacity(self.slots.len());
        for slot in (0..self.slots.len()).rev() {
            let after = match all.last() {
                None => self.after_last(memory),
                Some(next) => self.after_one(slot, next, memory),
            };
            all.push(after);
        }
        all.reverse();
        all
    }

    fn after_last(&self, memory: &Memory) -> After {
        let bundles = self.slots.last().map_or(0, |link| link.bundles.len());
        let costs = memory.ends().iter().flat_map(|&end| std::iter::repeat_n([end, end], bundles)).collect();
        After { costs, bundles }
    }

    fn after_one(&self, slot: usize, next: &After, memory: &Memory) -> After {
        let (link, coming) = (&self.slots[slot], &self.slots[slot + 1]);
        let states = memory.size(slot + 1);
        // Beyond its word a letter has nothing to do with its sheet.
        let in_word = coming.joint == Some(Joint::Word);
        let owed = if in_word { self.owed(slot) } else { 0 };
        let mut costs = Vec::with_capacity(link.bundles.len() * states);
        let groups = self.groups_after(slot, next, memory);
        let mut best: Vec<Two> = vec![Two::NONE; self.pairs.kinds()];
        for state in 0..states {
            self.gather(slot, state, &groups, memory, &mut best);
            for Bundle { entry, mates, .. } in &link.bundles {
                let sheet = if in_word { entry.sheet } else { NO_SHEET };
                let apart = best[usize::from(entry.kind)].without(sheet);
                let mut least = [apart, apart + owed];
                for &mate in mates {
                    let here = &coming.bundles[usize::from(mate)].entry;
                    let step = memory.step(slot + 1, state, usize::from(here.tinge));
                    let row = next.row(usize::from(step.state))[usize::from(mate)];
                    for whole in [false, true] {
                        let stays = usize::from(coming.stays_whole(here, whole, true));
                        let pair = self.step(slot, entry, here, whole);
                        let cost = pair + here.cost + step.cost + row[stays];
                        least[usize::from(whole)] = cost.min(least[usize::from(whole)]);
                    }
                }
                costs.push(least.map(|cost| cost.min(NEVER)));
            }
        }
        After { costs, bundles: link.bundles.len() }
    }

    /// For each group of the slot after `slot` and state after that, the best of the group and what comes after it.
    fn groups_after(&self, slot: usize, next: &After, memory: &Memory) -> Vec<Vec<Two>> {
        let coming = &self.slots[slot + 1];
        let of = |group: &Vec<u16>| -> Vec<Two> {
            let best = |state: usize| {
                let (row, mut two) = (next.row(state), Two::NONE);
                for &place in group {
                    let entry = &coming.bundles[usize::from(place)].entry;
                    let whole = usize::from(coming.stays_whole(entry, false, false));
                    two.add(entry.cost + row[usize::from(place)][whole], entry.sheet);
                }
                two
            };
            (0..memory.size(slot + 2)).map(best).collect()
        };
        coming.groups.iter().map(of).collect()
    }

    /// For each kind in `slot` the best that can come next, as if of another sheet.
    fn gather(&self, slot: usize, state: usize, groups: &[Vec<Two>], memory: &Memory, best: &mut [Two]) {
        let coming = &self.slots[slot + 1];
        best.fill(Two::NONE);
        for (group, after) in coming.groups.iter().zip(groups) {
            let first = &coming.bundles[usize::from(group[0])].entry;
            let step = memory.step(slot + 1, state, usize::from(first.tinge));
            let two = after[usize::from(step.state)];
            for (kind, best) in (0..).zip(best.iter_mut()) {
                best.merge(two, step.cost + self.pairs.cost(kind, first.kind, coming.joint, false));
            }
        }
    }

    /// The least cost of the whole strip.
    pub(super) fn least(&self, after: &[After], memory: &Memory) -> i32 {
        let Some(link) = self.slots.first() else { return memory.ends()[0] };
        let whole = |(place, Bundle { entry, .. }): (usize, &Bundle)| {
            let step = memory.step(0, 0, usize::from(entry.tinge));
            entry.cost + step.cost + after[0].get(place, entry.is_letter(), usize::from(step.state))
        };
        link.bundles.iter().enumerate().map(whole).min().unwrap_or(NEVER).min(NEVER)
    }
}
