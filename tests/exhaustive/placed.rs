//! A strip's place on its page against a second opinion, on thousands of small pages: equal to the tenth and to the cell.
//!
//! Must not know how either comes by its answer.

use std::collections::BTreeMap;

use oddment::checks::{Level, PLACE_CHECKS, Scene, Taste, judge};
use oddment::plan::{Plan, Spoken};
use oddment::stash::Stash;
use oddment::title::Strip;

use crate::opinion::{Cell, Ground, NO_PAGE, Told, laid};
use crate::pages::{Drawn, Scale};

const CASES: u64 = 2_400;
const SMALL: Scale = Scale { page: (40, 90), tall: (4, 18), things: 5, letters: 6 };

/// What a second opinion says of a placed strip, and the cells that it holds for trapped.
fn told(plan: &Plan, place: usize, stash: &Stash) -> (Vec<Told>, Vec<Cell>) {
    let (strip, ground) = (&plan.strips()[place], Ground::new(plan, place, stash));
    let (at, turn) = (strip.place.at.unwrap(), strip.place.turn);
    let cut = laid(plan, place, stash, at, turn).cut(turn, at, &plan.page);
    let mut trapped = ground.closer(&cut, &plan.page).trapped(cut.whole());
    trapped.sort_unstable_by_key(|&(x, y)| (y, x));
    let mut told = ground.told(&cut, cut.whole(), trapped.len());
    told.sort();
    (told, trapped)
}

/// Judges every strip of a plan, holds it to the second opinion, and hands each finding on.
fn compare(seed: u64, plan: &Plan, stash: &Stash, mut met: impl FnMut(&Told)) {
    let scene = Scene::new(stash, &plan.page, Taste::default(), Spoken::default());
    let verdict = judge(plan, stash, &scene);
    let mut whole = None;
    for (place, strip) in plan.strips().iter().enumerate() {
        let (expected, trapped) = told(plan, place, stash);
        let line = format!("seed {seed}, strip {place}, {:?}, {:?}", strip.wording().text(), strip.place);
        let stands = |slot| {
            strip.letter(slot).is_some_and(|stood| stood.chip().is_none_or(|id| stash.find(id).is_some()))
        };
        let Some(lying) = verdict.strips[place].lying.as_ref() else {
            assert!(!(0..strip.len()).any(stands), "{line}: letters stand on it");
            continue;
        };
        let cells: Vec<Cell> = lying.meeting.trapped.0.iter().collect();
        assert_eq!(cells, trapped, "{line}: trapped cells, then the second opinion's");
        let of_place = |id: &str| PLACE_CHECKS.iter().any(|check| check.id == id);
        let found = verdict.findings.iter().filter(|one| one.strip == place && of_place(one.id));
        let mut findings: Vec<Told> = found
            .filter(|one| one.points.tenths() > 0)
            .map(|one| {
                let stop = one.level == Level::Stop;
                let warn = one.points.tenths() >= 60 || one.id == "overlap";
                assert!(stop || (one.level == Level::Warn) == warn, "{line}: {one:?}");
                let accepted = !stop && strip.accepted.contains(one.id);
                assert_eq!(one.accepted, accepted, "{line}: {one:?}");
                Told { id: one.id, tenths: one.points.tenths().into(), stop, slots: one.slots.clone() }
            })
            .collect();
        findings.sort();
        assert_eq!(findings, expected, "{line}: findings, then the second opinion's");
        let counts = |one: &&Told| one.stop || !strip.accepted.contains(one.id);
        let sum: i64 = expected.iter().filter(counts).map(|one| one.tenths).sum();
        assert_eq!(i64::from(lying.points.tenths()), sum, "{line}");
        whole = Some(whole.unwrap_or(0) + sum);
        expected.iter().for_each(&mut met);
    }
    assert_eq!(verdict.place.map(|points| i64::from(points.tenths())), whole, "seed {seed}");
}

#[test]
fn the_place_is_what_a_second_opinion_says() {
    let (mut met, mut stops) = (BTreeMap::<&str, u32>::new(), 0);
    for seed in 0..CASES {
        let Drawn { stash, plan } = Drawn::new(seed, SMALL);
        compare(seed, &plan, &stash, |told| {
            *met.entry(told.id).or_insert(0) += 1;
            stops += u32::from(told.id == "cover" && told.stop);
        });
    }
    assert_eq!(met.len(), 7, "a check was never met: {met:?}");
    assert!(met.values().all(|&times| times > 60) && stops > 60, "hardly met: {met:?}, {stops} stops");
}

#[test]
fn a_page_without_a_size_has_no_edge() {
    let mut met = BTreeMap::<&str, u32>::new();
    let few = Scale { page: (40, 60), tall: (4, 14), things: 4, letters: 4 };
    for seed in 10_000..10_500 {
        let Drawn { stash, mut plan } = Drawn::new(seed, few);
        plan.page.size = None;
        // A page with nothing on it is none, and what is told apart must lie within what is looked at.
        let ((left, top), (right, bottom)) = NO_PAGE;
        let within = |(x, y): Cell| (left..right).contains(&x) && (top..bottom).contains(&y);
        let reaches = |(place, strip): (usize, &Strip)| {
            let laid = laid(&plan, place, &stash, strip.place.at.unwrap(), strip.place.turn);
            laid.ink.iter().all(|&(x, y)| within((x + laid.whole().0, y + laid.whole().1)))
        };
        if plan.page.elements.is_empty() || !plan.strips().iter().enumerate().all(reaches) {
            continue;
        }
        compare(seed, &plan, &stash, |told| *met.entry(told.id).or_insert(0) += 1);
    }
    assert!(!met.contains_key("off") && !met.contains_key("margin"), "{met:?}");
    assert!(met.len() == 5 && met.values().all(|&times| times > 10), "hardly met: {met:?}");
}
