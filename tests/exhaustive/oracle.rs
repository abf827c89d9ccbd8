//! The score of a strip, slowly and plainly, term by term from the table of the rules; it shares nothing with the checks
//! but colours, lengths and the proportions of the reference face.
//!
//! Must not know how the checks are written.
#![expect(clippy::unwrap_used, reason = "a case that the rules do not cover fails the test")]

use std::collections::{BTreeMap, BTreeSet};

use oddment::letter::{Character, Face, StandInKind, Turn, find_stand_in, weight};
use oddment::measure::{Colour, Hundredths, Length};
use oddment::plan::Plan;
use oddment::stash::{Chip, Form, HeightOf, SheetId, Stash};
use oddment::title::{CaseRule, FormRule, Layout, Mix, Sticker, Strip};

use super::oracle_colours::{Colours, family, nearest, page_colours};

type Tenths = i32;

/// What a slot holds.
enum Slot<'a> {
    Empty,
    Hand(Option<(String, bool)>),
    Chip(Seen<'a>),
}

struct Seen<'a> {
    chip: Chip<'a>,
    kind: Option<StandInKind>,
    family: String,
    main: bool,
    height: Option<Length>,
}

/// The strip's score in tenths, the height it is compared by, and the points of each term.
pub(super) fn score(
    plan: &Plan,
    strip: &Strip,
    stash: &Stash,
) -> (Tenths, Option<Length>, BTreeMap<&'static str, Tenths>) {
    let colours = page_colours(&plan.page);
    let slots: Vec<Slot<'_>> = (0..strip.len()).map(|slot| see(strip, slot, stash, &colours)).collect();
    let height = line_height(plan, strip, &slots);
    let under = under(plan, strip, stash, height);
    let mut terms: BTreeMap<&'static str, Tenths> = BTreeMap::new();
    for slot in &slots {
        letter_terms(&mut terms, strip, stash, &colours, slot, height, under);
    }
    colour_terms(&mut terms, strip, &colours, &slots);
    pair_terms(&mut terms, strip, &slots);
    let heard: &[&str] = match strip.rules.mix {
        Mix::Lively => &[],
        Mix::Words => &["neighbours", "fragment", "dominance", "lead"],
        Mix::Plain => {
            &["neighbours", "fragment", "dominance", "lead", "ends", "anchor", "second", "monotony"]
        }
    };
    terms.retain(|id, _| !heard.contains(id) && !strip.accepted.contains(*id));
    (terms.values().sum(), height, terms)
}

fn wanted(strip: &Strip, slot: usize) -> Character {
    let written = &strip.wording().slots()[slot].character;
    match strip.rules.case {
        CaseRule::Any | CaseRule::AsWritten => written.clone(),
        CaseRule::Upper => written.to_upper().unwrap_or_else(|| written.clone()),
        CaseRule::Lower => written.to_lower().unwrap_or_else(|| written.clone()),
    }
}

fn capital(chip: Chip<'_>) -> Length {
    let face = Face::reference();
    match chip.sheet.size.height_of {
        HeightOf::Capital => chip.sheet.size.height,
        HeightOf::Small => chip.sheet.size.height.scale(1.0 / face.body(&Character::new("x").unwrap())),
        HeightOf::Tall => chip.sheet.size.height.scale(1.0 / face.body(&Character::new("b").unwrap())),
    }
}

fn shown(chip: Chip<'_>) -> Length {
    match (chip.letter.height, chip.sheet.make.form) {
        (Some(own), _) => own,
        (None, Form::Tile) => chip.sheet.size.height,
        (None, Form::DieCut) => capital(chip).scale(Face::reference().body(&chip.letter.character)),
    }
}

fn effective(chip: Chip<'_>, wanted: &Character, kind: Option<StandInKind>) -> Option<Length> {
    if Face::reference().is_exempt(wanted) {
        return None;
    }
    let turn = kind
        .and_then(|kind| find_stand_in(wanted, &chip.letter.character, kind))
        .map_or(Turn::None, |row| row.turn);
    let seen = if turn == Turn::Quarter { chip.width().0 } else { shown(chip) };
    Some(if chip.sheet.make.form == Form::Tile {
        seen
    } else {
        seen.scale(1.0 / Face::reference().body(wanted))
    })
}

fn see<'a>(strip: &Strip, slot: usize, stash: &'a Stash, colours: &Colours) -> Slot<'a> {
    match strip.letter(slot).map(|stood| &stood.sticker) {
        None => Slot::Empty,
        Some(Sticker::Hand(thing)) => {
            Slot::Hand(thing.colour.as_ref().map(|tint| family(colours, &[tint.colour])))
        }
        Some(Sticker::Chip { id, stands_in }) => {
            let chip = stash.chip(stash.find(id).unwrap());
            let tints: Vec<Colour> = chip.colours().iter().map(|tint| tint.colour).collect();
            let (name, main) = family(colours, &tints);
            let height = effective(chip, &wanted(strip, slot), *stands_in);
            Slot::Chip(Seen { chip, kind: *stands_in, family: name, main, height })
        }
    }
}

fn height_cost(own: Length, line: Length) -> Tenths {
    let ratio = own.ratio(line).get();
    if ratio <= 115 || (own - line).abs() <= Length::from_nm(1_500_000) {
        0
    } else {
        (8 * (ratio - 115)).min(400)
    }
}

fn line_height(plan: &Plan, strip: &Strip, slots: &[Slot<'_>]) -> Option<Length> {
    let side = plan.page.size.map(|size| size.width.min(size.height));
    let tall = strip.rules.tall.or_else(|| match strip.role().as_str() {
        "title" => side.map(|side| (side.scale(0.06), side.scale(0.13))),
        "subtitle" => side.map(|side| (side.scale(0.02), side.scale(0.05))),
        _ => None,
    });
    let heights: Vec<Length> =
        slots.iter().filter_map(|s| if let Slot::Chip(seen) = s { seen.height } else { None }).collect();
    let clamped = heights.iter().map(|&h| tall.map_or(h, |(least, most)| h.max(least).min(most)));
    clamped.max_by_key(|&line| {
        let sum: Tenths = heights.iter().map(|&own| height_cost(own, line)).sum();
        (-sum, line)
    })
}

fn under(plan: &Plan, strip: &Strip, stash: &Stash, height: Option<Length>) -> Option<Colour> {
    if let Some(on) = &strip.rules.on {
        return Some(on.colour);
    }
    let ground = plan.page.ground.as_ref().map(|tint| tint.colour);
    let Some(at) = strip.place.at else { return ground };
    if plan.page.elements.is_empty() {
        return ground;
    }
    let length = Layout::of(strip, stash).length().mm();
    let (sin, cos) = strip.place.turn.sin_cos();
    let mut counts = vec![0; plan.page.elements.len() + 1];
    let mut up = 0.5;
    while up < height.unwrap_or_default().mm() {
        let mut along = 0.5;
        while along < length {
            let (x, y) = (at.x.mm() + along * cos + up * sin, at.y.mm() + along * sin - up * cos);
            let top = plan.page.elements.iter().rposition(|element| element.lie.covers(x, y));
            counts[top.map_or(0, |place| place + 1)] += 1;
            along += 1.0;
        }
        up += 1.0;
    }
    let place = (0..counts.len()).max_by_key(|&place| (counts[place], place)).unwrap();
    if place == 0 { ground } else { plan.page.elements[place - 1].colours.first().map(|tint| tint.colour) }
}

fn round_tenths(points: f64) -> Tenths {
    #[expect(clippy::cast_possible_truncation, reason = "a score is small")]
    let tenths = (points * 10.0).round() as Tenths;
    tenths
}

fn letter_terms(
    terms: &mut BTreeMap<&'static str, Tenths>,
    strip: &Strip,
    stash: &Stash,
    colours: &Colours,
    slot: &Slot<'_>,
    height: Option<Length>,
    under: Option<Colour>,
) {
    let mut add = |id: &'static str, tenths: Tenths| *terms.entry(id).or_default() += tenths;
    let seen = match slot {
        Slot::Empty => return add("missing", 2000),
        Slot::Hand(_) => return,
        Slot::Chip(seen) => seen,
    };
    let chip = seen.chip;
    let line = height.zip(seen.height);
    add("height", line.map_or(0, |(line, own)| height_cost(own, line)));
    let first = chip.colours()[0].colour;
    let make = chip.sheet.make;
    let neutral = make.neutral
        || make.finish.is_neutral()
        || Hundredths::from_f64(first.lab().chroma()) < Hundredths::new(1200);
    let apart = chip
        .colours()
        .iter()
        .filter_map(|tint| nearest(colours, tint.colour))
        .min()
        .map(|(apart, _)| apart.get());
    if let Some(apart) = apart.filter(|&apart| apart > 1500 && !neutral) {
        add("stray", (40 + (apart - 1500 + 5) / 10).min(300));
    }
    let rim = chip.sheet.paint.outline.as_ref().map(|tint| tint.colour);
    let contrast = match make.form {
        Form::Tile => chip.sheet.paint.tile.as_ref().map(|tile| first.contrast(tile.colour)),
        Form::DieCut => under.map(|under| {
            rim.map_or_else(|| first.contrast(under), |rim| first.contrast(rim).max(rim.contrast(under)))
        }),
    };
    if let Some(contrast) = contrast.map(Hundredths::get).filter(|&contrast| contrast < 300) {
        add(
            "pale",
            if contrast < 150 { 120 } else { round_tenths(2.0 * f64::from(300 - contrast) / 100.0 + 1e-9) },
        );
    }
    add("stand-in", stand_in_cost(strip, slot, chip, seen.kind));
    add("scarce", scarce_cost(stash, chip));
    let tall = line.map_or(0, |(line, own)| (own.ratio(line).get() - 100).min(15));
    let close =
        apart.filter(|&apart| apart <= 1500 && !neutral).map_or(0, |apart| ((apart + 50) / 100).min(15));
    add("near", tall + close);
    let fits = match strip.rules.forms {
        FormRule::Any => true,
        FormRule::Tile => make.form == Form::Tile,
        FormRule::DieCut => make.form == Form::DieCut,
    };
    add("form", if fits { 0 } else { 100 });
}

fn stand_in_cost(_: &Strip, _: &Slot<'_>, chip: Chip<'_>, kind: Option<StandInKind>) -> Tenths {
    let lower = chip.letter.character.as_str().to_lowercase();
    match kind {
        None => 0,
        Some(StandInKind::Turned) => 30,
        Some(StandInKind::LookAlike) => 40,
        Some(StandInKind::OtherCase) if ["c", "o", "s", "v", "w", "x", "z"].contains(&lower.as_str()) => 0,
        Some(StandInKind::OtherCase) => 20,
        Some(StandInKind::Trimmed) => 80,
    }
}

fn scarce_cost(stash: &Stash, chip: Chip<'_>) -> Tenths {
    let alike = |other: Chip<'_>| {
        other.letter.character == chip.letter.character && shown(other).ratio(shown(chip)).get() <= 125
    };
    let left: u32 = stash
        .chips()
        .map(|ix| stash.chip(ix))
        .filter(|&other| alike(other))
        .map(|other| u32::from(other.letter.left))
        .sum();
    let full = match left {
        0 | 1 => 4.0,
        2 => 2.0,
        3 => 1.3,
        _ => 0.0,
    };
    round_tenths(full * weight(&chip.letter.character))
}

fn family_of<'a>(slot: &'a Slot<'_>) -> Option<&'a str> {
    match slot {
        Slot::Empty => None,
        Slot::Hand(colour) => colour.as_ref().map(|(family, _)| family.as_str()),
        Slot::Chip(seen) => Some(&seen.family),
    }
}

fn is_main(slot: &Slot<'_>) -> bool {
    match slot {
        Slot::Empty => false,
        Slot::Hand(colour) => colour.as_ref().is_some_and(|(_, main)| *main),
        Slot::Chip(seen) => seen.main,
    }
}

fn colour_terms(
    terms: &mut BTreeMap<&'static str, Tenths>,
    strip: &Strip,
    colours: &Colours,
    slots: &[Slot<'_>],
) {
    let n = slots.len();
    let known = !colours.all.is_empty();
    let mut add = |id: &'static str, tenths: Tenths| *terms.entry(id).or_default() += tenths;
    let led = colours.main.is_some();
    if led && n > 0 {
        let ends: BTreeSet<usize> = [0, n - 1].into();
        let wrong = ends
            .into_iter()
            .filter(|&end| !matches!(slots[end], Slot::Empty) && !is_main(&slots[end]))
            .count();
        add("ends", 60 * Tenths::try_from(wrong).unwrap());
    }
    if n < 5 {
        return;
    }
    let count = |family: &str| slots.iter().filter(|slot| family_of(slot) == Some(family)).count();
    if known {
        // Slots ceil(N/3)+1 to N-ceil(N/3), from 1.
        let third = n.div_ceil(3);
        add("anchor", if !led || (third..n - third).any(|slot| is_main(&slots[slot])) { 0 } else { 40 });
        if let Some(second) = colours.second {
            let second = format!("page {second}");
            let lacks = |slots: &[Slot<'_>]| {
                Tenths::from(!slots.iter().any(|slot| family_of(slot) == Some(second.as_str())))
            };
            add("second", 20 * (lacks(&slots[..3]) + lacks(&slots[n - 3..])));
        }
        if let Some(main) = colours.main {
            add("lead", if 3 * count(&format!("page {main}")) < n { 40 } else { 0 });
        }
    }
    let words: Vec<std::ops::Range<usize>> = strip.wording().words().collect();
    let by_word = strip.rules.mix == Mix::Words;
    let page = colours.all.iter().filter(|(_, ground)| !ground).count();
    let mut want = if known { page.min(3) } else { 3 };
    let mut there: BTreeSet<&str> = slots.iter().filter_map(family_of).collect();
    if by_word {
        want = want.min(words.len());
        let whole = |word: &std::ops::Range<usize>| {
            let first = family_of(&slots[word.start])?;
            slots[word.clone()].iter().all(|slot| family_of(slot) == Some(first)).then_some(first)
        };
        there = words.iter().filter_map(whole).collect();
    }
    let k = there.iter().filter(|family| !known || family.starts_with("page")).count();
    add("monotony", 80 * Tenths::try_from(want.saturating_sub(k)).unwrap());
    let families: BTreeSet<&str> = slots.iter().filter_map(family_of).collect();
    add("dominance", if families.iter().any(|family| 5 * count(family) > 3 * n) { 60 } else { 0 });
}

fn pair_terms(terms: &mut BTreeMap<&'static str, Tenths>, strip: &Strip, slots: &[Slot<'_>]) {
    let mut add = |id: &'static str, tenths: Tenths| *terms.entry(id).or_default() += tenths;
    let asked = strip.wording().slots();
    for slot in 1..slots.len() {
        if asked[slot - 1].line != asked[slot].line {
            continue;
        }
        let (before, here) = (&slots[slot - 1], &slots[slot]);
        if matches!(before, Slot::Empty) || matches!(here, Slot::Empty) {
            continue;
        }
        let one_word = asked[slot - 1].word == asked[slot].word;
        if family_of(before).is_some() && family_of(before) == family_of(here) {
            add("neighbours", if one_word { 30 } else { 10 });
        }
        if !one_word {
            continue;
        }
        let same = sheet_of(before).is_some() && sheet_of(before) == sheet_of(here);
        let mut in_word = slots.iter().zip(asked).filter(|(_, other)| other.word == asked[slot].word);
        if same && !in_word.all(|(slot, _)| sheet_of(slot) == sheet_of(here)) {
            add("fragment", 20);
        }
        let joined = |slot: &Slot<'_>| matches!(slot, Slot::Chip(seen) if seen.chip.sheet.make.joined);
        if !same && (joined(before) || joined(here)) {
            add("joined", 100);
        }
    }
}

fn sheet_of<'a>(slot: &Slot<'a>) -> Option<&'a SheetId> {
    if let Slot::Chip(seen) = slot { Some(&seen.chip.sheet.id) } else { None }
}
