//! The search.
//!
//! Must not know the checks.

use crate::checks::Between;
use crate::checks::{Fill, reference_height, unmet};
use crate::measure::Points;
use crate::title::Joint;

use super::outcome::{Hindrance, Outcome, Put, Standing, SuggestedStrip, Suggestion};
use super::problem::{Part, Problem};

/// A search that can be taken on in slices.
#[derive(Debug)]
pub struct Search {
    problem: Problem,
    count: usize,
    found: Vec<Suggestion>,
    steps: u64,
    done: bool,
}

impl Search {
    /// A search for the `count` best that differ.
    #[must_use]
    pub fn new(problem: Problem, count: usize) -> Self {
        Self { problem, count, found: Vec::new(), steps: 0, done: false }
    }

    /// Takes the search on by at most `steps` steps; `true` once there is nothing left to do.
    pub fn run(&mut self, steps: u64) -> bool {
        if !self.done && steps > 0 {
            self.steps += 1;
            let path = greedy(&self.problem);
            self.found = vec![suggestion(&self.problem, &path)];
            self.found.truncate(self.count);
            self.done = true;
        }
        self.done
    }

    /// What came of it so far.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        let nothing = self.problem.slots.is_empty();
        Outcome {
            standing: if nothing {
                Standing::Impossible(Hindrance::NothingServes)
            } else {
                Standing::BestSoFar
            },
            suggestions: self.found.clone(),
            bound: Points::ZERO,
            explored: self.steps,
            unserved: self.problem.unserved(),
        }
    }
}

fn greedy(problem: &Problem) -> Vec<usize> {
    let mut left = problem.left.clone();
    let mut path = Vec::new();
    for slot in &problem.slots {
        let open = |place: &usize| slot.choices[*place].chip.is_none_or(|chip| left[chip as usize] > 0);
        let best = (0..slot.choices.len()).filter(open).min_by_key(|&place| slot.choices[place].fixed);
        let best = best.unwrap_or(0);
        if let Some(chip) = slot.choices[best].chip {
            left[chip as usize] -= 1;
        }
        path.push(best);
    }
    path
}

/// The arrangement of `path`, a choice a slot, with its score.
pub(super) fn suggestion(problem: &Problem, path: &[usize]) -> Suggestion {
    let strips: Vec<SuggestedStrip> = problem.parts.iter().map(|part| strip(problem, part, path)).collect();
    Suggestion { score: strips.iter().map(|strip| strip.score).sum(), strips }
}

fn strip(problem: &Problem, part: &Part, path: &[usize]) -> SuggestedStrip {
    let chosen: Vec<_> = part.slots.clone().map(|slot| &problem.slots[slot].choices[path[slot]]).collect();
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
