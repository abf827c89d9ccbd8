//! Words looked for in a list, against every word of it judged in every way, one after the other.
//!
//! Must not know how the list is gone through.

use oddment::letter::{Character, StandInKind, Turn, find_stand_in, weight};
use oddment::measure::Points;
use oddment::stash::{Chip, Stash};
use oddment::supply::{Asking, Band, Costs, Idea, IdeaRules, Ideas, Speller, Supply, Verdict, WordList};
use oddment::title::{CaseRule, Wording};

use super::drawn::Case;
use crate::draw::Draw;

/// What lists are made of: letters, a space, one letter of two bytes, one without a capital.
const LETTERS: [&str; 16] = ["a", "e", "s", "o", "n", "u", "w", "p", "m", "i", "E", "S", "O", "é", "ß", " "];

const COSTS: Costs = Costs {
    turned: Points::from_tenths(30),
    look_alike: Points::from_tenths(40),
    other_case: Points::from_tenths(20),
    trimmed: Points::from_tenths(80),
};

fn list(draw: &mut Draw) -> String {
    let word = |draw: &mut Draw| (0..=draw.below(5)).map(|_| *draw.pick(&LETTERS)).collect::<String>();
    (0..40).map(|_| word(draw) + "\n").collect()
}

fn rules(draw: &mut Draw) -> IdeaRules {
    let with = (0..draw.below(3)).map(|_| Character::new(LETTERS[draw.below(15)]).unwrap()).collect();
    let least = 1 + draw.below(3);
    IdeaRules {
        least,
        most: least + draw.below(4),
        with,
        scarce: draw.chance(40).then(|| u32::try_from(draw.below(3)).unwrap()),
        stand_ins: draw.chance(50),
    }
}

/// `word` in each of the ways in which it is to be tried.
fn tried(word: &str, case: CaseRule) -> Vec<String> {
    let turned = |upper: bool, c: char| {
        let text = if upper { c.to_uppercase().to_string() } else { c.to_lowercase().to_string() };
        if text.chars().count() == 1 { text } else { c.to_string() }
    };
    let capitals: String = word.chars().map(|c| turned(true, c)).collect();
    let small: String = word.chars().map(|c| turned(false, c)).collect();
    let first =
        |word: &str| word.chars().enumerate().map(|(place, c)| turned(place == 0, c)).collect::<String>();
    let firsts = word.split(' ').map(first).collect::<Vec<_>>().join(" ");
    match case {
        CaseRule::Upper => vec![capitals],
        CaseRule::Lower => vec![small],
        _ if word.chars().any(char::is_uppercase) => vec![word.to_owned(), capitals, firsts, small],
        _ => vec![capitals, firsts, small],
    }
}

fn is_fit(word: &str, rules: &IdeaRules) -> bool {
    let letters: Vec<String> = word.to_lowercase().chars().filter(|c| *c != ' ').map(String::from).collect();
    let count = |wanted: &str| letters.iter().filter(|one| *one == wanted).count();
    let with: Vec<String> = rules.with.iter().map(|one| one.as_str().to_lowercase()).collect();
    let is_in = |wanted: &String| count(wanted) >= with.iter().filter(|one| *one == wanted).count();
    (rules.least..=rules.most).contains(&letters.len()) && with.iter().all(is_in)
}

/// How many letters of `text` are few in `band`, counted on the stickers themselves.
fn few(stash: &Stash, asking: &Asking, (text, beside): (&str, &str), band: Band) -> u32 {
    let asked = |text: &str| -> Vec<Character> {
        let wording = Wording::new(text).unwrap();
        wording.slots().iter().map(|asked| asking.wanted(&asked.character)).collect()
    };
    let beside = asked(beside);
    let is_few = |character: &Character| {
        let other =
            [character.to_upper(), character.to_lower()].into_iter().flatten().find(|c| c != character);
        let one_shape = other.filter(|other| {
            let row = find_stand_in(character, other, StandInKind::OtherCase);
            asking.case == CaseRule::Any && row.is_some_and(|row| row.same_shape)
        });
        let chips = std::iter::once(character.clone()).chain(one_shape);
        let chips = chips.flat_map(|one| stash.carrying(&one).to_vec());
        let within = chips
            .map(|chip| stash.chip(chip))
            .filter(|chip| (band.low..=band.high).contains(&chip.effective_height(character, Turn::None)));
        let gone = beside.iter().filter(|one| *one == character).count();
        let left = usize::from(within.map(Chip::on_hand).sum::<u16>()).saturating_sub(gone);
        weight(character) > 0.0 && left <= usize::from(Ideas::SCARCE)
    };
    asked(text).iter().filter(|one| is_few(one)).map(|_| 1).sum()
}

#[test]
fn ideas_are_the_words_that_judging_each_would_find() {
    let (mut found, mut by_stand_ins) = (0, 0);
    for seed in 0..200 {
        let mut draw = Draw::new(seed + 41_000_000);
        let stash = Case::new(seed).stash;
        let asking = Asking { case: *draw.pick(CaseRule::ALL), ..Asking::any(COSTS) };
        let supply = Supply::new(&stash, asking.clone(), |_| 0);
        let other = if draw.chance(30) { "so" } else { "" };
        let beside = supply.demand(&Wording::new(other).unwrap());
        let (text, rules) = (list(&mut draw), rules(&mut draw));
        let list = WordList::from_text(text.as_str());
        let mut ideas = Ideas::new(rules.clone(), beside.clone());
        let mut steps = 0;
        while !ideas.run(&supply, &list, 1 + draw.below(9)) {
            steps += 1;
        }
        assert!(steps > 1 && ideas.looked_at() == list.len(), "{seed}");
        let mut speller = Speller::beside(&supply, beside.clone());
        let mut mine = ideas.found().iter();
        for word in list.words().filter(|word| is_fit(word, &rules)) {
            let ways = tried(word, asking.case);
            let judged: Vec<_> = ways.iter().map(|way| speller.judge(way).unwrap()).collect();
            let way = |verdict| judged.iter().position(|one| one.0 == verdict);
            let best = way(Verdict::Now).or_else(|| way(Verdict::StandIns).filter(|_| rules.stand_ins));
            let Some(best) = best else { continue };
            if rules.scarce.is_some() {
                // Another way may be taken for its letters that are not scarce.
                continue;
            }
            let idea = mine.next().unwrap();
            assert_eq!((&idea.text, idea.verdict), (&ways[best], judged[best].0), "{seed}");
            found += 1;
            by_stand_ins += usize::from(idea.verdict == Verdict::StandIns);
        }
        assert!(rules.scarce.is_some() || mine.next().is_none(), "{seed}");
        for idea in ideas.found() {
            assert_eq!(idea.scarce, few(&stash, &asking, (&idea.text, other), idea.band), "{seed} {idea:?}");
            assert!(rules.scarce.is_none_or(|most| idea.scarce <= most), "{seed}");
            let mut demand = supply.demand(&Wording::new(&idea.text).unwrap());
            demand.add(&beside);
            let within = supply.answer_within(&demand, idea.place);
            assert_eq!(
                (within.verdict, supply.bands()[idea.place.get()]),
                (idea.verdict, idea.band),
                "{seed}"
            );
            // No other band takes fewer scarce letters.
            let fewer = IdeaRules { scarce: idea.scarce.checked_sub(1), stand_ins: true, ..rules.clone() };
            if fewer.scarce.is_some() {
                let list = WordList::from_text(idea.text.as_str());
                let mut ideas = Ideas::new(fewer, beside.clone());
                assert!(ideas.run(&supply, &list, 1));
                let same = |one: &&Idea| one.text == idea.text && one.verdict == idea.verdict;
                assert_eq!(ideas.found().iter().find(same), None, "{seed}");
            }
        }
    }
    assert!(found > 400 && by_stand_ins > 60, "{found} {by_stand_ins}");
}
