//! Spelling on tiny stashes: verdicts, costs, bands and shortages, equal to what trying everything finds.
//!
//! Must not know how the program comes by its answers.

mod drawn;
mod tried;

use std::collections::BTreeMap;

use oddment::letter::{Character, StandInKind, stand_ins};
use oddment::measure::Length;
use oddment::stash::ChipIx;
use oddment::supply::{Answer, Band, Demand, Speller, Supply, Verdict};
use oddment::title::{CaseRule, FormRule, Wording};

use drawn::Case;
use tried::{Least, Tried, Window, is_band};

const CASES: u64 = 6_000;
/// The most assignments of a case.
const MOST: usize = 3_000;

/// What the cases turned out to be.
#[derive(Default)]
struct Seen {
    verdicts: BTreeMap<&'static str, u32>,
    kinds: BTreeMap<&'static str, u32>,
    rules: BTreeMap<(&'static str, &'static str, bool), u32>,
}

impl Seen {
    fn take_in(&mut self, case: &Case, answer: &Answer) {
        *self.verdicts.entry(answer.verdict.as_str()).or_default() += 1;
        for one in &answer.stand_ins {
            *self.kinds.entry(one.kind.as_str()).or_default() += 1;
        }
        let asking = &case.asking;
        let rules = (asking.case.as_str(), asking.forms.as_str(), asking.tall.is_some());
        *self.rules.entry(rules).or_default() += 1;
    }
}

/// The case of a seed, its wording so short that everything can be tried.
fn case(seed: u64) -> (Case, Tried) {
    let mut case = Case::new(seed);
    let mut tried = Tried::new(&case);
    while tried.assignments() > MOST && case.text.chars().count() > 1 {
        case.text.pop();
        case.text.truncate(case.text.trim_end().len());
        tried = Tried::new(&case);
    }
    (case, tried)
}

#[test]
fn answers_are_what_trying_everything_finds() {
    let mut seen = Seen::default();
    for seed in 0..CASES {
        let (case, tried) = case(seed);
        let supply = case.supply();
        let demand = supply.demand(&case.wording());
        let answer = supply.answer(&demand);
        let line = format!("seed {seed}: {case:?}\n{answer:?}");
        let (verdict, least) = tried.verdict();
        assert_eq!(answer.verdict, verdict, "{line}");
        assert_eq!(told(&answer), least, "{line}");
        check_band(&tried, &answer, least, &line);
        check_letters(&case, &tried, &answer, &line);
        seen.take_in(&case, &answer);
    }
    let often = |count: &u32| *count > 80;
    assert!(
        seen.verdicts.len() == Verdict::ALL.len() && seen.verdicts.values().all(often),
        "{:?}",
        seen.verdicts
    );
    assert!(seen.kinds.len() == StandInKind::ALL.len() && seen.kinds.values().all(often), "{:?}", seen.kinds);
    let all = CaseRule::ALL.len() * FormRule::ALL.len() * 2;
    assert!(seen.rules.len() == all && seen.rules.values().all(|&count| count > 40), "{:?}", seen.rules);
}

/// What an answer comes to: letters lacking, cost, and letters that stand in.
fn told(answer: &Answer) -> Least {
    Least {
        lacking: answer.short.iter().map(|short| short.letters).sum(),
        cost: answer.cost.tenths(),
        stand_ins: answer.stand_ins.iter().map(|one| one.letters).sum(),
    }
}

/// The band told is one, holds an answer as good, and no band of larger letters does.
fn check_band(tried: &Tried, answer: &Answer, least: Least, line: &str) {
    let own = answer.verdict == Verdict::Now;
    let within = matches!(answer.verdict, Verdict::Now | Verdict::StandIns);
    let Some(Band { low, high }) = answer.band else {
        assert!(!within || tried.heights(own).is_empty(), "no band: {line}");
        return;
    };
    assert!(within && is_band(low, high), "{line}");
    let heights = tried.heights(own);
    assert!(heights.contains(&low) && heights.contains(&high), "{line}");
    assert_eq!(tried.least(Window::Between(low, high), own), least, "{line}");
    let starts = heights.iter().filter(|&&start| tried.least(Window::From(start), own) == least);
    let largest = *starts.max().unwrap();
    let top = heights.iter().filter(|&&height| height >= largest && is_band(largest, height)).max();
    assert!(low <= largest && Some(&high) == top, "larger letters would do: {line}");
}

/// The letters that stand in are there, may stand in so, and leave the rest its own letters.
fn check_letters(case: &Case, tried: &Tried, answer: &Answer, line: &str) {
    let mut open = tried.slots();
    let mut taken: BTreeMap<ChipIx, u32> = BTreeMap::new();
    for one in &answer.stand_ins {
        let fits = |height: Option<Length>| match (height, answer.band) {
            (Some(height), Some(band)) => band.low <= height && height <= band.high,
            _ => true,
        };
        let ways = tried.ways(&one.wanted);
        let is_it =
            |way: &&tried::Way| way.chip == one.chip && way.kind == Some(one.kind) && fits(way.height);
        let way = ways.iter().find(is_it);
        assert!(way.is_some_and(|way| !way.is_own) && one.letters > 0, "{one:?} cannot: {line}");
        *taken.entry(one.chip).or_default() += one.letters;
        *open.get_mut(&one.wanted).unwrap() -= one.letters;
    }
    for (&chip, &letters) in &taken {
        assert!(letters <= u32::from(case.left(chip)), "too many of {chip:?}: {line}");
    }
    for short in &answer.short {
        assert!(short.letters > 0, "{line}");
        *open.get_mut(&short.character).unwrap() -= short.letters;
    }
    let window = answer.band.map_or(Window::All, |band| Window::Between(band.low, band.high));
    assert!(tried.serves_as_themselves(&open, &taken, window), "the rest is not served: {line}");
}

#[test]
fn the_quick_verdict_is_the_same_with_the_largest_letters() {
    for seed in 0..CASES / 2 {
        let (case, tried) = case(seed);
        let supply = case.supply();
        let mut speller = Speller::new(&supply);
        let (verdict, band) = speller.judge(&case.text).unwrap();
        let line = format!("seed {seed}: {case:?}");
        let (expected, _) = tried.verdict();
        assert_eq!(verdict, expected, "{line}");
        let own = verdict == Verdict::Now;
        assert_eq!(band.is_some(), own || verdict == Verdict::StandIns, "{line}");
        if let Some(band) = band.map(|band| supply.bands()[band.get()]) {
            let is_met = |window| tried.least(window, own).lacking == 0;
            assert!(is_met(Window::Between(band.low, band.high)), "{line}");
            let heights = tried.heights(own);
            let largest = heights.iter().filter(|&&start| is_met(Window::From(start))).max();
            let reached = |largest: &Length| {
                let beside = |height: &&Length| *height >= largest && is_band(*largest, **height);
                band.low <= *largest && heights.iter().filter(beside).all(|height| *height <= band.high)
            };
            assert!(largest.is_none_or(reached), "{line}");
        }
    }
}

#[test]
fn a_wording_beside_another_is_judged_with_it() {
    for seed in 0..CASES / 2 {
        let case = Case::new(seed);
        let supply = case.supply();
        let middle = case.text.char_indices().nth(case.text.chars().count() / 2).unwrap().0;
        let (one, other) = case.text.split_at(middle);
        let beside = supply.demand(&Wording::new(one).unwrap());
        let together = Speller::new(&supply).judge(&case.text).unwrap();
        assert_eq!(Speller::beside(&supply, beside).judge(other).unwrap(), together, "seed {seed}: {case:?}");
    }
}

#[test]
fn the_nearest_band_lacks_as_little_as_any() {
    for seed in 0..CASES / 2 {
        let (case, tried) = case(seed);
        let supply = case.supply();
        let answer = supply.nearest(&supply.demand(&case.wording()));
        let line = format!("seed {seed}: {case:?}\n{answer:?}");
        let least = tried.least_of_all_bands();
        assert_eq!(told(&answer), least, "{line}");
        let verdict = match least {
            Least { lacking: 1.., .. } => Verdict::Short,
            Least { stand_ins: 1.., .. } => Verdict::StandIns,
            _ => Verdict::Now,
        };
        assert_eq!(answer.verdict, verdict, "{line}");
        check_letters(&case, &tried, &answer, &line);
    }
}

/// Size by size: each told band serves at the least cost there, no two share a height, and every other band that would do shares
/// one with a band that costs no more.
#[test]
fn each_size_is_told_unless_a_better_one_shares_a_height_with_it() {
    let (mut told_two, mut hidden) = (0, 0);
    for seed in 0..CASES / 2 {
        let (case, tried) = case(seed);
        let supply = case.supply();
        let answers = supply.by_band(&supply.demand(&case.wording()));
        let line = format!("seed {seed}: {case:?}\n{answers:?}");
        let best = answers.iter().map(told).min();
        let (verdict, least) = tried.verdict();
        let is_one_band = verdict <= Verdict::StandIns;
        assert_eq!(best, is_one_band.then_some(least), "{line}");
        assert!(answers.is_sorted_by_key(|one| std::cmp::Reverse(one.band.map(|band| band.high))), "{line}");
        for (place, answer) in answers.iter().enumerate() {
            let own = answer.verdict == Verdict::Now;
            let window = answer.band.map_or(Window::All, |band| Window::Between(band.low, band.high));
            assert_eq!(told(answer), tried.least(window, own), "{line}");
            check_letters(&case, &tried, answer, &line);
            let is_apart = |other: &Answer| answer.band.unwrap().is_apart(other.band.unwrap());
            assert!(answers[..place].iter().all(is_apart), "{line}");
        }
        let heights = tried.heights(false);
        let reach = |start: Length| heights.iter().filter(move |&&height| is_band(start, height)).max();
        // A band within another is not looked at.
        let widest = heights
            .iter()
            .enumerate()
            .filter(|&(place, &start)| heights[..place].iter().all(|&before| reach(before) < reach(start)));
        for (_, &start) in widest.filter(|_| is_one_band && answers[0].band.is_some()) {
            let least = tried.least(Window::From(start), false);
            let reached = reach(start);
            let is_told = |one: &Answer| {
                let Band { low, high } = one.band.unwrap();
                told(one) <= least && low <= *reached.unwrap() && start <= high
            };
            assert!(least.lacking > 0 || answers.iter().any(is_told), "{start:?}: {line}");
            hidden += u32::from(least.lacking == 0 && answers.iter().all(|one| told(one) != least));
        }
        told_two += u32::from(answers.len() > 1);
    }
    assert!(told_two > 60 && hidden > 10, "{told_two} with two sizes or more, {hidden} times one was hidden");
}

#[test]
fn a_text_is_read_as_its_wording_is() {
    for seed in 0..CASES / 2 {
        let case = Case::new(seed);
        let supply = case.supply();
        let mut read = Demand::default();
        supply.read(&case.text, &mut read).unwrap();
        assert_eq!(read, supply.demand(&case.wording()), "seed {seed}: {case:?}");
        assert_eq!(usize::try_from(read.letters()).unwrap(), case.wording().len());
    }
}

#[test]
fn more_letters_than_a_byte_tells_are_counted() {
    for (left, verdict) in [(299, Verdict::Short), (300, Verdict::Now)] {
        let case = Case::of_one_letter("E", left);
        let supply: Supply = case.supply();
        let beside = supply.demand(&Wording::new(&"E".repeat(200)).unwrap());
        let (judged, _) = Speller::beside(&supply, beside.clone()).judge(&"E".repeat(100)).unwrap();
        assert_eq!(judged, verdict);
        let mut all = beside.clone();
        all.add(&supply.demand(&Wording::new(&"E".repeat(100)).unwrap()));
        assert_eq!(supply.answer(&all).verdict, verdict);
    }
}

/// The long s is a small letter of S, as s is; the three share one sticker only once.
#[test]
fn three_spellings_of_one_shape_do_not_share_a_sticker() {
    for (left, verdict) in [(2, Verdict::Short), (3, Verdict::Now)] {
        let case = Case::of_one_letter("S", left);
        let supply = case.supply();
        assert_eq!(Speller::new(&supply).judge("SsS").unwrap().0, verdict);
        assert_eq!(Speller::new(&supply).judge("Ss\u{17f}").unwrap().0, verdict);
        let demand = supply.demand(&Wording::new("Ss\u{17f}").unwrap());
        assert_eq!(supply.answer(&demand).verdict, verdict);
    }
}

/// Every letter for which the table has the other case, whatever becomes of it in the case of that one: the capital of ß, the
/// long s, the sign for a capital theta, the two letters in one whose second is small.
#[test]
fn each_other_case_serves_for_its_letter() {
    let every = ('\u{80}'..'\u{3000}').filter_map(|one| Character::new(&one.to_string()).ok());
    let mut served = 0;
    for wanted in every {
        for row in stand_ins(&wanted).iter().filter(|row| row.kind == StandInKind::OtherCase) {
            let supply = Case::of_one_letter(row.used.as_str(), 1).supply();
            let answer = supply.answer(&supply.demand(&Wording::new(wanted.as_str()).unwrap()));
            let verdict = if row.same_shape { Verdict::Now } else { Verdict::StandIns };
            assert_eq!(answer.verdict, verdict, "{} for {wanted}", row.used);
            served += 1;
        }
    }
    assert!(served > 1_000, "{served}");
}
