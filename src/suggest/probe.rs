//! A quick look for a good arrangement before the search: one height a strip, and only the cheapest choices.
//!
//! Must not claim that anything is the best.

use std::sync::Arc;

use super::field::Field;
use super::limits::Limits;
use super::memory::cost_of;
use super::problem::Path;
use super::region::{Region, Share};
use super::rooms::Rooms;
use super::sweep::Sweep;

/// Choices looked at in each slot.
const CHOICES: usize = 12;

/// Beginnings kept.
const WIDTH: usize = 40;

/// A good arrangement with each strip compared by the height at its place in `lines`, that costs no more than `most`, if
/// one was come upon.
pub(super) fn probe(
    field: &Field,
    (limits, rooms): (&Limits, &Rooms),
    lines: &[Option<usize>],
    most: i32,
) -> Option<Path> {
    let mut open = Vec::with_capacity(field.problem.slots.len());
    for (slot, of) in field.problem.slots.iter().enumerate() {
        let costs = costs_at(field, slot, lines[of.part]);
        let mut cheapest: Vec<(i32, u16)> = costs.into_iter().zip(0..).collect();
        cheapest.sort_unstable();
        let empty = u16::try_from(of.choices.len() - 1).unwrap_or(u16::MAX);
        let mut here: Vec<u16> = cheapest.into_iter().take(CHOICES).map(|one| one.1).chain([empty]).collect();
        here.sort_unstable();
        here.dedup();
        open.push(here);
    }
    let share =
        |line: &Option<usize>| Share { lines: line.map(|line| line..line + 1), over: None, crowd: false };
    let region = Region {
        bound: 0,
        number: 0,
        shares: lines.iter().map(share).collect(),
        prices: vec![0; limits.most.len()],
        open: Arc::new(open),
        level: 0,
        cuts: 0,
    };
    let priced = region.as_is(field, limits);
    let mut sweep = Sweep::new(field, (limits, rooms), region, (priced, most), WIDTH);
    let mut steps = u64::MAX;
    sweep.run(field, limits, most, &mut steps);
    sweep.finish(field).best
}

/// What each choice of a slot costs by itself in a line compared by `line`.
fn costs_at(field: &Field, slot: usize, line: Option<usize>) -> Vec<i32> {
    let of = &field.problem.slots[slot];
    let (part, heights) = (&field.problem.parts[of.part], &field.heights[of.part]);
    let cost = |(place, choice): (usize, &super::problem::Choice)| {
        let height = heights.place(slot - part.slots.start, place).zip(line);
        let more = height.map_or(0, |(height, line)| heights.cost(&field.problem, part, height, line));
        cost_of(choice.alone) + more
    };
    of.choices.iter().enumerate().map(cost).collect()
}

/// The heights under which the cheapest choices of all slots of the only strip sum to little, the least first, as places.
pub(super) fn likely_lines(field: &Field, count: usize) -> Vec<usize> {
    let (Some(part), Some(heights)) = (field.problem.parts.first(), field.heights.first()) else {
        return Vec::new();
    };
    // For each slot the cheapest choice of each height.
    let cheapest: Vec<Vec<(usize, i32)>> = part
        .slots
        .clone()
        .map(|slot| {
            let mut least = vec![i32::MAX; heights.own.len() + 1];
            for (choice, of) in field.problem.slots[slot].choices.iter().enumerate() {
                let height = heights.place(slot - part.slots.start, choice).map_or(0, |height| height + 1);
                least[height] = least[height].min(cost_of(of.alone));
            }
            least.into_iter().enumerate().filter(|one| one.1 < i32::MAX).collect()
        })
        .collect();
    let sum = |&line: &usize| {
        let dearer = heights.costs(&field.problem, part, &(line..line + 1));
        let cost = |&(height, cost): &(usize, i32)| cost + height.checked_sub(1).map_or(0, |own| dearer[own]);
        cheapest.iter().filter_map(|slot| slot.iter().map(cost).min()).map(i64::from).sum::<i64>()
    };
    let mut lines: Vec<usize> = (0..heights.lines.len()).collect();
    lines.sort_by_cached_key(sum);
    lines.truncate(count);
    lines
}
