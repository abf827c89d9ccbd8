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
    /// The states that can be reached.
    pub(super) states: Vec<u16>,
    /// For each state its place among them; what cannot be reached has none.
    places: Vec<u16>,
    bundles: usize,
    costs: Vec<[i32; 2]>,
}

impl After {
    fn new(states: Vec<u16>, of: usize, bundles: usize) -> Self {
        let mut places = vec![u16::MAX; of];
        for (place, &state) in (0..).zip(&states) {
            places[usize::from(state)] = place;
        }
        let costs = Vec::with_capacity(states.len() * bundles);
        Self { states, places, bundles, costs }
    }

    /// The least cost after `bundle`, its word so far wholly of one sheet or not, in `state`.
    pub(super) fn get(&self, bundle: usize, whole: bool, state: usize) -> i32 {
        self.costs[self.place(state) * self.bundles + bundle][usize::from(whole)]
    }

    /// The costs after each bundle in the state at `place`.
    pub(super) fn row(&self, place: usize) -> &[[i32; 2]] {
        &self.costs[place * self.bundles..(place + 1) * self.bundles]
    }

    /// The place of a state that can be reached.
    pub(super) fn place(&self, state: usize) -> usize {
        usize::from(self.places[state])
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
        let mut reached = self.reached(memory);
        while let Some(states) = reached.pop() {
            let slot = reached.len();
            let mut after = After::new(states, memory.size(slot + 1), self.slots[slot].bundles.len());
            match all.last() {
                None => after_last(&mut after, memory),
                Some(next) => self.after_one(slot, next, memory, &mut after),
            }
            all.push(after);
        }
        all.reverse();
        all
    }

    /// For each slot the states that can be reached after it.
    fn reached(&self, memory: &Memory) -> Vec<Vec<u16>> {
        let mut all: Vec<Vec<u16>> = Vec::with_capacity(self.slots.len());
        for (slot, link) in self.slots.iter().enumerate() {
            let mut is_reached = vec![false; memory.size(slot + 1)];
            let mut states = Vec::new();
            for &before in all.last().map_or(&[0][..], Vec::as_slice) {
                for group in &link.groups {
                    let tinge = link.bundles[usize::from(group[0])].entry.tinge;
                    let state = memory.step(slot, usize::from(before), usize::from(tinge)).state;
                    if !std::mem::replace(&mut is_reached[usize::from(state)], true) {
                        states.push(state);
                    }
                }
            }
            all.push(states);
        }
        all
    }

    fn after_one(&self, slot: usize, next: &After, memory: &Memory, after: &mut After) {
        let (link, coming) = (&self.slots[slot], &self.slots[slot + 1]);
        // Beyond its word a letter has nothing to do with its sheet.
        let in_word = coming.joint == Some(Joint::Word);
        let owed = if in_word { self.owed(slot) } else { 0 };
        let groups = self.groups_after(slot, next);
        let mut best: Vec<Two> = vec![Two::NONE; self.pairs.kinds()];
        for &state in &after.states {
            let state = usize::from(state);
            self.gather(slot, state, &groups, (next, memory), &mut best);
            for Bundle { entry, mates, .. } in &link.bundles {
                let sheet = if in_word { entry.sheet } else { NO_SHEET };
                let apart = best[usize::from(entry.kind)].without(sheet);
                let mut least = [apart, apart + owed];
                for &mate in mates {
                    let here = &coming.bundles[usize::from(mate)].entry;
                    let step = memory.step(slot + 1, state, usize::from(here.tinge));
                    let row = next.row(next.place(usize::from(step.state)))[usize::from(mate)];
                    for whole in [false, true] {
                        let stays = usize::from(coming.stays_whole(here, whole, true));
                        let pair = self.step(slot, entry, here, whole);
                        let cost = pair + here.cost + step.cost + row[stays];
                        least[usize::from(whole)] = cost.min(least[usize::from(whole)]);
                    }
                }
                after.costs.push(least.map(|cost| cost.min(NEVER)));
            }
        }
    }

    /// For each group of the slot after `slot` and state after that, by place, the best of the group and what comes after.
    fn groups_after(&self, slot: usize, next: &After) -> Vec<Vec<Two>> {
        let coming = &self.slots[slot + 1];
        let of = |group: &Vec<u16>| -> Vec<Two> {
            let best = |place: usize| {
                let (row, mut two) = (next.row(place), Two::NONE);
                for &place in group {
                    let entry = &coming.bundles[usize::from(place)].entry;
                    let whole = usize::from(coming.stays_whole(entry, false, false));
                    two.add(entry.cost + row[usize::from(place)][whole], entry.sheet);
                }
                two
            };
            (0..next.states.len()).map(best).collect()
        };
        coming.groups.iter().map(of).collect()
    }

    /// For each kind that stands in `slot` the best that can come next, as if of another sheet.
    fn gather(
        &self,
        slot: usize,
        state: usize,
        groups: &[Vec<Two>],
        (next, memory): (&After, &Memory),
        best: &mut [Two],
    ) {
        let coming = &self.slots[slot + 1];
        let kinds = &self.slots[slot].kinds;
        for &kind in kinds {
            best[usize::from(kind)] = Two::NONE;
        }
        for (group, after) in coming.groups.iter().zip(groups) {
            let first = &coming.bundles[usize::from(group[0])].entry;
            let step = memory.step(slot + 1, state, usize::from(first.tinge));
            let two = after[next.place(usize::from(step.state))];
            for &kind in kinds {
                let pair = self.pairs.cost(kind, first.kind, coming.joint, false);
                best[usize::from(kind)].merge(two, step.cost + pair);
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

fn after_last(after: &mut After, memory: &Memory) {
    for &state in &after.states {
        let end = memory.ends()[usize::from(state)];
        after.costs.extend(std::iter::repeat_n([end, end], after.bundles));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Costs and sheets by a small recurrence: enough to meet every order of few values.
    fn drawn(seed: u32, count: u32) -> Vec<(i32, u32)> {
        let mut at = seed;
        (0..count)
            .map(|_| {
                at = at.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                let sheet = (at >> 20) % 4;
                (i32::try_from((at >> 8) % 6).unwrap_or(0), if sheet == 3 { NO_SHEET } else { sheet })
            })
            .collect()
    }

    #[test]
    fn two_are_enough_for_the_best_of_any_other_sheet() {
        for seed in 0..2_000 {
            let (some, more) = (drawn(seed, seed % 5), drawn(seed + 7_000, 1 + seed % 4));
            let mut all = Two::NONE;
            let mut part = Two::NONE;
            for &(cost, sheet) in &some {
                all.add(cost, sheet);
            }
            for &(cost, sheet) in &more {
                part.add(cost, sheet);
            }
            all.merge(part, 2);
            for sheet in 0..3 {
                let plain = some.iter().copied().chain(more.iter().map(|&(cost, sheet)| (cost + 2, sheet)));
                let least = plain.filter(|one| one.1 != sheet).map(|one| one.0).min().unwrap_or(NEVER);
                assert_eq!(all.without(sheet), least, "{some:?} then {more:?} without {sheet}");
            }
        }
    }
}
