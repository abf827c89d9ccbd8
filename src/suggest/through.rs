//! The least cost of a strip through each of its choices, where nothing is remembered of its colours; and the best way.
//!
//! Must not know limits or heights.

use crate::title::Joint;

use super::chain::{After, Chain, Entry, NEVER, Two};

impl Chain {
    /// For each slot and entry the least cost of all arrangements that use it there. `after` remembers nothing.
    pub(super) fn through(&self, after: &[After]) -> Vec<Vec<i32>> {
        let Some(first) = self.slots.first() else { return Vec::new() };
        let arrive = |entry: &Entry| {
            if entry.is_letter() { [NEVER, entry.cost] } else { [entry.cost, NEVER] }
        };
        let mut before: Vec<[i32; 2]> = first.entries.iter().map(arrive).collect();
        let mut all = Vec::with_capacity(self.slots.len());
        for (slot, after) in after.iter().enumerate() {
            if slot > 0 {
                before = self.arrive(slot, &before);
            }
            let least = |(place, costs): (usize, &[i32; 2])| {
                let way = |whole: bool| {
                    let cost = costs[usize::from(whole)];
                    if cost >= NEVER { NEVER } else { cost + after.get(place, whole, 0) }
                };
                way(false).min(way(true))
            };
            all.push(before.iter().enumerate().map(least).collect());
        }
        all
    }

    /// The least cost up to each entry of `slot`, itself included, from that up to each of the slot before.
    fn arrive(&self, slot: usize, before: &[[i32; 2]]) -> Vec<[i32; 2]> {
        let (link, came) = (&self.slots[slot], &self.slots[slot - 1]);
        let in_word = link.joint == Some(Joint::Word);
        let owed = if in_word { self.owed(slot - 1) } else { 0 };
        let mut from: Vec<Two> = vec![Two::NONE; self.pairs.kinds()];
        for (entry, [mixed, whole]) in came.entries.iter().zip(before) {
            from[usize::from(entry.kind)].add((*mixed).min(whole + owed).min(NEVER), entry.sheet);
        }
        let mut best: Vec<Two> = vec![Two::NONE; self.pairs.kinds()];
        for (here, best) in (0..).zip(&mut best) {
            for (kind, two) in (0..).zip(&from) {
                best.merge(*two, self.pairs.cost(kind, here, link.joint, false));
            }
        }
        let apart = |entry: &Entry| {
            let cost = (best[usize::from(entry.kind)].without(entry.sheet) + entry.cost).min(NEVER);
            if !in_word && entry.is_letter() { [NEVER, cost] } else { [cost, NEVER] }
        };
        let mut costs: Vec<[i32; 2]> = link.entries.iter().map(apart).collect();
        for (place, (entry, arrived)) in came.entries.iter().zip(before).enumerate() {
            for &mate in link.mates(place) {
                let (here, cost) = (&link.entries[usize::from(mate)], &mut costs[usize::from(mate)]);
                for whole in [false, true] {
                    let came = arrived[usize::from(whole)];
                    if came < NEVER {
                        let stays = usize::from(link.stays_whole(here, whole, true));
                        let step = self.step(slot - 1, entry, here, whole);
                        cost[stays] = cost[stays].min(came + step + here.cost);
                    }
                }
            }
        }
        costs
    }

    /// The choices of the best arrangement. `after` remembers nothing.
    pub(super) fn best_way(&self, after: &[After]) -> Vec<u16> {
        let mut way: Vec<usize> = Vec::with_capacity(self.slots.len());
        let mut whole = false;
        for (slot, link) in self.slots.iter().enumerate() {
            let came = way.last().map(|&place| self.slots[slot - 1].entries[place]);
            let cost = |(place, here): (usize, &Entry)| {
                let same = came.is_some_and(|came| came.is_letter() && came.sheet == here.sheet);
                let stays = link.stays_whole(here, whole, same);
                let step = came.map_or(0, |came| self.step(slot - 1, &came, here, whole));
                (here.cost + step + after[slot].get(place, stays, 0), stays)
            };
            let found = (0..).zip(&link.entries).map(|one| (cost(one), one.0));
            if let Some(((_, stays), place)) = found.min_by_key(|((cost, _), place)| (*cost, *place)) {
                whole = stays;
                way.push(place);
            }
        }
        way.iter().zip(&self.slots).map(|(&place, link)| link.entries[place].choice).collect()
    }
}
