//! A second opinion on the score of a strip: every term written anew from its rule, in whole tenths of a point.
//!
//! Must not know `oddment::checks`. It reads the types of stash, title and page, the reference face's proportions, colour
//! differences and contrasts (which the ring `outside` holds to published values), and the weight of a letter.

use oddment::letter::{Character, Face, StandInKind, Turn, find_stand_in, weight};
use oddment::measure::{Colour, Tint};
use oddment::page::Page;
use oddment::plan::Plan;
use oddment::stash::{Chip, ChipId, Finish, Form, HeightOf, Stash};
use oddment::title::{CaseRule, FormRule, Layout, Mix, Sticker, Strip};

use super::page_opinion::{Colours, Family, Under, page_colours, under};

/// The points of each term of one strip, in tenths.
pub(super) type Terms = Vec<(&'static str, i64)>;

/// What is known of a strip.
struct Line<'a> {
    strip: &'a Strip,
    page: Option<Colours>,
    slots: Vec<Slot>,
    height: Option<i64>,
}

/// What stands in a slot.
#[derive(Default)]
struct Slot {
    filled: bool,
    family: Option<Family>,
    /// Its first colour is the main colour.
    main: bool,
    letter: Option<Facts>,
}

/// What is known of a letter of the stash.
struct Facts {
    sheet: String,
    height: Option<i64>,
    form: Form,
    joined: bool,
    neutral: bool,
    apart: Option<i64>,
    contrast: Option<i64>,
    stand_in: i64,
    scarce: i64,
}

/// The terms of the strip at `place`; `None` where two things lie under it about equally.
pub(super) fn terms(plan: &Plan, place: usize, stash: &Stash, other: &Plan) -> Option<Terms> {
    let strip = &plan.strips()[place];
    let page = page_colours(&plan.page);
    let mut slots: Vec<Slot> =
        (0..strip.len()).map(|slot| look(strip, slot, stash, other, page.as_ref())).collect();
    let heights: Vec<i64> = slots.iter().filter_map(|slot| slot.letter.as_ref()?.height).collect();
    let height = line_height(&heights, suits(strip, &plan.page));
    let below = match under(strip, &plan.page, &Layout::of(strip, stash), height) {
        Under::Known(colour) => Some(colour),
        Under::Unknown => None,
        Under::TooClose => return None,
    };
    for (slot, seen) in slots.iter_mut().enumerate() {
        let chip = strip.letter(slot).and_then(|stood| stood.chip()).and_then(|id| stash.find(id));
        if let (Some(facts), Some(chip)) = (&mut seen.letter, chip) {
            facts.contrast = contrast(stash.chip(chip), below);
        }
    }
    let line = Line { strip, page, slots, height };
    let mut terms = line.letter_terms();
    terms.extend(line.place_terms());
    terms.extend(line.pair_terms());
    terms.retain(|(id, _)| !strip.accepted.contains(*id));
    Some(terms)
}

fn suits(strip: &Strip, page: &Page) -> Option<(i64, i64)> {
    let share = |least: i64, most: i64| {
        let size = page.size?;
        let side = size.width.nm().min(size.height.nm());
        Some((side * least / 100, side * most / 100))
    };
    match (strip.rules.tall, strip.role().as_str()) {
        (Some((least, most)), _) => Some((least.nm(), most.nm())),
        (None, "title") => share(6, 13),
        (None, "subtitle") => share(2, 5),
        _ => None,
    }
}

/// The larger over the smaller in whole hundredths, half up.
fn ratio(a: i64, b: i64) -> i64 {
    let (small, large) = (a.min(b), a.max(b));
    (200 * large + small) / (2 * small)
}

fn height_points(own: i64, line: i64) -> i64 {
    let r = ratio(own, line);
    if r <= 115 || (own - line).abs() <= 1_500_000 { 0 } else { (8 * (r - 115)).min(400) }
}

fn line_height(heights: &[i64], suits: Option<(i64, i64)>) -> Option<i64> {
    let within = |height: i64| suits.map_or(height, |(least, most)| height.max(least).min(most));
    let cost = |line: i64| heights.iter().map(|&own| height_points(own, line)).sum::<i64>();
    heights.iter().map(|&height| within(height)).min_by_key(|&line| (cost(line), -line))
}

fn wanted(strip: &Strip, slot: usize) -> Character {
    let written = &strip.wording().slots()[slot].character;
    let cased = match strip.rules.case {
        CaseRule::Any | CaseRule::AsWritten => written.as_str().to_owned(),
        CaseRule::Upper => written.as_str().to_uppercase(),
        CaseRule::Lower => written.as_str().to_lowercase(),
    };
    Character::new(&cased).unwrap()
}

fn look(strip: &Strip, slot: usize, stash: &Stash, other: &Plan, page: Option<&Colours>) -> Slot {
    match strip.letter(slot).map(|stood| &stood.sticker) {
        None => Slot::default(),
        Some(Sticker::Hand(thing)) => {
            let tint = thing.colour.as_slice();
            let family = thing.colour.as_ref().map(|_| family(tint, page).0);
            Slot { filled: true, family, main: is_main(tint, page), letter: None }
        }
        Some(Sticker::Chip { id, stands_in }) => {
            let Some(chip) = stash.find(id).map(|chip| stash.chip(chip)) else { return Slot::default() };
            let wanted = wanted(strip, slot);
            let (family, apart) = family(chip.colours(), page);
            let grey = chip.colours()[0].colour.lab().chroma() < 12.0;
            let always = matches!(chip.sheet.make.finish, Finish::Foil | Finish::Wood | Finish::Cork);
            let facts = Facts {
                sheet: chip.sheet.id.to_string(),
                height: effective_height(chip, &wanted, *stands_in),
                form: chip.sheet.make.form,
                joined: chip.sheet.make.joined,
                neutral: grey || always || chip.sheet.make.neutral,
                apart,
                contrast: None,
                stand_in: stand_in(chip, &wanted, *stands_in),
                scarce: scarce(chip, stash, other),
            };
            let main = is_main(chip.colours(), page);
            Slot { filled: true, family: Some(family), main, letter: Some(facts) }
        }
    }
}

/// The nearest page colour of one colour, and how far it is.
fn nearest(colour: Colour, page: Option<&Colours>) -> Option<(i64, usize)> {
    let apart =
        |(place, there): (usize, &Colour)| (i64::from(colour.lab().difference(there.lab()).get()), place);
    page?.list.iter().enumerate().map(apart).min()
}

fn family(tints: &[Tint], page: Option<&Colours>) -> (Family, Option<i64>) {
    let near = tints.iter().filter_map(|tint| nearest(tint.colour, page)).min();
    if let Some((apart, place)) = near.filter(|&(apart, _)| apart <= 1500) {
        return ((0, place), Some(apart));
    }
    let lab = tints[0].colour.lab();
    let stray = if lab.chroma() < 12.0 {
        (1, if lab.l() >= 70.0 { 0 } else { 1 + usize::from(lab.l() < 30.0) })
    } else {
        let starts = [22.5, 67.5, 112.5, 157.5, 202.5, 247.5, 292.5, 337.5];
        (2, starts.iter().filter(|&&start| lab.hue_degrees() >= start).count() % 8)
    };
    (stray, near.map(|(apart, _)| apart))
}

fn is_main(tints: &[Tint], page: Option<&Colours>) -> bool {
    let first = tints.first().and_then(|tint| nearest(tint.colour, page));
    first.is_some_and(|(apart, place)| apart <= 1500 && page.and_then(|page| page.main) == Some(place))
}

#[expect(clippy::cast_possible_truncation, reason = "lengths of letters")]
fn to_nm(mm: f64) -> i64 {
    (mm * 1e6).round() as i64
}

/// What the sticker shows, upright.
fn shown(chip: Chip<'_>) -> f64 {
    let face = Face::reference();
    let nominal = chip.sheet.size.height.mm();
    let capital = match chip.sheet.size.height_of {
        HeightOf::Capital => nominal,
        HeightOf::Small => nominal / face.x_height(),
        HeightOf::Tall => nominal / face.ascender(),
    };
    match (chip.letter.height, chip.sheet.make.form) {
        (Some(measured), _) => measured.mm(),
        (None, Form::Tile) => nominal,
        (None, Form::DieCut) => capital * face.body(&chip.letter.character),
    }
}

fn effective_height(chip: Chip<'_>, wanted: &Character, kind: Option<StandInKind>) -> Option<i64> {
    let face = Face::reference();
    if face.is_exempt(wanted) {
        return None;
    }
    let row = kind.and_then(|kind| find_stand_in(wanted, &chip.letter.character, kind));
    // A tile on its side shows its width, as any sticker does.
    let own = match row.map_or(Turn::None, |row| row.turn) {
        Turn::Quarter => chip.width().0.mm(),
        Turn::None | Turn::Half => shown(chip),
    };
    Some(to_nm(if chip.sheet.make.form == Form::Tile { own } else { own / face.body(wanted) }))
}

fn stand_in(chip: Chip<'_>, wanted: &Character, kind: Option<StandInKind>) -> i64 {
    match kind {
        None => 0,
        Some(StandInKind::Turned) => 30,
        Some(StandInKind::LookAlike) => 40,
        Some(StandInKind::Trimmed) => 80,
        Some(StandInKind::OtherCase) => {
            let pairs = ["Cc", "Oo", "Ss", "Vv", "Ww", "Xx", "Zz"];
            let both = [wanted.as_str(), chip.letter.character.as_str()];
            if pairs.iter().any(|pair| both.iter().all(|one| pair.contains(one))) { 0 } else { 20 }
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "at most 40")]
fn scarce(chip: Chip<'_>, stash: &Stash, other: &Plan) -> i64 {
    let mut left = 0;
    for there in stash.chips().map(|there| stash.chip(there)) {
        let alike = ratio(to_nm(shown(there)), to_nm(shown(chip))) <= 125;
        if there.letter.character == chip.letter.character && alike {
            let id: ChipId = there.id();
            let spoken = other.strips().iter().flat_map(Strip::chips).filter(|used| **used == id).count();
            left += usize::from(there.letter.left).saturating_sub(spoken);
        }
    }
    let full = match left {
        0 | 1 => 40.0,
        2 => 20.0,
        3 => 13.0,
        _ => 0.0,
    };
    (full * weight(&chip.letter.character)).round() as i64
}

fn contrast(chip: Chip<'_>, under: Option<Colour>) -> Option<i64> {
    let between = |a: Colour, b: Colour| i64::from(a.contrast(b).get());
    let ink = chip.colours()[0].colour;
    if chip.sheet.make.form == Form::Tile {
        return chip.sheet.paint.tile.as_ref().map(|tile| between(ink, tile.colour));
    }
    let under = under?;
    let rim = chip.sheet.paint.outline.as_ref().map(|rim| rim.colour);
    Some(rim.map_or(between(ink, under), |rim| between(ink, rim).max(between(rim, under))))
}

fn whole(count: usize) -> i64 {
    i64::try_from(count).unwrap()
}

impl Line<'_> {
    fn letter_terms(&self) -> Terms {
        let mut terms = Vec::new();
        for slot in &self.slots {
            if !slot.filled {
                terms.push(("missing", 2000));
            }
            let Some(letter) = &slot.letter else { continue };
            let r = letter.height.zip(self.height);
            terms.push(("height", r.map_or(0, |(own, line)| height_points(own, line))));
            let apart = letter.apart.unwrap_or(0);
            if !letter.neutral && apart > 1500 {
                terms.push(("stray", ((400 + apart - 1500 + 5) / 10).min(300)));
            }
            terms.push((
                "pale",
                match letter.contrast {
                    Some(..150) => 120,
                    Some(contrast @ 150..300) => ((300 - contrast) * 2 + 5) / 10,
                    _ => 0,
                },
            ));
            terms.push(("stand-in", letter.stand_in));
            terms.push(("scarce", letter.scarce));
            let close = if letter.neutral || apart > 1500 { 0 } else { ((apart + 50) / 100).min(15) };
            terms.push(("near", close + r.map_or(0, |(own, line)| (ratio(own, line) - 100).min(15))));
            let breaks = match self.strip.rules.forms {
                FormRule::Any => false,
                FormRule::Tile => letter.form == Form::DieCut,
                FormRule::DieCut => letter.form == Form::Tile,
            };
            terms.push(("form", i64::from(breaks) * 100));
        }
        terms
    }

    /// Positions and counts.
    fn place_terms(&self) -> Terms {
        let (n, mix) = (self.slots.len(), self.strip.rules.mix);
        let mut terms = Vec::new();
        if mix == Mix::Plain || n == 0 {
            return terms;
        }
        if let Some(main) = self.page.as_ref().and_then(|page| page.main) {
            let mut ends = vec![0, n - 1];
            ends.dedup();
            let bad = |&&end: &&usize| self.slots[end].filled && !self.slots[end].main;
            terms.push(("ends", 60 * whole(ends.iter().filter(bad).count())));
            // Slots count from 1 in the rule: ceil(N/3) + 1 to N - ceil(N/3).
            let third = n.div_ceil(3);
            if n >= 5 && !(third + 1..=n - third).any(|slot| self.slots[slot - 1].main) {
                terms.push(("anchor", 40));
            }
            if n >= 5 && mix == Mix::Lively && 3 * self.count((0, main)) < n {
                terms.push(("lead", 40));
            }
        }
        if let Some(second) = self.page.as_ref().and_then(|page| page.second).filter(|_| n >= 5) {
            for near_end in [1..=3, n - 2..=n] {
                if !near_end.into_iter().any(|slot| self.slots[slot - 1].family == Some((0, second))) {
                    terms.push(("second", 20));
                }
            }
        }
        if n >= 5 {
            terms.push(("monotony", 80 * self.families_that_lack()));
            let crowd = |slot: &Slot| slot.family.is_some_and(|family| 5 * self.count(family) > 3 * n);
            if mix == Mix::Lively && self.slots.iter().any(crowd) {
                terms.push(("dominance", 60));
            }
        }
        terms
    }

    fn count(&self, family: Family) -> usize {
        self.slots.iter().filter(|slot| slot.family == Some(family)).count()
    }

    fn families_that_lack(&self) -> i64 {
        let mut want = self.page.as_ref().map_or(3, |page| page.without_ground.min(3));
        let mut there: Vec<Family> = Vec::new();
        if self.strip.rules.mix == Mix::Words {
            let asked = self.strip.wording().slots();
            let words = asked.last().map_or(0, |last| last.word + 1);
            want = want.min(words);
            for word in 0..words {
                let of: Vec<Option<Family>> = (0..asked.len())
                    .filter(|&slot| asked[slot].word == word)
                    .map(|slot| self.slots[slot].family)
                    .collect();
                there.extend(of[0].filter(|first| of.iter().all(|one| *one == Some(*first))));
            }
        } else {
            there.extend(self.slots.iter().filter_map(|slot| slot.family));
        }
        there.retain(|family| self.page.is_none() || family.0 == 0);
        there.sort_unstable();
        there.dedup();
        whole(want.saturating_sub(there.len()))
    }

    fn pair_terms(&self) -> Terms {
        let asked = self.strip.wording().slots();
        let (lively, known) =
            (self.strip.rules.mix == Mix::Lively, |slot: usize| self.slots[slot].letter.as_ref());
        let mut terms = Vec::new();
        for slot in 1..self.slots.len() {
            let (before, here) = (&self.slots[slot - 1], &self.slots[slot]);
            if !before.filled || !here.filled || asked[slot - 1].line != asked[slot].line {
                continue;
            }
            let in_word = asked[slot - 1].word == asked[slot].word;
            if lively && before.family.is_some() && before.family == here.family {
                terms.push(("neighbours", if in_word { 30 } else { 10 }));
            }
            let sheets = [slot - 1, slot].map(|slot| known(slot).map(|letter| &letter.sheet));
            let word = (0..asked.len()).filter(|&other| asked[other].word == asked[slot].word);
            let whole =
                word.map(|other| known(other).map(|letter| &letter.sheet)).all(|sheet| sheet == sheets[0]);
            let one_sheet = sheets[0].is_some() && sheets[0] == sheets[1];
            if lively && in_word && one_sheet && !whole {
                terms.push(("fragment", 20));
            }
            let script = [slot - 1, slot].iter().any(|&slot| known(slot).is_some_and(|letter| letter.joined));
            if in_word && script && !one_sheet {
                terms.push(("joined", 100));
            }
        }
        terms
    }
}
