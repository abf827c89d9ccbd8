//! What a search may use only so often: letters of a chip, and likenesses to what was suggested before.
//!
//! Must not know costs.

use std::collections::{BTreeMap, BTreeSet};

use crate::checks::Family;

use super::chain::Entry;
use super::problem::{Choice, Path, Problem};
use super::rooms::Rooms;

/// What may be used only so often, each thing by its place.
#[derive(Debug, Clone, Default)]
pub(super) struct Limits {
    /// How often each may be used.
    pub(super) most: Vec<i32>,
    /// The part in which each is a crowd of one family, if it is that; such a limit holds only where it is asked for.
    pub(super) crowds: Vec<Option<usize>>,
    /// From here on: for each line its room.
    rooms: usize,
    /// From here on: for each part what it must have at least once; that it is not used less is told as a limit of -1.
    needs: usize,
    /// For each slot and choice the things that it uses once, as a range of `uses`.
    starts: Vec<Vec<u32>>,
    uses: Vec<Use>,
}

/// How many things a part may have to have.
pub(super) const NEEDS: u8 = 3;

/// A use of a limited thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Use {
    /// Which, by its place.
    pub(super) limit: u32,
    /// How much of it.
    pub(super) by: i32,
}

impl Limits {
    /// Counts of the chips that could run out, and likenesses to `before`: a later arrangement differs from each in at
    /// least a quarter of the slots, rounded up, and in no fewer than two; one where there are fewer than six. `None`
    /// where nothing can differ so much.
    pub(super) fn new(problem: &Problem, before: &[Path], rooms: &Rooms) -> Option<Self> {
        let mut limits = Self::default();
        let contested = limits.count_chips(problem);
        let slots = problem.slots.len();
        let least = if slots < 6 { 1 } else { slots.div_ceil(4).max(2) };
        let alike = if before.is_empty() { 0 } else { i32::try_from(slots.checked_sub(least)?).ok()? };
        let first = limits.most.len();
        limits.most.extend(before.iter().map(|_| alike));
        let crowds = limits.count_crowds(problem);
        limits.rooms = limits.most.len();
        limits.most.extend(rooms.lines.iter().map(|line| steps(line.left)));
        for (place, slot) in problem.slots.iter().enumerate() {
            let mut starts = Vec::with_capacity(slot.choices.len() + 1);
            for choice in &slot.choices {
                starts.push(limits.len());
                limits.uses.extend(choice.chip.and_then(|chip| contested[chip as usize]).map(once));
                let line = rooms.lines.iter().position(|line| line.slots.contains(&place));
                if let Some(limit) = line.and_then(|line| u32::try_from(limits.rooms + line).ok()) {
                    limits.uses.push(Use { limit, by: steps(choice.width.nm()) });
                }
                if let Some(family) = choice.fill.family() {
                    limits.uses.extend(crowds.get(&(slot.part, family)).copied().map(once));
                }
                for (answer, path) in before.iter().enumerate() {
                    if looks_like(&slot.choices[usize::from(path[place])], choice) {
                        limits.uses.extend(u32::try_from(first + answer).ok().map(once));
                    }
                }
            }
            starts.push(limits.len());
            limits.starts.push(starts);
        }
        limits.needs = limits.most.len();
        limits.most.resize(limits.needs + usize::from(NEEDS) * problem.parts.len(), -1);
        limits.crowds.resize(limits.most.len(), None);
        Some(limits)
    }

    /// The limits of chips that more slots could use than there are letters, and the place of each chip among them.
    fn count_chips(&mut self, problem: &Problem) -> Vec<Option<u32>> {
        let mut wanted = vec![0_u32; problem.left.len()];
        for slot in &problem.slots {
            let mut seen: Vec<u32> = slot.choices.iter().filter_map(|choice| choice.chip).collect();
            seen.sort_unstable();
            seen.dedup();
            for chip in seen {
                wanted[chip as usize] += 1;
            }
        }
        let mut contested = vec![None; problem.left.len()];
        for (chip, &left) in problem.left.iter().enumerate() {
            if u32::from(left) < wanted[chip] {
                contested[chip] = u32::try_from(self.most.len()).ok();
                self.most.push(i32::from(left));
            }
        }
        contested
    }

    /// The limits of families that could be on too many letters of their part, by part and family.
    fn count_crowds(&mut self, problem: &Problem) -> BTreeMap<(usize, Family), u32> {
        let mut crowds = BTreeMap::new();
        for (place, part) in problem.parts.iter().enumerate() {
            let Some((letters, _)) = part.crowd() else { continue };
            let mut wanted: BTreeMap<Family, usize> = BTreeMap::new();
            for slot in &problem.slots[part.slots.clone()] {
                let here: BTreeSet<Family> =
                    slot.choices.iter().filter_map(|choice| choice.fill.family()).collect();
                for family in here {
                    *wanted.entry(family).or_default() += 1;
                }
            }
            for (family, slots) in wanted {
                if slots > letters {
                    self.crowds.resize(self.most.len(), None);
                    crowds.extend(u32::try_from(self.most.len()).ok().map(|id| ((place, family), id)));
                    self.most.push(i32::try_from(letters).unwrap_or(i32::MAX));
                    self.crowds.push(Some(place));
                }
            }
        }
        crowds
    }

    fn len(&self) -> u32 {
        u32::try_from(self.uses.len()).unwrap_or(u32::MAX)
    }

    /// Whether a limit is counted one by one; a room is measured, a need is asked for.
    pub(super) const fn is_count(&self, limit: usize) -> bool {
        limit < self.rooms
    }

    /// The place of a need of a part.
    pub(super) const fn need(&self, part: usize, need: u8) -> usize {
        self.needs + part * NEEDS as usize + need as usize
    }

    /// The part and the need that a limit is, if it is one.
    pub(super) fn as_need(&self, limit: usize) -> Option<(usize, u8)> {
        let place = limit.checked_sub(self.needs)?;
        let needs = usize::from(NEEDS);
        Some((place / needs, u8::try_from(place % needs).unwrap_or(0)))
    }

    /// What an entry of `part` pays at `prices`; it is paid for meeting needs.
    pub(super) fn price(&self, part: usize, slot: usize, entry: &Entry, prices: &[i32]) -> i32 {
        let price = |used: &Use| prices[used.limit as usize].saturating_mul(used.by);
        let needs = (0..NEEDS).filter(|need| entry.meets & 1 << need != 0);
        let paid: i32 = needs.map(|need| prices[self.need(part, need)]).sum();
        self.of(slot, entry.choice).iter().map(price).sum::<i32>() - paid
    }

    /// What a choice uses.
    pub(super) fn of(&self, slot: usize, choice: u16) -> &[Use] {
        let starts = &self.starts[slot];
        let choice = usize::from(choice);
        &self.uses[starts[choice] as usize..starts[choice + 1] as usize]
    }
}

/// A length in whole steps of a quarter of a millimetre, rounded down: where lengths fit, so do their steps.
fn steps(nm: i64) -> i32 {
    i32::try_from(nm.div_euclid(250_000)).unwrap_or(i32::MAX)
}

const fn once(limit: u32) -> Use {
    Use { limit, by: 1 }
}

/// Whether two choices of one slot cannot be told apart by looking.
fn looks_like(a: &Choice, b: &Choice) -> bool {
    a.put == b.put || (a.look.is_some() && a.look == b.look)
}
