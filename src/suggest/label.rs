//! Beginnings of arrangements, kept so that of two that can be finished in the same ways only the better stays.
//!
//! Must not know how they grow.

use crate::title::Joint;

use super::chain::{Chain, NO_SHEET};

/// The end of a chain of labels.
pub(super) const NONE: u32 = u32::MAX;

/// A beginning of an arrangement.
#[derive(Debug, Clone, Copy)]
pub(super) struct Label {
    /// What it costs, without prices.
    pub(super) cost: i32,
    /// With prices.
    pub(super) priced: i32,
    /// The least that any arrangement costs that begins so.
    pub(super) promise: i32,
    /// The label it grew from, among those of the slot before.
    pub(super) parent: u32,
    /// The entry of its last slot.
    pub(super) entry: u16,
    /// What is left of its line's room, in nanometres.
    pub(super) room: i64,
    pub(super) future: Future,
}

/// What of a beginning matters to how it can go on, besides its ties.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Future {
    /// The kind of its last letter, and its sheet where a letter of that sheet may follow.
    kind: u16,
    sheet: u32,
    /// Whether its last word is of one sheet so far.
    pub(super) whole: bool,
    /// What is remembered.
    pub(super) state: u16,
}

/// The labels of one slot with their ties, as many a label as there are, and a table that finds those with one future.
#[derive(Debug, Default)]
pub(super) struct Layer {
    pub(super) labels: Vec<Label>,
    pub(super) ties: Vec<i32>,
    /// For each hash the newest label, and for each label the one before it with the same.
    table: Vec<u32>,
    links: Vec<u32>,
}

impl Layer {
    /// The one beginning of all: nothing yet.
    pub(super) fn start(ties: &[i32]) -> Self {
        let future = Future::default();
        let label = Label { cost: 0, priced: 0, promise: 0, parent: NONE, entry: 0, room: 0, future };
        Self { labels: vec![label], ties: ties.to_vec(), ..Self::default() }
    }

    /// Takes in a label whose ties were put at the end of the others; of two with one future the cheaper stays, of
    /// equals the first.
    pub(super) fn put(&mut self, label: Label, count: usize) {
        if self.labels.len() * 2 >= self.table.len() {
            self.rehash(count);
        }
        let fresh = self.labels.len();
        let bucket = self.bucket(fresh, &label.future, count);
        let mut at = self.table[bucket];
        while at != NONE {
            let known = at as usize;
            if self.labels[known].future == label.future
                && self.ties_of(known, count) == self.ties_of(fresh, count)
            {
                let other = &mut self.labels[known];
                let better = label.cost < other.cost && label.room >= other.room;
                if better || (other.cost <= label.cost && other.room >= label.room) {
                    if better {
                        *other = label;
                    }
                    self.ties.truncate(fresh * count);
                    return;
                }
            }
            at = self.links[known];
        }
        self.links.push(std::mem::replace(&mut self.table[bucket], u32::try_from(fresh).unwrap_or(NONE)));
        self.labels.push(label);
    }

    pub(super) fn ties_of(&self, label: usize, count: usize) -> &[i32] {
        &self.ties[label * count..(label + 1) * count]
    }

    fn bucket(&self, label: usize, future: &Future, count: usize) -> usize {
        let mut hash = Hash(0);
        hash.add(u64::from(future.kind) | u64::from(future.state) << 16 | u64::from(future.whole) << 32);
        hash.add(u64::from(future.sheet));
        self.ties_of(label, count).iter().for_each(|&tie| hash.add(u64::from(tie.cast_unsigned())));
        hash.place(self.table.len())
    }

    fn rehash(&mut self, count: usize) {
        self.table.clear();
        self.table.resize((self.labels.len() * 4).next_power_of_two().max(64), NONE);
        for label in 0..self.labels.len() {
            let bucket = self.bucket(label, &self.labels[label].future, count);
            self.links[label] =
                std::mem::replace(&mut self.table[bucket], u32::try_from(label).unwrap_or(NONE));
        }
    }

    pub(super) fn clear(&mut self) {
        self.labels.clear();
        self.ties.clear();
        self.links.clear();
        self.table.fill(NONE);
    }
}

/// A hash that is the same on every machine and run (multiply and rotate; house).
struct Hash(u64);

impl Hash {
    const fn add(&mut self, value: u64) {
        self.0 = (self.0.rotate_left(23) ^ value).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    }

    /// A place in a table of `size`, a power of two.
    const fn place(self, size: usize) -> usize {
        (self.0 >> 20) as usize & (size - 1)
    }
}

impl Chain {
    /// What matters of `entry` in `slot` to what follows.
    pub(super) fn future(&self, slot: usize, entry: usize, whole: bool, state: u16) -> Future {
        let here = &self.slots[slot].entries[entry];
        match self.slots.get(slot + 1) {
            None => Future::default(),
            Some(next) if next.joint.is_none() => Future { state, ..Future::default() },
            Some(next) => {
                let bundle = &self.slots[slot].bundles[usize::from(self.slots[slot].bundle_of[entry])];
                let sheet = if bundle.mates.is_empty() { NO_SHEET } else { here.sheet };
                Future { kind: here.kind, sheet, whole: whole && next.joint == Some(Joint::Word), state }
            }
        }
    }
}
