//! The score against a second opinion, on thousands of small cases: equal to the tenth, term by term.
//!
//! Must not know how either comes by its answer.

use std::collections::BTreeMap;

use oddment::checks::{Level, PLACE_CHECKS, Scene, Taste, judge};
use oddment::plan::Spoken;

use super::drawn::Case;
use crate::opinion::{Terms, terms};

const CASES: u64 = 4_000;

fn summed(terms: &Terms) -> BTreeMap<&'static str, i64> {
    let mut sums = BTreeMap::new();
    for &(id, tenths) in terms.iter().filter(|(_, tenths)| *tenths != 0) {
        *sums.entry(id).or_insert(0) += tenths;
    }
    sums
}

#[test]
fn the_score_is_what_a_second_opinion_says() {
    let (mut judged, mut met) = (0_u64, BTreeMap::<&str, u32>::new());
    for seed in 0..CASES {
        let Case { stash, plan, other } = Case::stuck_here_and_there(seed);
        let scene = Scene::new(&stash, &plan.page, Taste::default(), Spoken::by(&other, &stash));
        let verdict = judge(&plan, &stash, &scene);
        let mut whole = Some(0);
        for (place, strip) in plan.strips().iter().enumerate() {
            let Some(terms) = terms(&plan, place, &stash, &other) else {
                whole = None;
                continue;
            };
            let sums = summed(&terms);
            let said: i64 = sums.values().sum();
            let found = &verdict.strips[place];
            let mut findings: BTreeMap<&str, i64> = BTreeMap::new();
            // Checks of the place are no part of the score of letters.
            let of_place = |id: &str| PLACE_CHECKS.iter().any(|check| check.id == id);
            for finding in
                verdict.findings.iter().filter(|one| one.strip == place && one.level != Level::Stop)
            {
                if !of_place(finding.id) && !finding.accepted && finding.points.tenths() != 0 {
                    *findings.entry(finding.id).or_insert(0) += i64::from(finding.points.tenths());
                }
            }
            let line =
                format!("seed {seed}, strip {place}, {:?}, H {:?}", strip.wording().text(), found.height);
            // `near` is in the score and never told.
            let mut expected = sums.clone();
            expected.remove("near");
            assert_eq!(findings, expected, "{line}: findings, then the second opinion");
            assert_eq!(i64::from(found.score.tenths()), said, "{line}: score, then the second opinion");
            for id in sums.keys() {
                *met.entry(id).or_insert(0) += 1;
            }
            whole = whole.map(|sum| sum + said);
            judged += 1;
        }
        if let Some(whole) = whole {
            assert_eq!(i64::from(verdict.score.tenths()), whole, "seed {seed}: the plan's score");
        }
    }
    assert!(judged > CASES, "only {judged} strips were judged");
    assert_eq!(met.len(), 17, "a term was never met: {met:?}");
    assert!(met.values().all(|&times| times > 30), "a term was hardly met: {met:?}");
}
