//! Suggestions on small cases: the very arrangements that brute force finds, and never a wrong claim on the way.
//!
//! Must not know how the search goes.

use oddment::checks::{Scene, room_of};
use oddment::measure::Points;
use oddment::stash::Stash;
use oddment::suggest::{Hindrance, Outcome, Problem, Put, Search, Standing, Suggestion};

use super::brute::{Arrangement, best};
use super::kept;
use super::tiny::{Tiny, Twist};
use crate::draw::Draw;

/// How many suggestions are asked for.
const COUNT: usize = 5;
/// More steps than any of these cases takes one by one.
const FAR: u64 = 1_000_000;

fn search(case: &Tiny, scene: &Scene, count: usize) -> Search {
    Search::new(Problem::new(&case.plan, &case.stash, scene, case.only), count)
}

fn whole(case: &Tiny, scene: &Scene, count: usize) -> Outcome {
    let mut search = search(case, scene, count);
    assert!(search.run(u64::MAX));
    search.outcome()
}

/// What is suggested for the free slots.
fn arrangement(case: &Tiny, suggestion: &Suggestion) -> Arrangement {
    let strip = |(place, strip): (usize, &oddment::suggest::SuggestedStrip)| {
        let free = (0..strip.puts.len()).filter(|&slot| case.is_free(place, slot));
        free.map(|slot| match strip.puts[slot] {
            Put::Letter(one) => Some(one),
            Put::Empty | Put::Kept => None,
        })
        .collect()
    };
    suggestion.strips.iter().enumerate().map(strip).collect()
}

/// As a person would read it.
fn told(found: &[(Points, Arrangement)], stash: &Stash) -> Vec<String> {
    let slot = |one: &Option<oddment::checks::Candidate>| {
        one.map_or("-".to_owned(), |one| {
            let kind = one.stands_in.map(|kind| format!(" ({kind})")).unwrap_or_default();
            format!("{}{kind}", stash.chip(one.chip).id())
        })
    };
    let strip = |strip: &Vec<_>| strip.iter().map(slot).collect::<Vec<_>>().join(", ");
    found
        .iter()
        .map(|(score, strips)| {
            format!("{score}: {}", strips.iter().map(strip).collect::<Vec<_>>().join(" | "))
        })
        .collect()
}

fn line(seed: u64, case: &Tiny) -> String {
    let wordings: Vec<&str> = case.plan.strips().iter().map(|strip| strip.wording().text()).collect();
    format!("seed {seed}, {wordings:?}, only {:?}", case.only)
}

fn equals_brute_force(seeds: std::ops::Range<u64>, twist: Twist) {
    let (mut long, mut several) = (0, 0);
    for seed in seeds {
        let case = Tiny::new(seed, twist);
        let scene = case.scene(&case.stash);
        let line = line(seed, &case);
        // The best alone, or the best five.
        let count = if seed.is_multiple_of(4) { COUNT } else { 1 };
        let expected = best(&case, &scene, count);
        let outcome = whole(&case, &scene, count);
        outcome.suggestions.iter().for_each(|one| kept::check(&case, &scene, one, &line));
        if expected.is_empty() {
            assert!(is_told_too_long(&case, outcome.standing), "{line}: {:?}", outcome.standing);
            assert_eq!(outcome.suggestions, [], "{line}");
            continue;
        }
        let found: Vec<_> =
            outcome.suggestions.iter().map(|one| (one.score, arrangement(&case, one))).collect();
        assert_eq!(
            told(&found, &case.stash),
            told(&expected, &case.stash),
            "{line}: suggested, then brute force"
        );
        assert_eq!(outcome.standing, standing(&case), "{line}");
        assert_eq!(outcome.bound, expected[0].0, "{line}");
        long += u32::from(case.plan.strips().iter().any(|strip| strip.len() >= 5));
        several += u32::from(found.len() == COUNT);
    }
    assert!(long > 50 && several > 20, "{long} long ones, {several} with {COUNT} suggestions");
}

/// What a search that is done says of a case that has room enough.
fn standing(case: &Tiny) -> Standing {
    let slots = || {
        (0..case.plan.strips().len())
            .flat_map(|place| (0..case.plan.strips()[place].len()).map(move |slot| (place, slot)))
    };
    if !slots().any(|(place, slot)| case.is_free(place, slot)) {
        Standing::Impossible(Hindrance::NothingAsked)
    } else if slots().all(|(place, slot)| case.is_free(place, slot) && case.choices(place, slot).is_empty()) {
        Standing::Impossible(Hindrance::NothingServes)
    } else {
        Standing::Best
    }
}

/// Whether the search says that a strip is too long for its room, and says so truly as far as its figures go.
fn is_told_too_long(case: &Tiny, standing: Standing) -> bool {
    let lines: usize = case.plan.strips().iter().map(|strip| strip.wording().lines().count()).sum();
    let Standing::Impossible(Hindrance::TooLong { strip, shortest, room }) = standing else {
        return standing == Standing::Impossible(Hindrance::TooLongTogether) && lines > 1;
    };
    room_of(&case.plan.strips()[strip], &case.plan.page) == Some(room) && shortest > room
}

#[test]
fn one_strip_gets_what_brute_force_finds() {
    equals_brute_force(0..1_800, Twist::OneStrip);
}

#[test]
fn two_strips_get_what_brute_force_finds() {
    equals_brute_force(0..900, Twist::TwoStrips);
}

#[test]
fn a_strip_with_little_room_gets_what_brute_force_finds() {
    equals_brute_force(0..300, Twist::Tight);
}

#[test]
fn a_search_that_is_cut_short_never_claims_too_much() {
    let mut unfinished = 0;
    for seed in 0..100 {
        let case = Tiny::new(seed, twist_of(seed));
        let (scene, line) = (case.scene(&case.stash), line(seed, &case));
        let least = best(&case, &scene, 1)[0].0;
        for steps in [0, 1, 10, 100, 1_000] {
            let mut search = search(&case, &scene, COUNT);
            let done = search.run(steps);
            let outcome = search.outcome();
            let line = format!("{line}, {steps} steps");
            assert!(outcome.bound <= least, "{line}: bound {}, best {least}", outcome.bound);
            let standing = if done { standing(&case) } else { Standing::BestSoFar };
            assert!(outcome.standing == standing || standing != Standing::Best, "{line}");
            assert!(done || outcome.standing != Standing::Best, "{line}");
            outcome.suggestions.iter().for_each(|one| kept::check(&case, &scene, one, &line));
            let first = outcome.suggestions.first().map(|one| one.score);
            assert!(first.is_none_or(|first| first >= least), "{line}");
            assert!(!done || first == Some(least), "{line}");
            unfinished += u32::from(!done);
        }
    }
    assert!(unfinished > 50, "only {unfinished} were cut short");
}

#[test]
fn a_search_in_small_slices_ends_as_one_in_one_go_does() {
    for seed in 0..100 {
        let case = Tiny::new(seed, twist_of(seed));
        let (scene, line) = (case.scene(&case.stash), line(seed, &case));
        let mut search = search(&case, &scene, 2);
        let (mut bound, mut slices) = (Points::ZERO, 0);
        while !search.run(1) {
            slices += 1;
            assert!(slices < FAR, "{line}: no end");
            if slices % 64 == 0 {
                let now = search.outcome().bound;
                assert!(now >= bound, "{line}: the bound fell from {bound} to {now}");
                bound = now;
            }
        }
        let (sliced, whole) = (search.outcome(), whole(&case, &scene, 2));
        assert!(bound <= whole.bound, "{line}");
        assert_eq!(
            (sliced.standing, sliced.bound, sliced.suggestions),
            (whole.standing, whole.bound, whole.suggestions),
            "{line}"
        );
    }
}

#[test]
fn the_order_in_which_sheets_come_changes_nothing() {
    for seed in 0..100 {
        let case = Tiny::new(seed, twist_of(seed));
        let mut draw = Draw::new(seed);
        let mut sheets = case.sheets.clone();
        for last in (1..sheets.len()).rev() {
            sheets.swap(last, draw.below(last + 1));
        }
        sheets.iter_mut().filter(|_| draw.chance(50)).for_each(|sheet| sheet.letters.reverse());
        let again = Tiny { stash: Stash::new(sheets.clone()), sheets, ..Tiny::new(seed, twist_of(seed)) };
        let tell = |case: &Tiny| {
            let outcome = whole(case, &case.scene(&case.stash), COUNT);
            let found = outcome.suggestions.iter().map(|one| (one.score, arrangement(case, one)));
            told(&found.collect::<Vec<_>>(), &case.stash)
        };
        assert_eq!(tell(&case), tell(&again), "{}", line(seed, &case));
    }
}

fn twist_of(seed: u64) -> Twist {
    if seed.is_multiple_of(2) { Twist::TwoStrips } else { Twist::OneStrip }
}
