//! The room of each line: even gaps and boxes, no line longer than it may be.
//!
//! Must not know costs.

use std::collections::BTreeSet;
use std::ops::Range;

use crate::measure::Length;
use crate::title::Joint;

use super::outcome::Hindrance;
use super::problem::{Choice, Path, Problem, Slot};

/// The lines that have a room and could be shorter or longer, strip by strip.
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
                if problem.slots[slots.clone()].iter().all(Slot::is_kept) {
                    continue;
                }
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
        self.lines.iter().all(|line| line.letters(problem, path) <= line.left)
    }

    /// `path` with every line that has a room as short as it can be by itself; all together they may take more letters
    /// of a chip than there are.
    ///
    /// # Errors
    /// The first line that cannot be as short as its room, whatever stands on it.
    pub(super) fn shortened(&self, problem: &Problem, mut path: Path) -> Result<Path, Hindrance> {
        for line in &self.lines {
            let Some(shortest) = Row::shortest(problem, &line.slots) else { continue };
            path[line.slots.clone()].copy_from_slice(&shortest);
            let length = line.letters(problem, &path);
            if length > line.left {
                return Err(Hindrance::TooLong {
                    strip: line.part,
                    shortest: Length::from_nm(length + line.gaps),
                    room: Length::from_nm(line.left + line.gaps),
                });
            }
        }
        Ok(path)
    }
}

impl RoomLine {
    /// What its letters take, in nanometres.
    fn letters(&self, problem: &Problem, path: &Path) -> i64 {
        let width = |slot: usize| problem.slots[slot].choices[usize::from(path[slot])].width.nm();
        self.slots.clone().map(width).sum()
    }
}

/// A line's slots, each with a choice that its letters allow.
struct Row<'a> {
    problem: &'a Problem,
    start: usize,
    /// For each slot its narrowest choices of different chips, as many as there are slots: whatever the others take, one
    /// of them is to be had.
    narrowest: Vec<Vec<u16>>,
    chosen: Vec<Option<u16>>,
}

impl<'a> Row<'a> {
    /// The choices of `slots` with the least sum of widths, each chip taken no more often than there are letters of it:
    /// slot by slot along the shortest augmenting path, as in the assignment problem (Kuhn 1955; Ford and Fulkerson
    /// 1962).
    fn shortest(problem: &'a Problem, slots: &Range<usize>) -> Option<Vec<u16>> {
        let mut row =
            Self { problem, start: slots.start, narrowest: Vec::new(), chosen: vec![None; slots.len()] };
        row.narrowest = (0..slots.len()).map(|slot| row.narrowest_of(slot)).collect();
        for slot in 0..slots.len() {
            row.add(slot)?;
        }
        row.chosen.into_iter().collect()
    }

    fn narrowest_of(&self, slot: usize) -> Vec<u16> {
        let choices = &self.problem.slots[self.start + slot].choices;
        let is_left = |choice: &Choice| choice.chip.is_none_or(|chip| self.problem.left[chip as usize] > 0);
        let mut order: Vec<u16> =
            (0..).zip(choices).filter(|(_, choice)| is_left(choice)).map(|(place, _)| place).collect();
        order.sort_by_key(|&choice| self.width(slot, choice));
        let mut seen = BTreeSet::new();
        order.retain(|&choice| seen.insert(self.chip(slot, choice)));
        order.truncate(self.chosen.len());
        order
    }

    fn width(&self, slot: usize, choice: u16) -> i64 {
        self.problem.slots[self.start + slot].choices[usize::from(choice)].width.nm()
    }

    fn chip(&self, slot: usize, choice: u16) -> Option<u32> {
        self.problem.slots[self.start + slot].choices[usize::from(choice)].chip
    }

    /// The slots that hold the letters of a choice's chip, where all are held.
    fn holders(&self, slot: usize, choice: u16) -> Vec<usize> {
        let Some(chip) = self.chip(slot, choice) else { return Vec::new() };
        let holds = |&other: &usize| {
            self.chosen[other].and_then(|held| self.chip(other, held)).is_some_and(|held| held == chip)
        };
        let holders: Vec<usize> = (0..self.chosen.len()).filter(holds).collect();
        if holders.len() < usize::from(self.problem.left[chip as usize]) { Vec::new() } else { holders }
    }

    /// Chooses for one slot more, and lets the others choose anew where that is shorter in all.
    fn add(&mut self, fresh: usize) -> Option<()> {
        // The least that it costs to let each slot choose anew, and the choice by which another took its letter.
        let mut costs = vec![i64::MAX; self.chosen.len()];
        let mut came: Vec<Option<(usize, u16)>> = vec![None; self.chosen.len()];
        costs[fresh] = 0;
        let mut end: Option<(i64, usize, u16)> = None;
        let mut changed = true;
        while std::mem::take(&mut changed) {
            for slot in 0..costs.len() {
                if costs[slot] == i64::MAX {
                    continue;
                }
                let freed = self.chosen[slot].map_or(0, |held| self.width(slot, held));
                for &choice in &self.narrowest[slot] {
                    let cost = costs[slot] - freed + self.width(slot, choice);
                    let holders = self.holders(slot, choice);
                    if holders.is_empty() && end.is_none_or(|end| cost < end.0) {
                        end = Some((cost, slot, choice));
                    }
                    for holder in holders.into_iter().filter(|&holder| holder != slot) {
                        if cost < costs[holder] {
                            (costs[holder], came[holder], changed) = (cost, Some((slot, choice)), true);
                        }
                    }
                }
            }
        }
        let (_, mut slot, mut choice) = end?;
        while let Some((before, taken)) = came[slot] {
            self.chosen[slot] = Some(choice);
            (slot, choice) = (before, taken);
        }
        self.chosen[slot] = Some(choice);
        Some(())
    }
}
