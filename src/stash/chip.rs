//! A chip: identical letters of one sheet, as a plan names them and as the eye sees them.
//!
//! Must not know where a letter stands.

use std::fmt;

use crate::letter::{Character, CharacterError, Face, StandIn, StandInKind, Turn, characters};
use crate::measure::{Length, Tint};

use super::{Form, Letter, Mark, Sheet, SheetId, SlugError};

/// How a plan names a chip: `sheet/character` or `sheet/character:mark`.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ChipId {
    /// The sheet.
    pub sheet: SheetId,
    /// The character.
    pub character: Character,
    /// The mark, where the sheet has several of that character.
    pub mark: Option<Mark>,
}

/// Why a text names no chip.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ChipIdError {
    /// No `/` in it.
    #[error("{0:?} names no chip; write sheet/letter, such as \"harbour-blocks/E\"")]
    NoSlash(String),
    /// The part before the `/` is no id.
    #[error(transparent)]
    Sheet(SlugError),
    /// What follows the `/` is no character.
    #[error(transparent)]
    Character(CharacterError),
    /// What follows the character is no mark.
    #[error("{0:?} ends in {1:?}; after the letter comes nothing, or a colon and a mark")]
    Tail(String, String),
}

impl ChipId {
    /// Reads `sheet/character` or `sheet/character:mark`.
    ///
    /// # Errors
    /// When there is no `/`, the sheet or mark is no id, or the character is none.
    pub fn parse(text: &str) -> Result<Self, ChipIdError> {
        let (sheet, rest) = text.split_once('/').ok_or_else(|| ChipIdError::NoSlash(text.into()))?;
        let sheet = SheetId::new(sheet).map_err(ChipIdError::Sheet)?;
        let first = characters(rest).next().unwrap_or_default();
        let character = Character::new(first).map_err(ChipIdError::Character)?;
        let tail = &rest[first.len()..];
        let mark = match tail.strip_prefix(':').map(Mark::new) {
            None if tail.is_empty() => None,
            Some(Ok(mark)) => Some(mark),
            _ => return Err(ChipIdError::Tail(text.into(), tail.into())),
        };
        Ok(Self { sheet, character, mark })
    }
}

impl fmt::Display for ChipId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.sheet, self.character)?;
        self.mark.as_ref().map_or(Ok(()), |mark| write!(f, ":{}", mark.as_str()))
    }
}

/// A chip's place in the stash that gave it out; means nothing in another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ChipIx(pub(super) u32);

impl ChipIx {
    /// The place as a whole number from 0, below [`super::Stash::len`].
    #[must_use]
    pub const fn get(self) -> usize {
        self.0 as usize
    }
}

/// A look at a chip: its letter, and the sheet that it is on.
#[derive(Debug, Clone, Copy)]
pub struct Chip<'a> {
    /// The sheet.
    pub sheet: &'a Sheet,
    /// The letter.
    pub letter: &'a Letter,
}

impl Sheet {
    /// How many are left of the letter that `chip` names, whatever sheet it names; 0 where there is no such letter.
    #[must_use]
    pub fn count_of(&self, chip: &ChipId) -> u16 {
        let is_it = |letter: &&Letter| letter.character == chip.character && letter.mark == chip.mark;
        self.letters.iter().find(is_it).map_or(0, |letter| letter.left)
    }
}

impl<'a> Chip<'a> {
    /// How a plan names it.
    #[must_use]
    pub fn id(self) -> ChipId {
        ChipId {
            sheet: self.sheet.id.clone(),
            character: self.letter.character.clone(),
            mark: self.letter.mark.clone(),
        }
    }

    /// How many may be taken: those that are left, but none of a sheet that is set aside.
    #[must_use]
    pub const fn on_hand(self) -> u16 {
        if self.sheet.label.aside { 0 } else { self.letter.left }
    }

    /// Whether it may stand in by `row` of the table: a turned tile must not tell which way is up; thick and soft letters cannot
    /// be trimmed, nor tiles.
    #[must_use]
    pub fn can_stand_in(self, row: &StandIn) -> bool {
        let make = self.sheet.make;
        match row.kind {
            StandInKind::Turned if row.turn.is_turned() => make.form == Form::DieCut || make.plain_tile,
            StandInKind::Trimmed => make.form == Form::DieCut && make.finish.can_be_trimmed(),
            _ => true,
        }
    }

    /// Its colours, the main one first; never empty.
    #[must_use]
    pub fn colours(self) -> &'a [Tint] {
        if self.letter.colours.is_empty() { &self.sheet.paint.colours } else { &self.letter.colours }
    }

    /// The height that the eye sees, upright: of a tile the tile's, of a die-cut the letter's own, from the feet
    /// (or, of a descender, from the line) to its top.
    #[must_use]
    pub fn shown_height(self) -> Length {
        match (self.letter.height, self.sheet.make.form) {
            (Some(measured), _) => measured,
            (None, Form::Tile) => self.sheet.size.height,
            (None, Form::DieCut) => {
                self.sheet.capital_height().scale(Face::reference().body(&self.letter.character))
            }
        }
    }

    /// Its width upright, and whether that is an estimate.
    #[must_use]
    pub fn width(self) -> (Length, bool) {
        match (self.letter.width, self.sheet.make.form) {
            (Some(measured), _) => (measured, false),
            (None, Form::Tile) => (self.sheet.size.tile_width.unwrap_or_else(|| self.shown_height()), false),
            (None, Form::DieCut) => {
                (self.face_scale().scale(Face::reference().width(&self.letter.character).ratio), true)
            }
        }
    }

    /// The height of a capital drawn to the scale of this very sticker: what the reference face's proportions are
    /// multiplied by.
    #[must_use]
    pub fn face_scale(self) -> Length {
        match self.letter.height {
            Some(measured) if self.sheet.make.form == Form::DieCut => {
                measured.scale(1.0 / Face::reference().body(&self.letter.character))
            }
            _ => self.sheet.capital_height(),
        }
    }

    /// The height that counts when it stands for `wanted`, turned by `turn`: a tile's is the tile's; a die-cut's is
    /// what it shows over the share of a capital that `wanted` has, so that an x-height letter is compared as if it
    /// were a capital.
    #[must_use]
    pub fn effective_height(self, wanted: &Character, turn: Turn) -> Length {
        let shown = if turn.is_sideways() { self.width().0 } else { self.shown_height() };
        match self.sheet.make.form {
            Form::Tile => shown,
            Form::DieCut => shown.scale(1.0 / Face::reference().body(wanted)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_read_back_as_written() {
        for text in ["harbour-blocks/E", "b2/&", "kelp/S:coral", "kelp//", "kelp/::x", "kelp/É"] {
            assert_eq!(ChipId::parse(text).map(|id| id.to_string()), Ok(text.into()));
        }
    }

    #[test]
    fn what_names_no_chip_is_told() {
        assert!(matches!(ChipId::parse("E"), Err(ChipIdError::NoSlash(_))));
        assert!(matches!(ChipId::parse("Kelp/E"), Err(ChipIdError::Sheet(_))));
        assert!(matches!(ChipId::parse("kelp/"), Err(ChipIdError::Character(_))));
        assert!(matches!(ChipId::parse("kelp/EE"), Err(ChipIdError::Tail(..))));
        assert!(matches!(ChipId::parse("kelp/E:Coral"), Err(ChipIdError::Tail(..))));
    }
}
