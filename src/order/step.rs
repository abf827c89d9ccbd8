//! One step: which letter stands in a slot, and exactly where.
//!
//! Must not know the other strips.

use crate::letter::{Character, StandInKind, Turn, find_stand_in};
use crate::measure::{Angle, Length, Tint};
use crate::stash::{ChipId, Form, Mark, Stash};
use crate::title::{Asked, ByHand, Layout, Sticker, Strip};

use super::sheet_name::SheetName;
use super::spot::{Lying, Spot};

/// A slot of a strip, as it is to be filled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The slot, from 1.
    pub number: usize,
    /// The line it stands on: 0 or 1.
    pub line: usize,
    /// The character that the title shows here.
    pub wanted: Character,
    /// What shows it.
    pub used: Used,
    /// How it stands on the carrier.
    pub stance: Stance,
    /// Where the lower left corner of its box lies on the page, before its tilt; `None` where the strip is not placed.
    pub corner: Option<Spot>,
}

/// What fills a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Used {
    /// A letter of the stash.
    Letter(UsedLetter),
    /// A thing that is no sticker.
    Thing(ByHand),
    /// Nothing; with the chip that the plan names, where the stash lacks it.
    Missing(Option<ChipId>),
}

/// A letter of the stash in a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsedLetter {
    /// The sheet it comes off.
    pub sheet: SheetName,
    /// The character on it.
    pub character: Character,
    /// Tells it from others of that character on its sheet.
    pub mark: Option<Mark>,
    /// How it is made.
    pub form: Form,
    /// Its colours, the main one first; never empty.
    pub colours: Vec<Tint>,
    /// How it serves for another character; `None`: as itself.
    pub serves: Option<Serves>,
}

/// How a letter serves for another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Serves {
    /// By what.
    pub kind: StandInKind,
    /// How far it is turned for it.
    pub turn: Turn,
}

/// How a letter stands on the carrier, its box taken before its tilt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stance {
    /// Its left edge from the strip's first feet.
    pub left: Length,
    /// Its lowest point over the feet of the strip's first line; below 0 for a tail, and on the second line.
    pub over: Length,
    /// How wide it is.
    pub width: Length,
    /// How high its box is.
    pub height: Length,
    /// Whether the width is the reference face's estimate.
    pub estimated: bool,
    /// From the right edge of the one before on its line; below 0 where they overlap; `None` for a line's first.
    pub gap: Option<Length>,
    /// Moved off its line, up positive.
    pub raise: Length,
    /// Turned a little about the middle of its box, clockwise positive.
    pub tilt: Angle,
}

/// The steps of `strip` in the order of its slots.
pub(super) fn steps(strip: &Strip, layout: &Layout, lying: Option<Lying>, stash: &Stash) -> Vec<Step> {
    let step = |(slot, asked): (usize, &Asked)| {
        let wanted = strip.rules.wanted(&asked.character);
        let stance = stance(strip, layout, slot);
        Step {
            number: slot + 1,
            line: asked.line,
            used: used(strip, slot, &wanted, stash),
            wanted,
            stance,
            corner: lying.map(|lying| lying.spot(stance.left, stance.over)),
        }
    };
    strip.wording().slots().iter().enumerate().map(step).collect()
}

fn stance(strip: &Strip, layout: &Layout, slot: usize) -> Stance {
    let letter = &layout.letters[slot];
    let line_starts = layout.lines.iter().any(|line| line.slots.start == slot);
    let before = if line_starts { None } else { slot.checked_sub(1).map(|before| &layout.letters[before]) };
    Stance {
        left: letter.left,
        over: letter.bottom,
        width: letter.width,
        height: letter.height,
        estimated: letter.estimated,
        gap: before.map(|before| letter.left - before.right()),
        raise: strip.letter(slot).map_or(Length::ZERO, |stood| stood.raise),
        tilt: letter.tilt,
    }
}

fn used(strip: &Strip, slot: usize, wanted: &Character, stash: &Stash) -> Used {
    let Some(stood) = strip.letter(slot) else { return Used::Missing(None) };
    let (id, stands_in) = match &stood.sticker {
        Sticker::Hand(thing) => return Used::Thing(thing.clone()),
        Sticker::Chip { id, stands_in } => (id, *stands_in),
    };
    let Some(chip) = stash.find(id).map(|ix| stash.chip(ix)) else { return Used::Missing(Some(id.clone())) };
    let character = chip.letter.character.clone();
    let turn = |kind| find_stand_in(wanted, &character, kind).map_or(Turn::None, |row| row.turn);
    Used::Letter(UsedLetter {
        sheet: SheetName::of(chip.sheet),
        mark: chip.letter.mark.clone(),
        form: chip.sheet.make.form,
        colours: chip.colours().to_vec(),
        serves: stands_in.map(|kind| Serves { kind, turn: turn(kind) }),
        character,
    })
}
