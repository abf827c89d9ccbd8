//! One arrangement: whether it can be had, and what the checks say of it.
//!
//! Must not know how it was found.

use crate::checks::{Between, Fill, reference_height, unmet};
use crate::measure::Points;
use crate::title::Joint;

use super::outcome::{Put, SuggestedStrip, Suggestion};
use super::problem::{Part, Path, Problem};

/// Whether an arrangement takes no more of any chip than there is.
pub(super) fn keeps_counts(problem: &Problem, path: &[u16]) -> bool {
    let mut left = problem.left.clone();
    let chosen =
        problem.slots.iter().zip(path).filter_map(|(slot, &place)| slot.choices[usize::from(place)].chip);
    path.len() == problem.slots.len()
        && chosen.into_iter().all(|chip| {
            let left = &mut left[chip as usize];
            let some = *left > 0;
            *left = left.saturating_sub(1);
            some
        })
}

/// An arrangement that takes in each slot the least dear choice that is left.
pub(super) fn greedy(problem: &Problem) -> Path {
    let mut left = problem.left.clone();
    let mut path = Vec::new();
    for slot in &problem.slots {
        let open = |place: &usize| slot.choices[*place].chip.is_none_or(|chip| left[chip as usize] > 0);
        let best = (0..slot.choices.len()).filter(open).min_by_key(|&place| slot.choices[place].fixed);
        let best = best.unwrap_or(0);
        if let Some(chip) = slot.choices[best].chip {
            left[chip as usize] -= 1;
        }
        path.push(u16::try_from(best).unwrap_or(u16::MAX));
    }
    path
}

/// The arrangement of `path`, a choice a slot, with its score.
pub(super) fn suggestion(problem: &Problem, path: &[u16]) -> Suggestion {
    let strips: Vec<SuggestedStrip> = problem.parts.iter().map(|part| strip(problem, part, path)).collect();
    Suggestion { score: strips.iter().map(|strip| strip.score).sum(), strips }
}

fn strip(problem: &Problem, part: &Part, path: &[u16]) -> SuggestedStrip {
    let chosen: Vec<_> =
        part.slots.clone().map(|slot| &problem.slots[slot].choices[usize::from(path[slot])]).collect();
    let fills: Vec<Fill> = chosen.iter().map(|choice| choice.fill.clone()).collect();
    let heights = fills.iter().filter_map(|fill| fill.look()?.height);
    let height = reference_height(heights, part.suits, &part.lore.taste);
    let letters: Points = fills.iter().map(|fill| part.letter_points(fill, height)).sum();
    let demands: Points = part.demands.iter().map(|demand| unmet(demand, &fills, &part.wording).1).sum();
    let start = part.slots.start;
    let pair = |slot: usize| {
        let joint = problem.slots[slot].joint?;
        let word = &problem.slots[slot].word;
        let mut sheets = fills[word.start - start..word.end - start].iter().map(Fill::sheet);
        let first = sheets.next().flatten();
        let whole = joint == Joint::Word && first.is_some() && sheets.all(|sheet| sheet == first);
        let (before, here) = (&fills[slot - 1 - start], &fills[slot - start]);
        Some(part.pair_points(before, here, Between { joint, whole }))
    };
    let pairs: Points = part.slots.clone().skip(1).filter_map(pair).sum();
    let puts: Vec<Put> = chosen.iter().map(|choice| choice.put).collect();
    SuggestedStrip { score: letters + demands + pairs, height, puts }
}
