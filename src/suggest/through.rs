//! The least cost of a strip through each of its choices, and the best way through all.
//!
//! Must not know limits or heights.

use crate::title::Joint;

use super::chain::{After, Chain, Entry, NEVER, Two};
use super::memory::Memory;

/// The least cost up to each entry of a slot, itself included, by whether its word is of one sheet so far, and by what is
/// remembered after it.
struct Up {
    costs: Vec<i32>,
    states: usize,
}

impl Up {
    fn new(entries: usize, states: usize) -> Self {
        Self { costs: vec![NEVER; entries * 2 * states], states }
    }

    fn get(&self, entry: usize, whole: bool, state: usize) -> i32 {
        self.costs[(entry * 2 + usize::from(whole)) * self.states + state]
    }

    fn lower(&mut self, entry: usize, whole: bool, state: u16, cost: i32) {
        let known = &mut self.costs[(entry * 2 + usize::from(whole)) * self.states + usize::from(state)];
        *known = cost.min(*known);
    }
}

impl Chain {
    /// For each slot and entry the least cost of all arrangements that use it there.
    pub(super) fn through(&self, after: &[After], memory: &Memory) -> Vec<Vec<i32>> {
        let Some(first) = self.slots.first() else { return Vec::new() };
        let mut up = Up::new(first.entries.len(), memory.size(1));
        for (place, entry) in first.entries.iter().enumerate() {
            let step = memory.step(0, 0, usize::from(entry.tinge));
            up.lower(place, entry.is_letter(), step.state, entry.cost + step.cost);
        }
        let mut all = Vec::with_capacity(self.slots.len());
        for (slot, after) in after.iter().enumerate() {
            if slot > 0 {
                up = self.up(slot, &up, memory);
            }
            let count = 2 * up.states;
            let least = |place: usize| {
                let ways = up.costs[place * count..].iter().zip(after.of(place)).take(count);
                ways.map(|(&up, &after)| up.saturating_add(after)).min().unwrap_or(NEVER).min(NEVER)
            };
            all.push((0..self.slots[slot].entries.len()).map(least).collect());
        }
        all
    }

    fn up(&self, slot: usize, before: &Up, memory: &Memory) -> Up {
        let (link, came) = (&self.slots[slot], &self.slots[slot - 1]);
        let in_word = link.joint == Some(Joint::Word);
        let owed = if in_word { self.owed(slot - 1) } else { 0 };
        let mut up = Up::new(link.entries.len(), memory.size(slot + 1));
        let mut from: Vec<Two> = vec![Two::NONE; self.pairs.kinds()];
        let mut best = from.clone();
        for state in 0..before.states {
            from.fill(Two::NONE);
            for (place, entry) in came.entries.iter().enumerate() {
                let cost = before.get(place, false, state).min(before.get(place, true, state) + owed);
                if cost < NEVER {
                    from[usize::from(entry.kind)].add(cost, entry.sheet);
                }
            }
            best.fill(Two::NONE);
            for (here, best) in (0..).zip(&mut best) {
                for (kind, two) in (0..).zip(&from) {
                    best.merge(*two, self.pairs.cost(kind, here, link.joint, false));
                }
            }
            for (place, entry) in link.entries.iter().enumerate() {
                let apart = best[usize::from(entry.kind)].without(entry.sheet);
                if apart < NEVER {
                    let step = memory.step(slot, state, usize::from(entry.tinge));
                    let whole = link.stays_whole(entry, false, false);
                    up.lower(place, whole, step.state, apart + entry.cost + step.cost);
                }
            }
            self.up_mates(slot, before, (state, memory), &mut up);
        }
        up
    }

    /// The ways by two letters of one sheet.
    fn up_mates(&self, slot: usize, before: &Up, (state, memory): (usize, &Memory), up: &mut Up) {
        let (link, came) = (&self.slots[slot], &self.slots[slot - 1]);
        for (place, entry) in came.entries.iter().enumerate() {
            for &mate in link.mates(place) {
                let here = &link.entries[usize::from(mate)];
                for whole in [false, true] {
                    let cost = before.get(place, whole, state);
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

    /// The choices of the best arrangement; of equals the first.
    pub(super) fn best_way(&self, after: &[After], memory: &Memory) -> Vec<u16> {
        let mut way: Vec<u16> = Vec::with_capacity(self.slots.len());
        let mut came: Option<Entry> = None;
        let (mut whole, mut state) = (false, 0);
        for (slot, link) in self.slots.iter().enumerate() {
            let cost = |(place, here): (usize, &Entry)| {
                let same = came.is_some_and(|came| came.is_letter() && came.sheet == here.sheet);
                let stays = link.stays_whole(here, whole, same);
                let pair = came.map_or(0, |came| self.step(slot - 1, &came, here, whole));
                let step = memory.step(slot, state, usize::from(here.tinge));
                let next = usize::from(step.state);
                (here.cost + pair + step.cost + after[slot].get(place, stays, next), place, stays, next)
            };
            if let Some((_, place, stays, next)) = link.entries.iter().enumerate().map(cost).min() {
                (whole, state, came) = (stays, next, Some(link.entries[place]));
                way.push(link.entries[place].choice);
            }
        }
        way
    }
}
