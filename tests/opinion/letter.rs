//! A second opinion on a letter: everything that the terms ask of it, and those that look at nothing else.
//!
//! Must not know `oddment::checks`. It reads the types of stash and title, the reference face's proportions, colour
//! differences and contrasts (which the ring `outside` holds to published values), and the weight of a letter.

use oddment::letter::{Character, Face, StandInKind, Turn, find_stand_in, weight};
use oddment::measure::{Colour, Tint};
use oddment::plan::Plan;
use oddment::stash::{Chip, ChipId, Finish, Form, HeightOf, Stash};
use oddment::title::{CaseRule, FormRule, Sticker, Strip};

use super::heights::ratio;
use super::page::{Colours, Family, Under, page_colours, under};
use super::terms::Terms;

/// What a strip's letters are looked at with.
pub(crate) struct Eye<'a> {
    stash: &'a Stash,
    /// Another plan, whose letters are spoken for.
    other: &'a Plan,
    pub(crate) page: Option<Colours>,
    /// What lies under the strip, where that is known.
    pub(crate) under: Option<Colour>,
}

/// What stands in a slot.
#[derive(Default)]
pub(crate) struct Slot {
    pub(crate) filled: bool,
    pub(crate) family: Option<Family>,
    /// Its first colour is the main colour.
    pub(crate) main: bool,
    pub(crate) letter: Option<Facts>,
}

/// What is known of a letter of the stash.
pub(crate) struct Facts {
    pub(crate) sheet: String,
    pub(crate) height: Option<i64>,
    form: Form,
    pub(crate) joined: bool,
    neutral: bool,
    apart: Option<i64>,
    contrast: Option<i64>,
    stand_in: i64,
    scarce: i64,
}

impl<'a> Eye<'a> {
    /// Looks at a strip that is not placed, or says itself what lies under it.
    pub(crate) fn new(plan: &Plan, place: usize, stash: &'a Stash, other: &'a Plan) -> Self {
        let under = match under_unplaced(&plan.strips()[place], plan) {
            Under::Known(colour) => Some(colour),
            Under::Unknown | Under::TooClose => None,
        };
        Self { stash, other, page: page_colours(&plan.page), under }
    }

    /// What is seen of `sticker` in `slot` of the strip.
    pub(crate) fn slot(&self, strip: &Strip, slot: usize, sticker: Option<&Sticker>) -> Slot {
        let (stash, page) = (self.stash, self.page.as_ref());
        match sticker {
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
                    contrast: contrast(chip, self.under),
                    stand_in: stand_in(chip, &wanted, *stands_in),
                    scarce: if strip.is_down(slot) { 0 } else { scarce(chip, stash, self.other) },
                };
                let main = is_main(chip.colours(), page);
                Slot { filled: true, family: Some(family), main, letter: Some(facts) }
            }
        }
    }
}

fn under_unplaced(strip: &Strip, plan: &Plan) -> Under {
    let mut strip = strip.clone();
    strip.place.at = None;
    under(&strip, &plan.page, oddment::measure::Length::ZERO, None)
}

/// The terms that look at one slot and at no height.
pub(crate) fn alone(slot: &Slot, strip: &Strip) -> Terms {
    if !slot.filled {
        return vec![("missing", 2000)];
    }
    let Some(letter) = &slot.letter else { return Vec::new() };
    let apart = letter.apart.unwrap_or(0);
    let stray = if !letter.neutral && apart > 1500 { ((400 + apart - 1500 + 5) / 10).min(300) } else { 0 };
    let pale = match letter.contrast {
        Some(..150) => 120,
        Some(contrast @ 150..300) => ((300 - contrast) * 2 + 5) / 10,
        _ => 0,
    };
    let near = if letter.neutral || apart > 1500 { 0 } else { ((apart + 50) / 100).min(15) };
    let breaks = match strip.rules.forms {
        FormRule::Any => false,
        FormRule::Tile => letter.form == Form::DieCut,
        FormRule::DieCut => letter.form == Form::Tile,
    };
    vec![
        ("stray", stray),
        ("pale", pale),
        ("stand-in", letter.stand_in),
        ("scarce", letter.scarce),
        ("near", near),
        ("form", i64::from(breaks) * 100),
    ]
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
        let alike = || ratio(to_nm(shown(there)), to_nm(shown(chip))) <= 125;
        if there.letter.character == chip.letter.character && alike() {
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
