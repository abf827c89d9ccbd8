//! One step of the order: what stands in a slot, and where it goes.
//!
//! Must not know how it is printed.

use crate::letter::StandInKind;
use crate::measure::{Angle, Length, Point};
use crate::stash::{Chip, Form, Stash};
use crate::title::{Layout, LetterBox, Sticker, Strip};

/// A step, for one slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// From 1, left to right as the letters stand.
    pub number: usize,
    /// The character wanted.
    pub wanted: String,
    /// What stands for it.
    pub stands: Stands,
    /// Its box on the strip.
    pub place: LetterBox,
    /// Where the left end of its feet comes to lie on the page; `None` while the strip is not placed.
    pub on_page: Option<Point>,
    /// From the letter before on the same line; less than 0 where they overlap; `None` for the first of a line.
    pub gap: Option<Length>,
    /// Raised off its line.
    pub raise: Length,
    /// Tilted, clockwise positive.
    pub tilt: Angle,
}

/// What stands in a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stands {
    /// Nothing yet.
    Missing,
    /// A thing that is no sticker.
    Hand(String),
    /// A letter of the stash.
    Letter {
        /// The character on the sticker.
        character: String,
        /// The sheet by its tag, or by its name.
        sheet: String,
        /// Its form.
        form: Form,
        /// What its colour is called.
        colour: String,
        /// How it stands in for the character wanted.
        stands_in: Option<StandInKind>,
    },
}

/// The steps of a strip.
pub(super) fn steps(strip: &Strip, stash: &Stash) -> Vec<Step> {
    let layout = Layout::of(strip, stash);
    let first_of_line = |slot: usize| layout.lines.iter().any(|line| line.slots.start == slot);
    let step = |(slot, place): (usize, &LetterBox)| {
        let stood = strip.letter(slot);
        let before =
            slot.checked_sub(1).filter(|_| !first_of_line(slot)).map(|before| &layout.letters[before]);
        Step {
            number: slot + 1,
            wanted: strip.rules.wanted(&strip.wording().slots()[slot].character).spoken(),
            stands: stands(strip, slot, stash),
            place: *place,
            on_page: strip.place.on_page(place.left, place.feet),
            gap: before.map(|before| place.left - before.right()),
            raise: stood.map_or(Length::ZERO, |stood| stood.raise),
            tilt: stood.map_or(Angle::ZERO, |stood| stood.tilt),
        }
    };
    layout.letters.iter().enumerate().map(step).collect()
}

fn stands(strip: &Strip, slot: usize, stash: &Stash) -> Stands {
    match strip.letter(slot).map(|stood| &stood.sticker) {
        None => Stands::Missing,
        Some(Sticker::Hand(thing)) => Stands::Hand(thing.label.clone()),
        Some(Sticker::Chip { id, stands_in }) => match stash.find(id) {
            None => Stands::Missing,
            Some(ix) => letter(stash.chip(ix), *stands_in),
        },
    }
}

fn letter(chip: Chip<'_>, stands_in: Option<StandInKind>) -> Stands {
    Stands::Letter {
        character: chip.letter.character.spoken(),
        sheet: chip.sheet.label.tag.clone().unwrap_or_else(|| chip.sheet.name()),
        form: chip.sheet.make.form,
        colour: chip.colours()[0].name().into_owned(),
        stands_in,
    }
}
