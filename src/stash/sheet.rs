//! One alphabet's stickers as bought, and what is left of them.
//!
//! Must not know the other sheets.

use crate::letter::{Character, Face};
use crate::measure::{Length, Tint};

use super::{Finish, Form, HeightOf, Mark, SheetId};

/// A sheet: one design, one nominal height, part used.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its file's stem.
    pub id: SheetId,
    /// What people call it.
    pub label: Label,
    /// How its stickers are made.
    pub make: Make,
    /// How large they are.
    pub size: Size,
    /// Their colours.
    pub paint: Paint,
    /// What is left, in the file's order.
    pub letters: Vec<Letter>,
    /// What the program keeps about the file.
    pub record: Record,
}

/// What people call a sheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Label {
    /// A name; optional.
    pub name: Option<String>,
    /// What the owner wrote on the sheet.
    pub tag: Option<String>,
    /// Anything worth remembering.
    pub note: Option<String>,
    /// Set aside: its letters are kept, but not used for now.
    pub aside: bool,
}

/// How a sheet's stickers are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Make {
    /// Tile or die-cut.
    pub form: Form,
    /// Matte, foil, wood ...
    pub finish: Finish,
    /// The owner says that it goes with any page.
    pub neutral: bool,
    /// Script whose letters are made to join.
    pub joined: bool,
    /// Tiles whose print does not tell which way is up.
    pub plain_tile: bool,
}

/// How large a sheet's stickers are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Tile: of the tile. Die-cut: of the letter that `height_of` names.
    pub height: Length,
    /// Which letter of a die-cut sheet was measured.
    pub height_of: HeightOf,
    /// Width of the tiles; absent: as wide as high.
    pub tile_width: Option<Length>,
    /// Thickness of one sticker.
    pub thick: Option<Length>,
}

/// The colours of a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paint {
    /// The letters' colours, the main one first; never empty.
    pub colours: Vec<Tint>,
    /// A contrasting rim round a die-cut letter.
    pub outline: Option<Tint>,
    /// What a tile's letter is printed on.
    pub tile: Option<Tint>,
}

/// Letters of one kind on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Letter {
    /// The character it carries.
    pub character: Character,
    /// Tells it from others of the same character; `None` for the plain one.
    pub mark: Option<Mark>,
    /// How many are left: 0 to 999.
    pub left: u16,
    /// Measured width.
    pub width: Option<Length>,
    /// Measured height of this very sticker.
    pub height: Option<Length>,
    /// Its own colours; empty: the sheet's.
    pub colours: Vec<Tint>,
}

impl Letter {
    /// So many of a character, with nothing of their own.
    #[must_use]
    pub const fn plain(character: Character, mark: Option<Mark>, left: u16) -> Self {
        Self { character, mark, left, width: None, height: None, colours: Vec::new() }
    }
}

/// What the program keeps about a sheet's file.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Record {
    /// The last ledger entry that the counts include.
    pub as_of: Option<u32>,
    /// Earlier names of the file.
    pub was: Vec<SheetId>,
}

impl Sheet {
    /// The name, or else what can be seen: "teal tile 12 mm".
    #[must_use]
    pub fn name(&self) -> String {
        self.label.name.clone().unwrap_or_else(|| {
            let colour =
                self.paint.colours.first().map_or_else(String::new, |tint| format!("{} ", tint.name()));
            format!("{colour}{} {}", self.make.form, self.size.height.number())
        })
    }

    /// What was written on it, and its name: `07 Harbour blocks`.
    #[must_use]
    pub fn told(&self) -> String {
        match &self.label.tag {
            Some(tag) => format!("{tag} {}", self.name()),
            None => self.name(),
        }
    }

    /// Letters left in all.
    #[must_use]
    pub fn left(&self) -> u32 {
        self.letters.iter().map(|letter| u32::from(letter.left)).sum()
    }

    /// The height of a capital of a die-cut sheet, by the reference face's proportions where another letter was
    /// measured.
    #[must_use]
    pub fn capital_height(&self) -> Length {
        match self.size.height_of {
            HeightOf::Capital => self.size.height,
            HeightOf::Small => self.size.height.scale(1.0 / Face::reference().x_height()),
            HeightOf::Tall => self.size.height.scale(1.0 / Face::reference().ascender()),
        }
    }
}
