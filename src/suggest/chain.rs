//! The relaxed programme: the best arrangement of one strip where nothing runs out, by dynamic programming over its slots.
//!
//! What a slot costs depends on the slot before it (families, sheets) and on what is remembered of the colours so far.
//! Sheets stay out of the state: the best and the best of another sheet are enough. Must not know limits or heights.

use std::sync::Arc;

use crate::title::Joint;

use super::memory::Memory;
use super::pairs::Pairs;

/// Beyond every cost.
pub(super) const NEVER: i32 = i32::MAX / 4;

/// A choice in a slot, priced.
#[derive(Debug, Clone, Copy)]
pub(super) struct Entry {
    /// Its place among the slot's choices.
    pub(super) choice: u16,
    /// Its kind, for pairs.
    pub(super) kind: u16,
    /// Its tinge, for demands.
    pub(super) tinge: u16,
    /// Its sheet; [`NO_SHEET`] for what is no letter.
    pub(super) sheet: u32,
    /// What it costs by itself, without prices and with them.
    pub(super) base: i32,
    pub(super) cost: i32,
}

/// The sheet of what is no letter; not even the same as itself.
pub(super) const NO_SHEET: u32 = u32::MAX;

impl Entry {
    pub(super) const fn is_letter(&self) -> bool {
        self.sheet != NO_SHEET
    }
}

/// One strip, priced.
#[derive(Debug)]
pub(super) struct Chain {
    pub(super) slots: Vec<Link>,
    pub(super) pairs: Arc<Pairs>,
}

/// A slot of a chain.
#[derive(Debug)]
pub(super) struct Link {
    /// In the order of the choices.
    pub(super) entries: Vec<Entry>,
    /// What lies between the slot before and this one.
    pub(super) joint: Option<Joint>,
    /// How many letters of its word stand before it.
    pub(super) offset: i32,
    /// The entries' places by kind and tinge.
    groups: Vec<Vec<u16>>,
    /// For each entry of the slot before where its entries of the same sheet here begin in `mates`.
    mate_starts: Vec<u32>,
    mates: Vec<u16>,
}

/// The least cost of all slots after one, by what stands in it and what is remembered.
#[derive(Debug, Clone, Default)]
pub(super) struct After {
    costs: Vec<i32>,
    states: usize,
}

impl After {
    /// The costs after `entry`: first where its word is not of one sheet, then where it is, by state.
    pub(super) fn of(&self, entry: usize) -> &[i32] {
        &self.costs[entry * 2 * self.states..(entry + 1) * 2 * self.states]
    }

    /// How many costs there are.
    pub(super) fn size(&self) -> u64 {
        self.costs.len() as u64
    }

    /// The least cost after `entry`, its word so far wholly of one sheet or not, in `state`.
    pub(super) fn get(&self, entry: usize, whole: bool, state: usize) -> i32 {
        self.costs[(entry * 2 + usize::from(whole)) * self.states + state]
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

impl Link {
    pub(super) fn new(entries: Vec<Entry>, joint: Option<Joint>, offset: i32, before: Option<&Self>) -> Self {
        let mut order: Vec<u16> = (0..u16::try_from(entries.len()).unwrap_or(u16::MAX)).collect();
        let key = |place: &u16| {
            let entry = &entries[usize::from(*place)];
            (entry.kind, entry.tinge)
        };
        order.sort_by_key(key);
        let groups = order.chunk_by(|a, b| key(a) == key(b)).map(<[u16]>::to_vec).collect();
        let (mate_starts, mates) = before.map_or_else(Default::default, |before| mates(before, &entries));
        Self { entries, joint, offset, groups, mate_starts, mates }
    }

    /// The places of the entries here that are of the sheet of `entry` in the slot before.
    pub(super) fn mates(&self, entry: usize) -> &[u16] {
        &self.mates[self.mate_starts[entry] as usize..self.mate_starts[entry + 1] as usize]
    }

    /// Whether the word so far is of one sheet, once `entry` stands here after a word that was or was not.
    pub(super) fn stays_whole(&self, entry: &Entry, whole: bool, same: bool) -> bool {
        entry.is_letter() && (self.joint != Some(Joint::Word) || (whole && same))
    }
}

fn mates(before: &Link, entries: &[Entry]) -> (Vec<u32>, Vec<u16>) {
    let mut by_sheet: Vec<(u32, u16)> = entries.iter().map(|entry| entry.sheet).zip(0..).collect();
    by_sheet.sort_unstable();
    let mut starts = Vec::with_capacity(before.entries.len() + 1);
    let mut mates = Vec::new();
    let count = |mates: &Vec<u16>| u32::try_from(mates.len()).unwrap_or(u32::MAX);
    for entry in &before.entries {
        starts.push(count(&mates));
        if entry.is_letter() {
            let first = by_sheet.partition_point(|one| one.0 < entry.sheet);
            let same = by_sheet[first..].iter().take_while(|one| one.0 == entry.sheet);
            mates.extend(same.map(|one| one.1));
        }
    }
    starts.push(count(&mates));
    (starts, mates)
}

impl Chain {
    /// Keeps only the entries for which `keep` says so, by slot and place; whether any went.
    pub(super) fn retain(&mut self, keep: impl Fn(usize, usize) -> bool) -> bool {
        let went = |(slot, link): (usize, &Link)| (0..link.entries.len()).any(|place| !keep(slot, place));
        if !self.slots.iter().enumerate().any(went) {
            return false;
        }
        let mut slots: Vec<Link> = Vec::with_capacity(self.slots.len());
        for (slot, link) in std::mem::take(&mut self.slots).into_iter().enumerate() {
            let kept = link.entries.into_iter().enumerate().filter(|&(place, _)| keep(slot, place));
            let link = Link::new(kept.map(|one| one.1).collect(), link.joint, link.offset, slots.last());
            slots.push(link);
        }
        self.slots = slots;
        true
    }

    /// What is charged once a word turns out not to be of one sheet, after `slot`: its pairs so far are pieces.
    pub(super) fn owed(&self, slot: usize) -> i32 {
        self.slots[slot].offset * self.pairs.piece
    }

    /// What a step from `slot` to an entry of the next costs, besides the entry: `whole` is of the word up to `slot`.
    pub(super) fn step(&self, slot: usize, before: &Entry, here: &Entry, whole: bool) -> i32 {
        let joint = self.slots[slot + 1].joint;
        let same = before.is_letter() && before.sheet == here.sheet;
        let pair = self.pairs.cost(before.kind, here.kind, joint, same);
        match joint {
            Some(Joint::Word) if whole && same => pair - self.pairs.piece,
            Some(Joint::Word) if whole => pair + self.owed(slot),
            _ => pair,
        }
    }

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
        let ends = memory.ends();
        let count = self.slots.last().map_or(0, |link| link.entries.len()) * 2;
        After { costs: ends.repeat(count), states: ends.len() }
    }

    fn after_one(&self, slot: usize, next: &After, memory: &Memory) -> After {
        let (link, coming) = (&self.slots[slot], &self.slots[slot + 1]);
        let states = memory.size(slot + 1);
        let mut costs = vec![NEVER; link.entries.len() * 2 * states];
        let mut best: Vec<Two> = vec![Two::NONE; self.kinds()];
        for state in 0..states {
            self.gather(slot, state, next, memory, &mut best);
            for (place, entry) in link.entries.iter().enumerate() {
                let apart = best[usize::from(entry.kind)].without(entry.sheet);
                for whole in [false, true] {
                    let owed = if whole && coming.joint == Some(Joint::Word) { self.owed(slot) } else { 0 };
                    let mut least = apart + owed;
                    for &mate in coming.mates(place) {
                        let here = &coming.entries[usize::from(mate)];
                        let step = memory.step(slot + 1, state, usize::from(here.tinge));
                        let stays = coming.stays_whole(here, whole, true);
                        let rest = next.get(usize::from(mate), stays, usize::from(step.state));
                        least = least.min(self.step(slot, entry, here, whole) + here.cost + step.cost + rest);
                    }
                    costs[(place * 2 + usize::from(whole)) * states + state] = least.min(NEVER);
                }
            }
        }
        After { costs, states }
    }

    /// How many entries there are.
    pub(super) fn size(&self) -> u64 {
        self.slots.iter().map(|link| link.entries.len() as u64).sum()
    }

    fn kinds(&self) -> usize {
        self.pairs.kinds()
    }

    /// For each kind in `slot` the best that can come next, as if of another sheet.
    fn gather(&self, slot: usize, state: usize, next: &After, memory: &Memory, best: &mut [Two]) {
        let coming = &self.slots[slot + 1];
        best.fill(Two::NONE);
        for group in &coming.groups {
            let first = &coming.entries[usize::from(group[0])];
            let step = memory.step(slot + 1, state, usize::from(first.tinge));
            let mut two = Two::NONE;
            for &place in group {
                let entry = &coming.entries[usize::from(place)];
                let whole = coming.stays_whole(entry, false, false);
                let rest = next.get(usize::from(place), whole, usize::from(step.state));
                two.add(entry.cost + rest, entry.sheet);
            }
            for (kind, best) in best.iter_mut().enumerate() {
                let kind = u16::try_from(kind).unwrap_or(u16::MAX);
                best.merge(two, step.cost + self.pairs.cost(kind, first.kind, coming.joint, false));
            }
        }
    }

    /// The least cost of the whole strip.
    pub(super) fn least(&self, after: &[After], memory: &Memory) -> i32 {
        let Some(link) = self.slots.first() else { return memory.ends()[0] };
        let whole = |(place, entry): (usize, &Entry)| {
            let step = memory.step(0, 0, usize::from(entry.tinge));
            entry.cost + step.cost + after[0].get(place, entry.is_letter(), usize::from(step.state))
        };
        link.entries.iter().enumerate().map(whole).min().unwrap_or(NEVER).min(NEVER)
    }
}
