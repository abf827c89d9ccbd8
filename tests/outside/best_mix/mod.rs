//! The best mix against a general solver: `microlp`, a mixed-integer linear programming library (crates.io), on a model
//! made from the rules of the score and the raw stash.
//!
//! The solver proves that nothing scores less than what the search calls the best, or that it cannot tell within its
//! nodes. Must not know how the search comes by its answer.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

mod cases;
mod line;
mod model;
mod proof;
mod wishes;

use oddment::checks::{Scene, Taste};
use oddment::plan::Spoken;
use oddment::suggest::{Outcome, Problem, Put, Search, Standing, SuggestedStrip, Suggestion};

use cases::Likely;
use model::Picks;
use proof::Proof;

/// Steps of the search for one case.
const STEPS: u64 = 250_000;

fn searched(case: &Likely, count: usize) -> Outcome {
    let elsewhere = Spoken::by(&case.other, &case.stash);
    let scene = Scene::new(&case.stash, &case.plan.page, Taste::default(), elsewhere);
    let mut search = Search::new(Problem::new(&case.plan, &case.stash, &scene, None), count);
    search.run(STEPS);
    search.outcome()
}

/// The suggestion as the model's choices; fails where it is none of them.
fn picks(proof: &Proof<'_>, suggestion: &Suggestion) -> Picks {
    let strip = |(line, strip): (&line::Line<'_>, &SuggestedStrip)| {
        let pick = |(choices, put): (&Vec<line::Choice>, &Put)| {
            let letter = match *put {
                Put::Letter(one) => Some((one.chip, one.stands_in)),
                Put::Kept | Put::Empty => None,
            };
            choices.iter().position(|choice| choice.letter == letter).unwrap()
        };
        line.slots.iter().zip(&strip.puts).map(pick).collect()
    };
    proof.lines.iter().zip(&suggestion.strips).map(strip).collect()
}

/// How many cases came to which end.
#[derive(Debug, Default)]
struct Tally {
    cases: u32,
    /// The search called its answer the best.
    searched: u32,
    /// The solver proved that nothing scores less.
    proved: u32,
    /// The solver found and proved the best knowing nothing of the search's answer.
    found: u32,
}

fn hold(seeds: impl Iterator<Item = u64>) -> Tally {
    let mut tally = Tally::default();
    for seed in seeds {
        let case = Likely::new(seed);
        let outcome = searched(&case, 1);
        let score = i64::from(outcome.suggestions[0].score.tenths());
        let proof = Proof::of(&case);
        let picks = picks(&proof, &outcome.suggestions[0]);
        assert_eq!(proof.score(&picks), score, "seed {seed}: the second opinion, then the search");
        let in_model = proof.score_in_model(&picks).unwrap();
        assert!((in_model - tenths(score)).abs() < 1e-3, "seed {seed}: {in_model} in the model, {score}");
        let floor = proof.floor(&picks).unwrap();
        assert!(floor <= tenths(score) + 1e-3, "seed {seed}: at least {floor}, yet {score}");
        let is_best = outcome.standing == Standing::Best;
        let choices: usize = proof.lines.iter().flat_map(|line| &line.slots).map(Vec::len).sum();
        let blind = choices < 60 + 60 * proof.lines.len();
        let mut least = proof.least((!blind).then_some(score));
        tally.found += u32::from(is_best && blind && least.is_proved);
        if blind && !least.is_proved {
            least = proof.least(Some(score));
        }
        let found = least.score.unwrap_or(score);
        assert!(!is_best || found >= score, "seed {seed}: {found} is found, {score} was called the best");
        if least.is_proved {
            assert!(i64::from(outcome.bound.tenths()) <= found, "seed {seed}: the bound is above {found}");
            assert!(!is_best || found == score, "seed {seed}: {found} is the best, not {score}");
        }
        tally.cases += 1;
        tally.searched += u32::from(is_best);
        tally.proved += u32::from(is_best && least.is_proved);
    }
    tally
}

#[expect(clippy::cast_precision_loss, reason = "scores are small")]
fn tenths(score: i64) -> f64 {
    score as f64
}

#[test]
fn a_title_alone_is_proved_the_best() {
    let tally = hold((0..320).step_by(2));
    assert_eq!(tally.cases, 160);
    assert!(tally.searched >= 156 && tally.proved >= 150 && tally.found >= 60, "{tally:?}");
}

#[test]
fn a_title_with_its_subtitle_is_proved_the_best() {
    let tally = hold((1..240).step_by(2));
    assert_eq!(tally.cases, 120);
    assert!(tally.searched >= 110 && tally.proved >= 108 && tally.found >= 30, "{tally:?}");
}

#[test]
fn the_solver_would_find_what_is_better() {
    let mut told = 0;
    for seed in 1_000..1_030 {
        let case = Likely::new(seed);
        let outcome = searched(&case, 2);
        let [best, next] = outcome.suggestions.as_slice() else { continue };
        let proof = Proof::of(&case);
        for one in [best, next] {
            assert_eq!(proof.score(&picks(&proof, one)), i64::from(one.score.tenths()), "seed {seed}");
        }
        if outcome.standing == Standing::Best && best.score < next.score {
            // Had the search called the second the best, it would not have stood.
            let least = proof.least(Some(i64::from(next.score.tenths())));
            assert!(least.score.is_some() || !least.is_proved, "seed {seed}");
            told += u32::from(least.score.is_some());
        }
    }
    assert!(told >= 15, "only {told} times");
}
