//! Spelling against maximum flow by a general graph library, over an open list of English words.
//!
//! The library is the crate petgraph (`petgraph::algo::dinics`: Dinic's algorithm); the words are those of SCOWL that the
//! program carries. Which sticker serves for which letter is taken from the stash and the table of stand-ins; who serves whom in
//! a word is the library's affair. Stashes are made up. Must not know how the program comes by a verdict.
#![expect(clippy::unwrap_used, reason = "a word or a sheet that cannot be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};

use oddment::letter::{Character, Face, StandIn, Turn, stand_ins};
use oddment::measure::{Colour, Length, Points, Tint};
use oddment::stash::{
    ChipIx, Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::supply::{Asking, Costs, Demand, Speller, Supply, Verdict, WordList};
use petgraph::algo::dinics;
use petgraph::graph::{DiGraph, NodeIndex};

use crate::draw::Draw;

/// One word in so many is checked band by band, too.
const SAMPLED: usize = 40;

/// Every word of the list in capitals, and one in eight as written; against a stash of `sheets` sheets.
///
/// Of each word: whether it can be spelled with all heights side by side, and if not, how many letters are short. Of one in
/// [`SAMPLED`] the verdict itself, by one flow for each band of heights and each way to serve. Gives how often each verdict was
/// reached in the sample, and how many words were short.
fn equals_the_library(seed: u64, sheets: usize) -> (BTreeMap<&'static str, usize>, usize) {
    let stash = stash(seed, sheets);
    let costs = [30, 40, 20, 80].map(Points::from_tenths);
    let [turned, look_alike, other_case, trimmed] = costs;
    let asking = Asking::any(Costs { turned, look_alike, other_case, trimmed });
    let supply = Supply::new(&stash, asking, |_| 0);
    let graphs = Graphs::new(&stash);
    let (mut speller, mut demand) = (Speller::new(&supply), Demand::default());
    let (mut verdicts, mut short) = (BTreeMap::new(), 0);
    let english = WordList::english();
    let capitals = english.words().map(str::to_uppercase);
    let written = english.words().step_by(8).map(str::to_owned);
    let mut words = 0;
    for (place, word) in capitals.chain(written).enumerate() {
        let letters = Letters::of(&word);
        let (verdict, _) = speller.judge(&word).unwrap();
        let lacking = letters.count - graphs.all.most(&letters);
        assert_eq!(verdict == Verdict::Short, lacking > 0, "{word}, seed {seed}: {lacking} lacking");
        if lacking > 0 {
            supply.read(&word, &mut demand).unwrap();
            let told: u32 = supply.answer(&demand).short.iter().map(|short| short.letters).sum();
            assert_eq!(told, lacking, "{word}, seed {seed}");
            short += 1;
        }
        if place.is_multiple_of(SAMPLED) {
            assert_eq!(verdict, graphs.verdict(&letters), "{word}, seed {seed}");
            *verdicts.entry(verdict.as_str()).or_default() += 1;
        }
        words += 1;
    }
    assert!(words > 110_000, "{words}");
    (verdicts, short)
}

#[test]
fn a_scarce_stash_spells_what_the_library_finds() {
    let (verdicts, short) = equals_the_library(1, 3);
    assert!(short > 20_000, "{short}");
    assert!(verdicts.len() >= 3, "{verdicts:?}");
}

#[test]
fn a_middling_stash_spells_what_the_library_finds() {
    let (verdicts, short) = equals_the_library(2, 6);
    assert!(short > 1_000, "{short}");
    assert!(verdicts.len() == Verdict::ALL.len(), "{verdicts:?}");
}

#[test]
fn a_rich_stash_spells_what_the_library_finds() {
    let (verdicts, short) = equals_the_library(3, 20);
    assert!(short < 1_000, "{short}");
    assert!(verdicts["now"] > 2_000 && verdicts.contains_key("stand-ins"), "{verdicts:?}");
}

/// How often a word wants each letter.
struct Letters {
    wanted: BTreeMap<Character, u32>,
    count: u32,
}

impl Letters {
    fn of(word: &str) -> Self {
        let mut wanted = BTreeMap::new();
        for letter in word.chars() {
            *wanted.entry(Character::new(letter.encode_utf8(&mut [0; 4])).unwrap()).or_default() += 1;
        }
        Self { count: wanted.values().sum(), wanted }
    }
}

/// Stickers that serve for the same letters, put together.
#[derive(Default)]
struct Stickers {
    left: Vec<u32>,
    /// The places of those that serve for a letter.
    serving: BTreeMap<Character, Vec<usize>>,
}

impl Stickers {
    fn new(ways: &[Way], takes: impl Fn(&Way) -> bool) -> Self {
        let mut served: BTreeMap<ChipIx, (u32, BTreeSet<&Character>)> = BTreeMap::new();
        for way in ways.iter().filter(|way| takes(way)) {
            served.entry(way.chip).or_insert((way.left, BTreeSet::new())).1.insert(&way.wanted);
        }
        let mut alike: BTreeMap<BTreeSet<&Character>, u32> = BTreeMap::new();
        for (left, serves) in served.into_values() {
            *alike.entry(serves).or_default() += left;
        }
        let mut stickers = Self::default();
        for (place, (serves, left)) in alike.into_iter().enumerate() {
            stickers.left.push(left);
            for wanted in serves {
                stickers.serving.entry(wanted.clone()).or_default().push(place);
            }
        }
        stickers
    }

    /// The most letters of a word that get a sticker: a maximum flow from its letters through the stickers.
    fn most(&self, letters: &Letters) -> u32 {
        let mut graph = DiGraph::<(), u32>::with_capacity(32, 64);
        let (source, sink) = (graph.add_node(()), graph.add_node(()));
        let mut known: Vec<Option<NodeIndex>> = vec![None; self.left.len()];
        for (wanted, &count) in &letters.wanted {
            let letter = graph.add_node(());
            graph.add_edge(source, letter, count);
            for &place in self.serving.get(wanted).into_iter().flatten() {
                let stickers = *known[place].get_or_insert_with(|| {
                    let fresh = graph.add_node(());
                    graph.add_edge(fresh, sink, self.left[place]);
                    fresh
                });
                graph.add_edge(letter, stickers, count);
            }
        }
        dinics(&graph, source, sink).0
    }
}

/// A sticker that serves for a letter, at a height.
struct Way {
    chip: ChipIx,
    left: u32,
    wanted: Character,
    is_own: bool,
    height: Length,
}

/// The stickers with all heights, and of each band: those that serve as themselves, and all that serve.
struct Graphs {
    all: Stickers,
    bands: Vec<(Stickers, Stickers)>,
}

impl Graphs {
    fn new(stash: &Stash) -> Self {
        let letters = ('A'..='Z').chain('a'..='z').map(|one| Character::new(&one.to_string()).unwrap());
        let ways: Vec<Way> = letters.flat_map(|wanted| ways(stash, &wanted)).collect();
        let starts: BTreeSet<Length> = ways.iter().map(|way| way.height).collect();
        // 1.25 to 1, rounded to a hundredth, half away from zero.
        let holds = |low: Length, way: &Way| low <= way.height && 200 * way.height.nm() < 251 * low.nm();
        let band = |&low: &Length| {
            (
                Stickers::new(&ways, |way| way.is_own && holds(low, way)),
                Stickers::new(&ways, |way| holds(low, way)),
            )
        };
        Self { all: Stickers::new(&ways, |_| true), bands: starts.iter().map(band).collect() }
    }

    fn verdict(&self, letters: &Letters) -> Verdict {
        let is_met = |stickers: &Stickers| stickers.most(letters) == letters.count;
        if self.bands.iter().any(|(own, _)| is_met(own)) {
            Verdict::Now
        } else if self.bands.iter().any(|(_, any)| is_met(any)) {
            Verdict::StandIns
        } else if is_met(&self.all) {
            Verdict::MixedHeights
        } else {
            Verdict::Short
        }
    }
}

/// Every sticker that serves for `wanted`, by itself or by a row of the table.
fn ways(stash: &Stash, wanted: &Character) -> Vec<Way> {
    assert!(!Face::reference().is_exempt(wanted));
    let way = |chip: ChipIx, row: Option<&StandIn>| {
        let turn = row.map_or(Turn::None, |row| row.turn);
        let seen = stash.chip(chip);
        let height = seen.effective_height(wanted, turn);
        let is_own = row.is_none_or(|row| row.same_shape);
        Way { chip, left: u32::from(seen.on_hand()), wanted: wanted.clone(), is_own, height }
    };
    let mut found: Vec<Way> = stash.carrying(wanted).iter().map(|&chip| way(chip, None)).collect();
    for row in stand_ins(wanted) {
        let can = |chip: &&ChipIx| stash.chip(**chip).can_stand_in(&row);
        found.extend(stash.carrying(&row.used).iter().filter(can).map(|&chip| way(chip, Some(&row))));
    }
    found.retain(|way| way.left > 0);
    found
}

/// Sheets part used: the commoner a letter, the fewer are left. Every third sheet has small letters.
fn stash(seed: u64, sheets: usize) -> Stash {
    let mut draw = Draw::new(seed);
    Stash::new((0..sheets).map(|place| sheet(&mut draw, place)).collect())
}

fn sheet(draw: &mut Draw, place: usize) -> Sheet {
    let alphabet = if place % 3 == 2 { 'a'..='z' } else { 'A'..='Z' };
    let left = |draw: &mut Draw, letter: char| {
        draw.below(if "EASTRNOLI".contains(letter.to_ascii_uppercase()) { 3 } else { 5 })
    };
    let mut letters: Vec<Letter> = alphabet
        .chain('0'..='9')
        .map(|one| {
            let left = u16::try_from(left(draw, one)).unwrap();
            Letter::plain(Character::new(&one.to_string()).unwrap(), None, left)
        })
        .collect();
    for letter in &mut letters {
        letter.height = draw.chance(5).then(|| draw.mm(14, 30));
    }
    Sheet {
        id: SheetId::new(&format!("sheet-{place}")).unwrap(),
        label: Label::default(),
        make: Make {
            form: *draw.pick(Form::ALL),
            finish: *draw.pick(Finish::ALL),
            neutral: false,
            joined: false,
            plain_tile: draw.chance(30),
        },
        size: Size { height: draw.mm(16, 28), height_of: HeightOf::Capital, tile_width: None, thick: None },
        paint: Paint {
            colours: vec![Tint::plain(Colour::from_hex("#008080").unwrap())],
            outline: None,
            tile: None,
        },
        letters,
        record: Record::default(),
    }
}
