//! Alternates: scored as if stood, best first, and never a sticker that is used up.
//!
//! Must not know how the scores are made.

use std::collections::HashMap;

use oddment::checks::{Alternate, Scene, Taste, alternates, judge};
use oddment::letter::StandInKind;
use oddment::plan::{History, Plan, PlanEdit, Spoken};
use oddment::stash::{ChipIx, Stash};
use oddment::title::{Edit, Sticker, Stood, Strip};

use super::drawn::Case;
use crate::draw::Draw;
use crate::opinion::{may_stand, options};

/// Plans whose strips lie on the ground or on a colour of their own: what lies under them does not change with a letter.
fn case(seed: u64) -> (Stash, Plan, Scene) {
    let Case { stash, plan, other } = Case::new(seed);
    let mut strips = plan.strips().to_vec();
    for strip in &mut strips {
        strip.place.at = None;
    }
    let plan = Plan::new(None, plan.page, strips).unwrap();
    let scene = Scene::new(&stash, &plan.page, Taste::default(), Spoken::by(&other, &stash));
    (stash, plan, scene)
}

fn stand(plan: &Plan, place: usize, slot: usize, one: &Alternate, stash: &Stash) -> Plan {
    let sticker =
        Sticker::Chip { id: stash.chip(one.candidate.chip).id(), stands_in: one.candidate.stands_in };
    let mut after = plan.clone();
    let edit = Edit::Letter { slot, stood: Some(Stood::straight(sticker)) };
    History::default().make(&mut after, PlanEdit::Strip(place, edit));
    after
}

fn used(plan: &Plan, stash: &Stash) -> HashMap<ChipIx, u16> {
    let mut used = HashMap::new();
    for chip in plan.strips().iter().flat_map(Strip::chips).filter_map(|id| stash.find(id)) {
        *used.entry(chip).or_insert(0) += 1;
    }
    used
}

/// The chips that can stand there and are to be had, by the rules alone.
fn to_be_had(plan: &Plan, place: usize, slot: usize, stash: &Stash) -> Vec<(ChipIx, Option<StandInKind>)> {
    let strip = &plan.strips()[place];
    let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
    let used = used(plan, stash);
    let own = strip.letter(slot).and_then(|stood| stood.chip()).and_then(|id| stash.find(id));
    let mut found = options(stash, &wanted);
    found.retain(|&(chip, kind)| {
        let elsewhere = used.get(&chip).copied().unwrap_or(0) - u16::from(own == Some(chip));
        let left = stash.chip(chip).letter.left;
        may_stand(strip, slot, chip, kind, stash) && left > elsewhere
    });
    found
}

#[test]
fn every_alternate_is_scored_as_if_it_stood_there() {
    let mut tried = 0;
    for seed in 0..250 {
        let (stash, plan, scene) = case(seed);
        for place in 0..plan.strips().len() {
            for slot in 0..plan.strips()[place].len() {
                let found = alternates(&plan, place, slot, &stash, &scene);
                assert!(found.is_sorted_by_key(|one| one.score), "seed {seed}, slot {slot}");
                for one in &found {
                    let after = stand(&plan, place, slot, one, &stash);
                    let verdict = judge(&after, &stash, &scene);
                    assert_eq!(one.score, verdict.strips[place].score, "seed {seed}, slot {slot}, {one:?}");
                    let times = used(&after, &stash)[&one.candidate.chip];
                    let left = stash.chip(one.candidate.chip).letter.left;
                    assert_eq!(
                        left.checked_sub(times),
                        Some(one.leaves),
                        "seed {seed}, slot {slot}, {one:?}"
                    );
                    tried += 1;
                }
                let mut told: Vec<_> =
                    found.iter().map(|one| (one.candidate.chip, one.candidate.stands_in)).collect();
                let mut had = to_be_had(&plan, place, slot, &stash);
                told.sort_unstable();
                had.sort_unstable();
                assert_eq!(told, had, "seed {seed}, strip {place}, slot {slot}");
            }
        }
    }
    assert!(tried > 2_000, "only {tried} were tried");
}

#[test]
fn standing_alternates_over_and_over_never_stands_a_letter_twice() {
    for seed in 0..200 {
        let (stash, plan, scene) = case(seed);
        let mut draw = Draw::new(seed + 1_000_000);
        let bare = plan.strips().iter().map(|strip| {
            let mut bare = Strip::new(strip.role().clone(), strip.wording().clone());
            bare.rules = strip.rules.clone();
            bare
        });
        let mut now = Plan::new(None, plan.page.clone(), bare.collect()).unwrap();
        for _ in 0..30 {
            let place = draw.below(now.strips().len());
            if now.strips()[place].is_empty() {
                continue;
            }
            let slot = draw.below(now.strips()[place].len());
            let found = alternates(&now, place, slot, &stash, &scene);
            if found.is_empty() {
                continue;
            }
            let one = if draw.chance(50) { &found[0] } else { draw.pick(&found) };
            now = stand(&now, place, slot, one, &stash);
            let over =
                used(&now, &stash).into_iter().find(|(chip, times)| *times > stash.chip(*chip).letter.left);
            assert_eq!(over, None, "seed {seed}");
            assert!(judge(&now, &stash, &scene).findings.iter().all(|finding| finding.id != "twice"));
        }
    }
}

#[test]
fn a_strip_that_is_stuck_down_still_lists_its_alternates() {
    for seed in 0..40 {
        let (stash, plan, scene) = case(seed);
        let mut strips = plan.strips().to_vec();
        for strip in &mut strips {
            strip.stuck = Some(1);
        }
        let stuck = Plan::new(None, plan.page, strips).unwrap();
        for slot in 0..stuck.strips()[0].len() {
            // Its letters are off the stash already: all that is left is to be had.
            for one in alternates(&stuck, 0, slot, &stash, &scene) {
                assert_eq!(one.leaves + 1, stash.chip(one.candidate.chip).letter.left, "seed {seed}");
            }
        }
    }
}
