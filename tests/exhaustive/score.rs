//! The score of thousands of seeded strips against a slow and plain one, written from the rules alone.
//!
//! Must not know how the checks are written.

use oddment::checks::{Scene, Taste, judge};
use oddment::plan::Spoken;

use super::dice::Dice;
use super::{made, oracle};

#[test]
fn scores_are_those_of_the_rules() {
    for seed in 0..3_000 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let plan = made::plan(&mut dice, &stash);
        let scene = Scene::new(&stash, &plan.page, Taste::default(), Spoken::default());
        let verdict = judge(&plan, &stash, &scene);
        for (place, strip) in plan.strips().iter().enumerate() {
            let (score, height, terms) = oracle::score(&plan, strip, &stash);
            let found = &verdict.strips[place];
            assert_eq!(found.height, height, "seed {seed} strip {place}");
            assert_eq!(
                found.score.tenths(),
                score,
                "seed {seed} strip {place} {:?}\nby the rules: {terms:?}\nfound: {:#?}",
                strip.wording().text(),
                verdict.findings
            );
        }
    }
}
