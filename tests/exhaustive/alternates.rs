//! Every alternate's score is the one that the checks give once it stands, and none is used up.
//!
//! Must not know how alternates are ranked.

use oddment::checks::{Scene, Taste, alternates, judge};
use oddment::plan::{Plan, PlanEdit, Spoken};
use oddment::stash::Stash;
use oddment::title::{Edit, Sticker, Stood};

use super::dice::Dice;
use super::made;

/// The plan with what lies under its strips named, so that it does not move with the letters.
fn frozen(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    let mut history = oddment::plan::History::default();
    for place in 0..plan.strips().len() {
        let at = oddment::title::Place { at: None, ..plan.strips()[place].place };
        history.make(&mut plan, PlanEdit::Strip(place, Edit::Place(at)));
    }
    plan
}

fn scene(plan: &Plan, stash: &Stash) -> Scene {
    Scene::new(stash, &plan.page, Taste::default(), Spoken::default())
}

#[test]
fn an_alternates_score_is_the_score_once_it_stands() {
    let mut tried = 0;
    for seed in 0..600 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let plan = frozen(&made::plan(&mut dice, &stash));
        let scene = scene(&plan, &stash);
        for place in 0..plan.strips().len() {
            if plan.strips()[place].is_empty() {
                continue;
            }
            let slot = dice.below(plan.strips()[place].len());
            let ranked = alternates(&plan, place, slot, &stash, &scene);
            assert!(ranked.is_sorted_by_key(|one| one.score), "seed {seed}");
            for one in &ranked {
                let mut with = plan.clone();
                let id = stash.chip(one.candidate.chip).id();
                let sticker = Sticker::Chip { id, stands_in: one.candidate.stands_in };
                let edit = Edit::Letter { slot, stood: Some(Stood::straight(sticker)) };
                oddment::plan::History::default().make(&mut with, PlanEdit::Strip(place, edit));
                let verdict = judge(&with, &stash, &scene);
                assert_eq!(verdict.strips[place].score, one.score, "seed {seed} strip {place} slot {slot}");
                let (left, used) = (
                    stash.chip(one.candidate.chip).letter.left,
                    Spoken::by(&with, &stash).times(one.candidate.chip),
                );
                assert_eq!(left.checked_sub(used), Some(one.leaves), "seed {seed}");
                tried += 1;
            }
        }
    }
    assert!(tried > 1_000, "{tried}");
}
