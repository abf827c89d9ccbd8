//! One strip as a chain of slots: what can stand in each, and what letters of one sheet side by side have to do with one
//! another.
//!
//! Must not know limits or heights.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::title::Joint;

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
    /// Which of the things that every arrangement must have it is, a bit each.
    pub(super) meets: u8,
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

    /// Whether both are of one sheet.
    pub(super) const fn is_mate(&self, other: &Self) -> bool {
        self.is_letter() && self.sheet == other.sheet
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
    /// For each entry the place of its bundle.
    pub(super) bundle_of: Vec<u16>,
    /// The entries, those bundled that only differ in cost to what stands around.
    pub(super) bundles: Vec<Bundle>,
    /// What lies between the slot before and this one.
    pub(super) joint: Option<Joint>,
    /// How many letters of its word stand before it.
    pub(super) offset: i32,
    /// The bundles' places by kind and tinge.
    pub(super) groups: Vec<Vec<u16>>,
    /// The kinds there are, each once.
    pub(super) kinds: Vec<u16>,
}

/// Entries of one kind and tinge that have no letter of their sheet beside them, or one entry that has.
#[derive(Debug)]
pub(super) struct Bundle {
    /// The cheapest, which stands for all.
    pub(super) entry: Entry,
    members: Vec<u16>,
    /// The bundles of the next slot, within the word, that are of its sheet.
    pub(super) mates: Vec<u16>,
}

/// A slot before it is a link: its entries, what lies before it, and how many letters of its word do.
pub(super) type Bare = (Vec<Entry>, Option<Joint>, i32);

impl Chain {
    pub(super) fn new(bare: &[Bare], pairs: Arc<Pairs>) -> Self {
        let count = bare.len();
        let in_word = |slot: usize| slot < count && bare[slot].1 == Some(Joint::Word);
        let sheets: Vec<Vec<u32>> = bare.iter().map(|one| sheets(&one.0)).collect();
        let is_mated = |slot: usize, entry: &Entry| {
            let beside = |slot: usize| sheets[slot].binary_search(&entry.sheet).is_ok();
            entry.is_letter()
                && ((in_word(slot) && beside(slot - 1)) || (in_word(slot + 1) && beside(slot + 1)))
        };
        let mut slots: Vec<Link> = Vec::with_capacity(count);
        for (slot, (entries, joint, offset)) in bare.iter().enumerate() {
            slots.push(Link::new(entries.clone(), *joint, *offset, |entry| is_mated(slot, entry)));
        }
        for slot in 1..count {
            if in_word(slot) {
                let (before, here) = slots.split_at_mut(slot);
                before[slot - 1].find_mates(&here[0]);
            }
        }
        let mut chain = Self { slots, pairs };
        chain.choose();
        chain
    }

    /// Keeps only the entries for which `keep` says so, by slot and place.
    pub(super) fn retain(&mut self, keep: impl Fn(usize, usize) -> bool) {
        let went = |(slot, link): (usize, &Link)| (0..link.entries.len()).any(|place| !keep(slot, place));
        if !self.slots.iter().enumerate().any(went) {
            return;
        }
        let bare = |(slot, link): (usize, Link)| {
            let kept = link.entries.into_iter().enumerate().filter(|&(place, _)| keep(slot, place));
            (kept.map(|one| one.1).collect(), link.joint, link.offset)
        };
        let bare: Vec<Bare> = std::mem::take(&mut self.slots).into_iter().enumerate().map(bare).collect();
        *self = Self::new(&bare, Arc::clone(&self.pairs));
    }

    /// Lets the cheapest of each bundle stand for it, after entries were priced anew.
    pub(super) fn choose(&mut self) {
        for link in &mut self.slots {
            for bundle in &mut link.bundles {
                let members = bundle.members.iter().map(|&place| link.entries[usize::from(place)]);
                if let Some(cheapest) = members.min_by_key(|entry| (entry.cost, entry.choice)) {
                    bundle.entry = cheapest;
                }
            }
        }
    }

    /// How many bundles there are.
    pub(super) fn size(&self) -> usize {
        self.slots.iter().map(|link| link.bundles.len()).sum()
    }

    /// What is charged once a word turns out not to be of one sheet, after `slot`: its pairs so far are pieces.
    pub(super) fn owed(&self, slot: usize) -> i32 {
        self.slots[slot].offset * self.pairs.piece
    }

    /// What a step from `slot` to an entry of the next costs, besides the entry: `whole` is of the word up to `slot`.
    pub(super) fn step(&self, slot: usize, before: &Entry, here: &Entry, whole: bool) -> i32 {
        let joint = self.slots[slot + 1].joint;
        let same = before.is_mate(here);
        let pair = self.pairs.cost(before.kind, here.kind, joint, same);
        match joint {
            Some(Joint::Word) if whole && same => pair - self.pairs.piece,
            Some(Joint::Word) if whole => pair + self.owed(slot),
            _ => pair,
        }
    }
}

/// The sheets of entries, each once, ascending.
fn sheets(entries: &[Entry]) -> Vec<u32> {
    let mut sheets: Vec<u32> = entries.iter().map(|entry| entry.sheet).collect();
    sheets.sort_unstable();
    sheets.dedup();
    sheets
}

impl Link {
    fn new(
        entries: Vec<Entry>,
        joint: Option<Joint>,
        offset: i32,
        is_mated: impl Fn(&Entry) -> bool,
    ) -> Self {
        let mut bundles: Vec<Bundle> = Vec::new();
        let mut bundle_of = Vec::with_capacity(entries.len());
        // For each kind and tinge the bundle of those that are not mated.
        let mut known: BTreeMap<(u16, u16), usize> = BTreeMap::new();
        for (place, entry) in (0..).zip(&entries) {
            let fresh = bundles.len();
            let bundle = if is_mated(entry) {
                fresh
            } else {
                *known.entry((entry.kind, entry.tinge)).or_insert(fresh)
            };
            if bundle == fresh {
                bundles.push(Bundle { entry: *entry, members: Vec::new(), mates: Vec::new() });
            }
            bundles[bundle].members.push(place);
            bundle_of.push(u16::try_from(bundle).unwrap_or(u16::MAX));
        }
        let mut order: Vec<u16> = (0..u16::try_from(bundles.len()).unwrap_or(u16::MAX)).collect();
        let key = |place: &u16| {
            let entry = &bundles[usize::from(*place)].entry;
            (entry.kind, entry.tinge)
        };
        order.sort_by_key(key);
        let groups = order.chunk_by(|a, b| key(a) == key(b)).map(<[u16]>::to_vec).collect();
        let mut kinds: Vec<u16> = order.iter().map(|place| key(place).0).collect();
        kinds.dedup();
        Self { entries, bundle_of, bundles, joint, offset, groups, kinds }
    }

    fn find_mates(&mut self, next: &Self) {
        let mut by_sheet: Vec<(u32, u16)> = next.bundles.iter().map(|one| one.entry.sheet).zip(0..).collect();
        by_sheet.sort_unstable();
        for bundle in self.bundles.iter_mut().filter(|bundle| bundle.entry.is_letter()) {
            let sheet = bundle.entry.sheet;
            let first = by_sheet.partition_point(|one| one.0 < sheet);
            bundle.mates =
                by_sheet[first..].iter().take_while(|one| one.0 == sheet).map(|one| one.1).collect();
        }
    }

    /// Whether the word so far is of one sheet, once `entry` stands here after a word that was or was not.
    pub(super) fn stays_whole(&self, entry: &Entry, whole: bool, same: bool) -> bool {
        entry.is_letter() && (self.joint != Some(Joint::Word) || (whole && same))
    }
}
