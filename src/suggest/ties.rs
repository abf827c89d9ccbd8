//! What besides costs an arrangement must keep to, as it grows: how much of each limited thing is left, and that the
//! height the line is compared by is the one that suits its letters best.
//!
//! Two beginnings that have the same ties can be finished in the same ways. Must not know costs.

use super::chain::Chain;
use super::field::Field;
use super::limits::Limits;
use super::region::Region;

/// A tie that no longer binds.
pub(super) const FREE: i32 = i32::MAX;

/// Every tie of a settled region.
#[derive(Debug)]
pub(super) struct Ties {
    /// What each begins with.
    pub(super) start: Vec<i32>,
    /// For each slot of the row and entry what it does to which ties.
    pulls: Vec<Vec<Vec<Pull>>>,
    /// For each slot of the row the ties that must be looked at after it, with what may still come.
    ahead: Vec<Vec<Ahead>>,
}

/// What an entry does to one tie.
#[derive(Debug, Clone, Copy)]
struct Pull {
    tie: usize,
    /// What is added to it.
    by: i32,
    /// Whether it makes it count: brings the height that is in question.
    brings: bool,
}

/// What may still come for a tie.
#[derive(Debug, Clone, Copy)]
struct Ahead {
    tie: usize,
    kind: Kind,
    /// The least that all later slots add, and the most.
    least: i32,
    most: i32,
    /// Whether a later slot may bring the height.
    comes: bool,
}

/// What a tie asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// Never to fall below 0.
    Left,
    /// If the height is brought, to be no less than 0 in the end.
    Height,
    /// To have brought the height in the end.
    Brought,
}

/// A tie as it is worked out: for each slot of the row what its entries do.
struct Tie {
    kind: Kind,
    start: i32,
    by: Vec<Vec<(i32, bool)>>,
}

impl Ties {
    pub(super) fn of(field: &Field, limits: &Limits, region: &Region, chains: &[Chain]) -> Self {
        let mut ties = counts(field, limits, region, chains);
        for (place, share) in region.shares.iter().enumerate() {
            // A quick look takes whatever height comes out.
            if let Some(line) = share.line().filter(|_| share.over.is_some()) {
                ties.extend(heights(field, place, line, chains));
            }
        }
        let slots = field.problem.slots.len();
        let entries = |slot: usize| ties.first().map_or(0, |tie| tie.by[slot].len());
        let mut pulls: Vec<Vec<Vec<Pull>>> = (0..slots).map(|slot| vec![Vec::new(); entries(slot)]).collect();
        let mut ahead: Vec<Vec<Ahead>> = vec![Vec::new(); slots];
        for (place, tie) in ties.iter().enumerate() {
            let (mut least, mut most, mut comes) = (0_i32, 0_i32, false);
            for slot in (0..slots).rev() {
                let here = &tie.by[slot];
                let touched = here.iter().any(|&(by, brings)| by != 0 || brings);
                if touched {
                    ahead[slot].push(Ahead { tie: place, kind: tie.kind, least, most, comes });
                    for (entry, &(by, brings)) in here.iter().enumerate() {
                        if by != 0 || brings {
                            pulls[slot][entry].push(Pull { tie: place, by, brings });
                        }
                    }
                }
                least += here.iter().map(|one| one.0).min().unwrap_or(0);
                most += here.iter().map(|one| one.0).max().unwrap_or(0);
                comes |= here.iter().any(|one| one.1);
            }
        }
        Self { start: ties.iter().map(|tie| tie.start).collect(), pulls, ahead }
    }

    /// Takes `entry` of `slot` into the ties; `false` where one breaks.
    pub(super) fn pull(&self, slot: usize, entry: usize, ties: &mut [i32]) -> bool {
        let Some(pulls) = self.pulls[slot].get(entry) else { return true };
        for pull in pulls {
            let tie = &mut ties[pull.tie];
            if *tie != FREE {
                // The lowest bit tells whether the height is brought.
                *tie = (*tie + pull.by * 2) | i32::from(pull.brings);
            }
        }
        self.ahead[slot].iter().all(|ahead| ahead.settle(&mut ties[ahead.tie]))
    }
}

impl Ahead {
    /// Frees the tie where nothing that may come can break it; `false` where it is broken, or sure to be.
    fn settle(self, tie: &mut i32) -> bool {
        if *tie == FREE {
            return true;
        }
        let (value, brought) = (*tie >> 1, *tie & 1 == 1);
        let (free, broken) = match self.kind {
            Kind::Left => (value + self.least >= 0, value < 0),
            Kind::Height => {
                (value + self.least >= 0 || !(brought || self.comes), brought && value + self.most < 0)
            }
            Kind::Brought => (brought, !self.comes && !brought),
        };
        if free {
            *tie = FREE;
        }
        !broken || free
    }
}

/// A tie for each thing that could be used too often.
fn counts(field: &Field, limits: &Limits, region: &Region, chains: &[Chain]) -> Vec<Tie> {
    let rows = rows(field, chains);
    let mut slots_of = vec![0; limits.most.len()];
    let mut seen = vec![usize::MAX; limits.most.len()];
    for (slot, row) in rows.iter().enumerate() {
        for used in row.iter().flat_map(|&choice| limits.of(slot, choice)) {
            let used = used.limit as usize;
            slots_of[used] += i32::from(std::mem::replace(&mut seen[used], slot) != slot);
        }
    }
    let binds = |limit: usize| {
        limits.is_count(limit) && slots_of[limit] > limits.most[limit] && region.holds(limits, limit)
    };
    let tie = |limit: usize| {
        let uses = |slot: usize, choice: u16| {
            limits.of(slot, choice).iter().any(|used| used.limit as usize == limit)
        };
        let row = |(slot, row): (usize, &Vec<u16>)| {
            row.iter().map(|&choice| (-i32::from(uses(slot, choice)), false)).collect()
        };
        let by = rows.iter().enumerate().map(row).collect();
        Tie { kind: Kind::Left, start: limits.most[limit] * 2, by }
    };
    (0..limits.most.len()).filter(|&limit| binds(limit)).map(tie).collect()
}

/// The choices of each slot of the row.
fn rows(field: &Field, chains: &[Chain]) -> Vec<Vec<u16>> {
    let mut rows = Vec::with_capacity(field.problem.slots.len());
    for chain in chains {
        rows.extend(chain.slots.iter().map(|link| link.entries.iter().map(|e| e.choice).collect()));
    }
    rows
}

/// Ties that keep the height of one strip at `line`: a letter brings it, and no other height that a letter brings has
/// a lesser sum, nor, if it is greater, an equal one.
fn heights(field: &Field, place: usize, line: usize, chains: &[Chain]) -> Vec<Tie> {
    let (heights, part) = (&field.heights[place], &field.problem.parts[place]);
    let rows = rows(field, chains);
    let own = |slot: usize, choice: u16| {
        part.slots
            .contains(&slot)
            .then(|| heights.place(slot - part.slots.start, usize::from(choice)))
            .flatten()
    };
    let over_rows = |of: &dyn Fn(usize) -> (i32, bool)| -> Vec<Vec<(i32, bool)>> {
        let row = |(slot, row): (usize, &Vec<u16>)| {
            row.iter().map(|&choice| own(slot, choice).map_or((0, false), of)).collect()
        };
        rows.iter().enumerate().map(row).collect()
    };
    let brought = |own: usize| (0, heights.line_of(part, own) == line);
    let mut ties = vec![Tie { kind: Kind::Brought, start: 0, by: over_rows(&brought) }];
    let mut rivals: Vec<usize> = Vec::new();
    for slot in part.slots.clone() {
        let lines = rows[slot].iter().filter_map(|&choice| own(slot, choice));
        rivals.extend(lines.map(|own| heights.line_of(part, own)));
    }
    rivals.sort_unstable();
    rivals.dedup();
    for rival in rivals.into_iter().filter(|&rival| rival != line) {
        let by = |own: usize| {
            let weight = |line: usize| heights.weight(part, own, heights.lines[line]);
            (weight(rival) - weight(line), heights.line_of(part, own) == rival)
        };
        let tie = Tie { kind: Kind::Height, start: -2 * i32::from(rival > line), by: over_rows(&by) };
        let least = |row: &Vec<(i32, bool)>| row.iter().map(|one| one.0).min().unwrap_or(0);
        if tie.start / 2 + tie.by.iter().map(least).sum::<i32>() < 0 {
            ties.push(tie);
        }
    }
    ties
}
