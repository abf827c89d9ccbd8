//! The least cost of a strip through each of its choices, and the best way through all.
//!
//! Must not know limits or heights.

use crate::title::Joint;

use super::after::{After, Two};
use super::chain::{Bundle, Chain, Entry, NEVER, NO_SHEET};
use super::memory::Memory;

/// The least cost up to each bundle of a slot, itself included, by what is remembered after it, as in the [`After`] of the
/// slot, and by whether its word is of one sheet so far.
struct Up<'a> {
    after: &'a After,
    bundles: usize,
    costs: Vec<[i32; 2]>,
}

impl<'a> Up<'a> {
    fn new(bundles: usize, after: &'a After) -> Self {
        Self { after, bundles, costs: vec![[NEVER; 2]; bundles * after.states.len()] }
    }

    /// The costs up to each bundle in the state at `place`.
    fn row(&self, place: usize) -> &[[i32; 2]] {
        &self.costs[place * self.bundles..(place + 1) * self.bundles]
    }

    fn lower(&mut self, bundle: usize, whole: bool, state: u16, cost: i32) {
        let place = self.after.place(usize::from(state));
        let known = &mut self.costs[place * self.bundles + bundle][usize::from(whole)];
        *known = cost.min(*known);
    }
}

impl Chain {
    /// For each slot and entry the least cost of all arrangements that use it there.
    pub(super) fn through(&self, after: &[After], memory: &Memory) -> Vec<Vec<i32>> {
        let Some(first) = self.slots.first() else { return Vec::new() };
        let mut up = Up::new(first.bundles.len(), &after[0]);
        for (place, Bundle { entry, .. }) in first.bundles.iter().enumerate() {
            let step = memory.step(0, 0, usize::from(entry.tinge));
            up.lower(place, entry.is_letter(), step.state, entry.cost + step.cost);
        }
        let mut all = Vec::with_capacity(self.slots.len());
        for (slot, after) in after.iter().enumerate() {
            if slot > 0 {
                up = self.up(slot, &up, after, memory);
            }
            let mut least = vec![NEVER; up.bundles];
            for place in 0..after.states.len() {
                for ((least, up), after) in least.iter_mut().zip(up.row(place)).zip(after.row(place)) {
                    *least = (up[0] + after[0]).min(up[1] + after[1]).min(*least);
                }
            }
            let link = &self.slots[slot];
            let dearer = |(entry, &bundle): (&Entry, &u16)| {
                let bundle = usize::from(bundle);
                (least[bundle] + (entry.cost - link.bundles[bundle].entry.cost)).min(NEVER)
            };
            all.push(link.entries.iter().zip(&link.bundle_of).map(dearer).collect());
        }
        all
    }

    fn up<'a>(&self, slot: usize, before: &Up<'_>, after: &'a After, memory: &Memory) -> Up<'a> {
        let (link, came) = (&self.slots[slot], &self.slots[slot - 1]);
        let in_word = link.joint == Some(Joint::Word);
        let owed = if in_word { self.owed(slot - 1) } else { 0 };
        let mut up = Up::new(link.bundles.len(), after);
        let mut from: Vec<Two> = vec![Two::NONE; self.pairs.kinds()];
        let mut best = from.clone();
        for (place, &state) in before.after.states.iter().enumerate() {
            let (row, state) = (before.row(place), usize::from(state));
            for &kind in &came.kinds {
                from[usize::from(kind)] = Two::NONE;
            }
            for (Bundle { entry, .. }, [mixed, whole]) in came.bundles.iter().zip(row) {
                let cost = (*mixed).min(whole + owed);
                if cost < NEVER {
                    from[usize::from(entry.kind)].add(cost, entry.sheet);
                }
            }
            for &here in &link.kinds {
                let mut two = Two::NONE;
                for &kind in &came.kinds {
                    two.merge(from[usize::from(kind)], self.pairs.cost(kind, here, link.joint, false));
                }
                best[usize::from(here)] = two;
            }
            for (place, Bundle { entry, .. }) in link.bundles.iter().enumerate() {
                let sheet = if in_word { entry.sheet } else { NO_SHEET };
                let apart = best[usize::from(entry.kind)].without(sheet);
                if apart < NEVER {
                    let step = memory.step(slot, state, usize::from(entry.tinge));
                    let whole = link.stays_whole(entry, false, false);
                    up.lower(place, whole, step.state, apart + entry.cost + step.cost);
                }
            }
            self.up_mates(slot, row, (state, memory), &mut up);
        }
        up
    }

    /// The ways by two letters of one sheet.
    fn up_mates(&self, slot: usize, row: &[[i32; 2]], (state, memory): (usize, &Memory), up: &mut Up<'_>) {
        let (link, came) = (&self.slots[slot], &self.slots[slot - 1]);
        for (place, Bundle { entry, mates, .. }) in came.bundles.iter().enumerate() {
            for &mate in mates {
                let here = &link.bundles[usize::from(mate)].entry;
                for whole in [false, true] {
                    let cost = row[place][usize::from(whole)];
                    if cost < NEVER {
                        let step = memory.step(slot, state, usize::from(here.tinge));
                        let stays = link.stays_whole(here, whole, true);
                        let pair = self.step(slot - 1, entry, here, whole);
                        up.lower(usize::from(mate), stays, step.state, cost + pair + here.cost + step.cost);
                    }
                }
            }
        }
    }

    /// The best arrangement; of equals the first.
    pub(super) fn best_way(&self, after: &[After], memory: &Memory) -> Vec<Entry> {
        let mut way: Vec<Entry> = Vec::with_capacity(self.slots.len());
        let mut came: Option<Entry> = None;
        let (mut whole, mut state) = (false, 0);
        for (slot, link) in self.slots.iter().enumerate() {
            let cost = |(place, Bundle { entry: here, .. }): (usize, &Bundle)| {
                let same = came.is_some_and(|came| came.is_mate(here));
                let stays = link.stays_whole(here, whole, same);
                let pair = came.map_or(0, |came| self.step(slot - 1, &came, here, whole));
                let step = memory.step(slot, state, usize::from(here.tinge));
                let next = usize::from(step.state);
                (here.cost + pair + step.cost + after[slot].get(place, stays, next), place, stays, next)
            };
            if let Some((_, place, stays, next)) = link.bundles.iter().enumerate().map(cost).min() {
                (whole, state, came) = (stays, next, Some(link.bundles[place].entry));
                way.push(link.bundles[place].entry);
            }
        }
        way
    }
}
