//! What every suggestion must keep to, whatever case it is for: trusts nothing that the search says.
//!
//! Must not know how a search goes.

use std::collections::HashMap;

use oddment::checks::{Scene, judge};
use oddment::plan::Plan;
use oddment::stash::ChipIx;
use oddment::suggest::{Put, Suggestion};
use oddment::title::{Stood, Strip};

use super::tiny::Tiny;
use crate::opinion::may_stand;

/// Fails unless `suggestion` keeps what is to stay, stands in each slot what may stand there, uses no letter twice, and
/// scores what the checks say of it.
pub(super) fn check(case: &Tiny, scene: &Scene, suggestion: &Suggestion, line: &str) {
    let after = suggestion.applied(&case.plan, &case.stash);
    assert_eq!(after.page, case.plan.page, "{line}");
    assert_eq!(after.strips().len(), case.plan.strips().len(), "{line}");
    for place in 0..after.strips().len() {
        keeps_to_the_strip(case, &after, place, suggestion, line);
    }
    keeps_to_the_counts(case, &after, line);
    let verdict = judge(&after, &case.stash, scene);
    assert_eq!(verdict.score, suggestion.score, "{line}: judged, then said");
    for (judged, said) in verdict.strips.iter().zip(&suggestion.strips) {
        assert_eq!((judged.score, judged.height), (said.score, said.height), "{line}: judged, then said");
    }
}

fn keeps_to_the_strip(case: &Tiny, after: &Plan, place: usize, suggestion: &Suggestion, line: &str) {
    let (was, is) = (&case.plan.strips()[place], &after.strips()[place]);
    let rest = |strip: &Strip| {
        (strip.role().clone(), strip.wording().clone(), strip.rules.clone(), strip.stuck, strip.place)
    };
    assert_eq!(rest(was), rest(is), "{line}");
    assert_eq!(suggestion.strips[place].puts.len(), was.len(), "{line}");
    for slot in 0..was.len() {
        let put = suggestion.strips[place].puts[slot];
        if !case.is_free(place, slot) {
            assert_eq!(put, Put::Kept, "{line}, slot {slot}");
            assert_eq!(was.letter(slot), is.letter(slot), "{line}, slot {slot}: was to stay");
            continue;
        }
        match put {
            Put::Kept => assert!(case.only.is_some(), "{line}, slot {slot} is free"),
            Put::Empty => assert_eq!(is.letter(slot), None, "{line}, slot {slot}"),
            Put::Letter(one) => {
                let stood = is.letter(slot).unwrap();
                assert_eq!(stood.chip(), Some(&case.stash.chip(one.chip).id()), "{line}, slot {slot}");
                assert!(!stood.pinned, "{line}, slot {slot}");
                let serves = may_stand(is, slot, one.chip, one.stands_in, &case.stash);
                assert!(serves, "{line}, slot {slot}: {one:?} does not serve");
            }
        }
    }
}

/// A letter that stays may stand more often than there are any; one that is suggested may not.
fn keeps_to_the_counts(case: &Tiny, after: &Plan, line: &str) {
    let mut used: HashMap<ChipIx, (u16, bool)> = HashMap::new();
    for (place, strip) in after.strips().iter().enumerate().filter(|(_, strip)| strip.stuck.is_none()) {
        for slot in 0..strip.len() {
            let chip = strip.letter(slot).and_then(Stood::chip).and_then(|id| case.stash.find(id));
            if let Some(chip) = chip {
                let (times, suggested) = used.entry(chip).or_default();
                *times += 1;
                *suggested |= case.is_free(place, slot);
            }
        }
    }
    for (chip, (times, suggested)) in used {
        let seen = case.stash.chip(chip);
        let left = seen.letter.left;
        assert!(!suggested || times <= left, "{line}: {} {times} times, {left} left", seen.id());
    }
}
