//! Any edits undone give the start, and redone the end.
//!
//! Must not know how history is kept.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

use oddment::checks::{Scene, Taste, judge};
use oddment::measure::{Angle, Colour, Length, Tint};
use oddment::page::Page;
use oddment::plan::{History, Plan, PlanEdit, Spoken};
use oddment::stash::Stash;
use oddment::title::{Edit, Layout, Mix, Role, Rules, Setting, Spacing, Stood, Strip, Wording};

use super::dice::Dice;
use super::made;

fn strip_edit(dice: &mut Dice, strip: &Strip, stash: &Stash) -> Edit {
    let slot = dice.below(strip.len() + 1);
    let moved = |stood: &Stood| Stood { nudge: stood.nudge + Length::from_nm(500_000), ..stood.clone() };
    match dice.below(12) {
        0 => Edit::Exchange(slot, dice.below(strip.len() + 2)),
        1 => Edit::reword(strip, Wording::new(dice.one_of(&["LATER", "NEW LANE", "", "A\nB"])).unwrap()),
        2 => Edit::Rules(Rules { mix: dice.one_of(Mix::ALL), ..strip.rules.clone() }),
        3 => Edit::Setting(Setting { spacing: dice.one_of(Spacing::ALL), ..strip.setting }),
        4 => Edit::Place(oddment::title::Place { turn: Angle::from_thousandths(1000), ..strip.place }),
        5 => Edit::Accept((dice.one_of(&["lead", "height"])).to_owned(), dice.hit(2)),
        6 => Edit::Letter { slot, stood: None },
        7 if slot < strip.len() => Edit::Letter { slot, stood: made::stood(dice, strip, slot, stash) },
        8 => Edit::Several(vec![Edit::Exchange(0, 1), Edit::Letter { slot: 0, stood: None }]),
        _ => Edit::Letter { slot, stood: strip.letter(slot).map(moved) },
    }
}

fn plan_edit(dice: &mut Dice, plan: &Plan, stash: &Stash) -> PlanEdit {
    let place = dice.below(plan.strips().len() + 1);
    match dice.below(12) {
        0 => PlanEdit::Remove(place),
        1 if plan.strip_called("note").is_none() => {
            let strip = Strip::new(Role::new("note").unwrap(), Wording::new("NEAT").unwrap());
            PlanEdit::Insert(place, Box::new(strip))
        }
        2 => PlanEdit::Page(Box::new(Page { ground: Some(Tint::plain(Colour::BLACK)), ..plan.page.clone() })),
        3 => PlanEdit::Whole(Box::new(made::plan(dice, stash))),
        _ => match plan.strips().get(place) {
            Some(strip) => PlanEdit::Strip(place, strip_edit(dice, strip, stash)),
            None => PlanEdit::Strip(place, Edit::Exchange(0, 1)),
        },
    }
}

#[test]
fn any_edits_undone_give_the_start_and_redone_the_end() {
    for seed in 0..2_000 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let start = made::plan(&mut dice, &stash);
        let (mut plan, mut history) = (start.clone(), History::default());
        for _ in 0..dice.below(30) {
            let edit = plan_edit(&mut dice, &plan, &stash);
            history.make(&mut plan, edit);
            if dice.hit(8) {
                history.close_step();
            }
            if dice.hit(10) {
                history.undo(&mut plan);
            }
        }
        // What was undone last belongs to the end as well.
        while history.redo(&mut plan) {}
        let end = plan.clone();
        while history.undo(&mut plan) {}
        assert_eq!(plan, start, "seed {seed}");
        while history.redo(&mut plan) {}
        assert_eq!(plan, end, "seed {seed}");
    }
}

#[test]
fn a_run_of_nudges_is_one_step_and_standing_is_another() {
    for seed in 0..500 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let mut plan = made::plan(&mut dice, &stash);
        let Some(slot) = (0..plan.strips()[0].len()).find(|&slot| plan.strips()[0].letter(slot).is_some())
        else {
            continue;
        };
        let before = plan.clone();
        let mut history = History::default();
        for _ in 0..5 {
            let stood = plan.strips()[0].letter(slot).unwrap();
            let stood = Some(Stood { raise: stood.raise + Length::from_mm(1), ..stood.clone() });
            history.make(&mut plan, PlanEdit::Strip(0, Edit::Letter { slot, stood }));
        }
        assert_eq!(history.steps(), 1);
        history.make(&mut plan, PlanEdit::Strip(0, Edit::Letter { slot, stood: None }));
        assert_eq!(history.steps(), 2);
        history.undo(&mut plan);
        history.undo(&mut plan);
        assert_eq!(plan, before);
    }
}

#[test]
fn a_plan_whose_chips_are_gone_is_laid_out_and_judged() {
    for seed in 0..500 {
        let mut dice = Dice::new(seed);
        let plan = {
            let stash = made::stash(&mut dice);
            made::plan(&mut dice, &stash)
        };
        let other = made::stash(&mut dice);
        let scene = Scene::new(&other, &plan.page, Taste::default(), Spoken::default());
        let verdict = judge(&plan, &other, &scene);
        assert_eq!(verdict.strips.len(), plan.strips().len());
        for strip in plan.strips() {
            assert_eq!(Layout::of(strip, &other).letters.len(), strip.len());
        }
    }
}
