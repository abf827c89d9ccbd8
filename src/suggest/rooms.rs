//! The room of each line: even gaps and boxes, no line longer than it may be.
//!
//! Must not know costs.

use std::ops::Range;

use crate::measure::Length;
use crate::title::Joint;

use super::outcome::Hindrance;
use super::problem::{Path, Problem};

/// The lines that have a room, strip by strip.
#[derive(Debug, Clone, Default)]
pub(super) struct Rooms {
    pub(super) lines: Vec<RoomLine>,
}

/// A line that has a room.
#[derive(Debug, Clone)]
pub(super) struct RoomLine {
    /// Its slots in the row.
    pub(super) slots: Range<usize>,
    /// What its letters may take, its gaps taken off, in nanometres; below 0 where the gaps alone are too long.
    pub(super) left: i64,
    gaps: i64,
    part: usize,
}

impl Rooms {
    pub(super) fn of(problem: &Problem) -> Self {
        let mut lines = Vec::new();
        for (place, part) in problem.parts.iter().enumerate() {
            let Some(room) = part.room else { continue };
            for line in part.wording.lines() {
                let slots = part.slots.start + line.start..part.slots.start + line.end;
                let gap = |slot: usize| match problem.slots[slot].joint {
                    Some(Joint::Word) => part.gap.nm(),
                    _ => part.word_gap.nm(),
                };
                let gaps: i64 = slots.clone().skip(1).map(gap).sum();
                lines.push(RoomLine { slots, left: room.nm() - gaps, gaps, part: place });
            }
        }
        Self { lines }
    }

    /// Whether an arrangement keeps to every room.
    pub(super) fn hold(&self, problem: &Problem, path: &Path) -> bool {
        let width = |slot: usize| problem.slots[slot].choices[usize::from(path[slot])].width.nm();
        self.lines.iter().all(|line| line.slots.clone().map(width).sum::<i64>() <= line.left)
    }

    /// The first line that cannot be as short as its room, whatever stands on it.
    pub(super) fn hindrance(&self, problem: &Problem) -> Option<Hindrance> {
        self.lines.iter().find_map(|line| {
            let shortest = shortest(problem, &line.slots)?;
            (shortest > line.left).then(|| Hindrance::TooLong {
                strip: line.part,
                shortest: Length::from_nm(shortest + line.gaps),
                room: Length::from_nm(line.left + line.gaps),
            })
        })
    }
}

/// The least width that choices of `slots` sum to, each chip taken no more often than there are letters of it: slot by
/// slot along the shortest augmenting path, as in the assignment problem (Kuhn 1955; Ford and Fulkerson 1962).
fn shortest(problem: &Problem, slots: &Range<usize>) -> Option<i64> {
    let mut chosen: Vec<Option<usize>> = vec![None; slots.len()];
    let width = |slot: usize, choice: usize| problem.slots[slots.start + slot].choices[choice].width.nm();
    let chip = |slot: usize, choice: usize| problem.slots[slots.start + slot].choices[choice].chip;
    for fresh in 0..slots.len() {
        // The least that it costs to let each slot choose anew, and the choice by which the one before it took its chip.
        let mut costs = vec![i64::MAX; slots.len()];
        let mut came: Vec<Option<(usize, usize)>> = vec![None; slots.len()];
        costs[fresh] = 0;
        let mut end: Option<(i64, usize, usize)> = None;
        let mut changed = true;
        while changed {
            changed = false;
            for slot in (0..slots.len()).filter(|&slot| costs[slot] < i64::MAX).collect::<Vec<_>>() {
                let freed = chosen[slot].filter(|_| slot != fresh).map_or(0, |choice| width(slot, choice));
                for choice in 0..problem.slots[slots.start + slot].choices.len() {
                    let cost = costs[slot] - freed + width(slot, choice);
                    let holders: Vec<usize> = match chip(slot, choice) {
                        Some(one) => {
                            let holds = |&other: &usize| {
                                chosen[other].and_then(|held| chip(other, held)) == Some(one)
                            };
                            let holders: Vec<usize> = (0..slots.len()).filter(holds).collect();
                            if holders.len() < usize::from(problem.left[one as usize]) {
                                Vec::new()
                            } else if holders.is_empty() {
                                continue;
                            } else {
                                holders
                            }
                        }
                        None => Vec::new(),
                    };
                    if holders.is_empty() {
                        if end.is_none_or(|end| cost < end.0) {
                            end = Some((cost, slot, choice));
                        }
                        continue;
                    }
                    for holder in holders {
                        if holder != slot && cost < costs[holder] {
                            costs[holder] = cost;
                            came[holder] = Some((slot, choice));
                            changed = true;
                        }
                    }
                }
            }
        }
        let (_, mut slot, mut choice) = end?;
        loop {
            chosen[slot] = Some(choice);
            match came[slot] {
                Some((before, taken)) if slot != fresh => (slot, choice) = (before, taken),
                _ => break,
            }
        }
    }
    Some(chosen.iter().enumerate().filter_map(|(slot, choice)| Some(width(slot, (*choice)?))).sum())
}
