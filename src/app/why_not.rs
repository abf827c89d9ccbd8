//! "Why not this one?": what an alternate would change, what makes the difference, and the best mix that has it.
//!
//! Must not know what a key does or how it is drawn.

use crate::checks::{Alternate, Tryout, judge};
use crate::measure::Points;
use crate::plan::Plan;
use crate::suggest::Problem;
use crate::title::{Edit, Sticker, Stood};

use super::pursuit::{Pursuit, Run};
use super::shelf::Shelf;
use super::trial::Trial;

/// Why not an alternate.
#[derive(Debug)]
pub struct WhyNot {
    /// Its place in the list.
    pub chosen: usize,
    /// What it would change, a sentence each.
    told: Vec<String>,
    /// The search for the best mix with it pinned there.
    pub pursuit: Pursuit,
}

impl WhyNot {
    /// Asks about `alternate`, at `chosen` in the list of the slot `at`.
    #[must_use]
    pub fn new(
        trial: &Trial,
        shelf: &Shelf,
        at: (usize, usize),
        chosen: usize,
        alternate: &Alternate,
    ) -> Self {
        let id = shelf.stash.chip(alternate.candidate.chip).id();
        let sticker = Sticker::Chip { id, stands_in: alternate.candidate.stands_in };
        let mut plan = trial.plan().clone();
        let stood = Stood { pinned: true, ..Stood::straight(sticker) };
        plan.edit_strip(at.0, Edit::Letter { slot: at.1, stood: Some(stood) });
        let told = told(trial, shelf, at, alternate, &plan);
        let problem = Problem::new(&plan, &shelf.stash, &shelf.scene, None);
        Self { chosen, told, pursuit: Pursuit::new(problem, 1) }
    }

    /// The answer so far, a sentence each; `best` is the best mix at all, where it is known.
    #[must_use]
    pub fn lines(&self, best: Option<&Pursuit>) -> Vec<String> {
        let mut lines = self.told.clone();
        let with = self.pursuit.best();
        let steps = self.pursuit.progress();
        lines.push(match (self.pursuit.run(), with) {
            (Run::Going, _) => format!("best mix with it here: looking, {steps}"),
            (_, None) => "no mix has it here".into(),
            (Run::Done, Some(with)) => {
                let besides = best.filter(|best| best.is_proved()).and_then(Pursuit::best);
                let besides = besides.map_or_else(String::new, |best| match (with - best).tenths() {
                    0 => ": as good as the best there is".into(),
                    _ => format!(", {} more than the best there is, {best}", with - best),
                });
                format!("the best mix with it here scores {with}{besides}")
            }
            (Run::Stopped | Run::OutOfTime, _) => format!("best mix with it here: stopped, {steps}"),
        });
        lines
    }
}

fn told(trial: &Trial, shelf: &Shelf, at: (usize, usize), alternate: &Alternate, plan: &Plan) -> Vec<String> {
    let (stash, scene) = (&shelf.stash, &shelf.scene);
    let verdict = judge(plan, stash, scene);
    let (now, with) = (trial.verdict().score, verdict.score);
    let by = with - now;
    let mut told = vec![match by.tenths() {
        0 => format!("with it the plan scores {with}, as now"),
        1.. => format!("with it the plan scores {with}, {by} more than now ({now})"),
        _ => format!("with it the plan scores {with}, {} less than now ({now})", -by),
    }];
    let mut tryout = Tryout::new(trial.plan(), at.0, at.1, stash, scene);
    let before = tryout.points();
    tryout.put(alternate.candidate);
    let mut terms: Vec<(&str, Points)> = before
        .into_iter()
        .zip(tryout.points())
        .map(|((id, was), (_, is))| (id, is - was))
        .filter(|(_, by)| by.tenths() != 0 && (by.tenths() > 0) == (with > now))
        .collect();
    terms.sort_by_key(|(_, by)| -by.tenths().abs());
    let Some((id, points)) = terms.first().filter(|_| with != now) else { return told };
    let is_it = |one: &&crate::checks::Finding| one.id == *id && one.strip == at.0;
    let mut of_it = verdict.findings.iter().filter(is_it);
    let here = of_it.clone().find(|one| one.slots.contains(&at.1)).or_else(|| of_it.next());
    let why = here.filter(|_| with > now).map_or_else(String::new, |one| format!(": {}", one.message));
    told.push(format!("{id} makes most of the difference, {}{why}", signed(*points)));
    told
}

/// Points with their sign.
#[must_use]
pub fn signed(points: Points) -> String {
    if points.tenths() > 0 { format!("+{points}") } else { points.to_string() }
}
