//! A letter as lists tell it: what it carries, its colour, its sheet, its looks.
//!
//! Must not know how a list is drawn.

use crate::measure::{Colour, Unit};
use crate::stash::{Chip, Stash};
use crate::title::Sticker;

/// A letter in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LetterTold {
    /// What it carries.
    pub sign: String,
    /// Its colour; `None`: not known.
    pub colour: Option<Colour>,
    /// The sheet's tag and name, or what stands there instead.
    pub sheet: String,
    /// Colour, height and how it stands in: `teal 23 mm`.
    pub looks: String,
}

impl LetterTold {
    /// Tells what is stuck on.
    #[must_use]
    pub fn of(sticker: &Sticker, stash: &Stash, unit: Unit) -> Self {
        match sticker {
            Sticker::Hand(thing) => Self {
                sign: " ".into(),
                colour: thing.colour.as_ref().map(|tint| tint.colour),
                sheet: thing.label.clone(),
                looks: "by hand".into(),
            },
            Sticker::Chip { id, stands_in } => {
                let sign = id.character.spoken();
                match stash.find(id) {
                    None => Self { sign, colour: None, sheet: id.to_string(), looks: "is gone".into() },
                    Some(chip) => {
                        let chip = stash.chip(chip);
                        let how = stands_in.map_or_else(String::new, |kind| format!(", {kind}"));
                        Self {
                            sign,
                            colour: chip.colours().first().map(|tint| tint.colour),
                            sheet: chip.sheet.told(),
                            looks: format!("{}{how}", looks(chip, unit)),
                        }
                    }
                }
            }
        }
    }
}

/// What a letter looks like: `teal 23 mm`.
pub(super) fn looks(chip: Chip<'_>, unit: Unit) -> String {
    let colour = chip.colours().first().map_or_else(String::new, |tint| format!("{} ", tint.name()));
    format!("{colour}{}", crate::checks::tell_length(chip.shown_height(), unit))
}
