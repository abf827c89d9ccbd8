//! What can be told of a sheet, field by field: how each is shown, stepped and read.
//!
//! Must not know how a field is drawn or where a sheet is kept.

use crate::measure::{ColourNames, Length, Tint, Unit};
use crate::stash::{Finish, Form, HeightOf, Sheet};

use super::thing_place::spell_length;
use super::update::after;

/// A field of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// Tile or die-cut.
    Form,
    /// How high.
    Height,
    /// Which letter that was measured of.
    HeightOf,
    /// How wide a tile is.
    TileWidth,
    /// What it is made of.
    Finish,
    /// The letters' colours.
    Colour,
    /// What a tile's letter is printed on.
    TileColour,
    /// The rim of a die-cut letter.
    Outline,
    /// The owner's number for it.
    Tag,
    /// What it is called.
    Name,
    /// Whether a tile can be turned.
    PlainTile,
    /// Whether it goes with any page.
    Neutral,
    /// Whether its letters are made to join.
    Joined,
    /// How thick a sticker is.
    Thick,
    /// Whether it is set aside.
    Aside,
    /// Anything worth remembering.
    Note,
}

impl Field {
    /// Every field, in the order in which they are listed.
    pub const ALL: [Self; 16] = [
        Self::Form,
        Self::Height,
        Self::HeightOf,
        Self::TileWidth,
        Self::Finish,
        Self::Colour,
        Self::TileColour,
        Self::Outline,
        Self::Tag,
        Self::Name,
        Self::PlainTile,
        Self::Neutral,
        Self::Joined,
        Self::Thick,
        Self::Aside,
        Self::Note,
    ];

    /// Its name on the screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Form => "form",
            Self::Height => "height",
            Self::HeightOf => "height of",
            Self::TileWidth => "tile width",
            Self::Finish => "finish",
            Self::Colour => "colour",
            Self::TileColour => "tile colour",
            Self::Outline => "outline",
            Self::Tag => "tag",
            Self::Name => "name",
            Self::PlainTile => "plain tile",
            Self::Neutral => "neutral",
            Self::Joined => "joined",
            Self::Thick => "thick",
            Self::Aside => "set aside",
            Self::Note => "note",
        }
    }

    /// What to type, in a few words.
    #[must_use]
    pub const fn prompt(self) -> &'static str {
        match self {
            Self::Height => "Height, as measured (such as: 12 mm; 3/4 in)",
            Self::TileWidth => "Width of a tile (nothing: as wide as high)",
            Self::Colour => "Colours of the letters, the main one first (such as: teal, white)",
            Self::TileColour => "Colour of the tile (nothing: not told)",
            Self::Outline => "Colour of the rim (nothing: no rim)",
            Self::Tag => "What is written on the sheet (nothing: no tag)",
            Self::Name => "What the sheet is called (nothing: by what can be seen)",
            Self::Thick => "Thickness of a sticker (nothing: not told)",
            Self::Note => "Anything worth remembering",
            Self::Form
            | Self::HeightOf
            | Self::Finish
            | Self::PlainTile
            | Self::Neutral
            | Self::Joined
            | Self::Aside => self.label(),
        }
    }

    /// Whether a sheet of this form has it.
    #[must_use]
    pub const fn is_of(self, form: Form) -> bool {
        match self {
            Self::TileWidth | Self::TileColour | Self::PlainTile => matches!(form, Form::Tile),
            Self::HeightOf | Self::Outline => matches!(form, Form::DieCut),
            _ => true,
        }
    }

    /// What the sheet has there, as it is typed; nothing: not told.
    #[must_use]
    pub fn spell(self, sheet: &Sheet, names: &ColourNames, unit: Unit) -> String {
        let size = |length: Length| spell_length(length, unit);
        let tint = |tint: &Option<Tint>| tint.as_ref().map(|tint| names.spell(tint));
        let flag = |is: bool| Some(if is { "yes" } else { "no" }.to_owned());
        let told = match self {
            Self::Form => Some(sheet.make.form.to_string()),
            Self::Height => Some(sheet.size.height).filter(|height| *height > Length::ZERO).map(size),
            Self::HeightOf => Some(sheet.size.height_of.to_string()),
            Self::TileWidth => sheet.size.tile_width.map(size),
            Self::Finish => Some(sheet.make.finish.to_string()),
            Self::Colour => {
                let each: Vec<String> = sheet.paint.colours.iter().map(|tint| names.spell(tint)).collect();
                Some(each.join(", "))
            }
            Self::TileColour => tint(&sheet.paint.tile),
            Self::Outline => tint(&sheet.paint.outline),
            Self::Tag => sheet.label.tag.clone(),
            Self::Name => sheet.label.name.clone(),
            Self::Note => sheet.label.note.clone(),
            Self::PlainTile => flag(sheet.make.plain_tile),
            Self::Neutral => flag(sheet.make.neutral),
            Self::Joined => flag(sheet.make.joined),
            Self::Aside => flag(sheet.label.aside),
            Self::Thick => sheet.size.thick.map(size),
        };
        told.unwrap_or_default()
    }

    /// Goes to the next of the few things that the field can be; `false` where it is typed instead.
    pub fn step(self, sheet: &mut Sheet, forward: bool) -> bool {
        match self {
            Self::Form => {
                sheet.make.form = beside(Form::ALL, sheet.make.form, forward);
                drop_what_is_of_the_other(sheet);
            }
            Self::HeightOf => sheet.size.height_of = beside(HeightOf::ALL, sheet.size.height_of, forward),
            Self::Finish => sheet.make.finish = beside(Finish::ALL, sheet.make.finish, forward),
            Self::PlainTile => sheet.make.plain_tile ^= true,
            Self::Neutral => sheet.make.neutral ^= true,
            Self::Joined => sheet.make.joined ^= true,
            Self::Aside => sheet.label.aside ^= true,
            _ => return false,
        }
        true
    }

    /// Reads what was typed.
    ///
    /// # Errors
    /// In words, what cannot be read; the sheet is as it was.
    pub fn read(self, sheet: &mut Sheet, text: &str, names: &ColourNames, unit: Unit) -> Result<(), String> {
        let text = text.trim();
        let size = || Length::parse(text, unit).and_then(Length::as_size).map_err(|error| error.to_string());
        let some_size = || if text.is_empty() { Ok(None) } else { size().map(Some) };
        let some_tint = || if text.is_empty() { Ok(None) } else { names.read(text).map(Some) };
        let words = || Some(crate::letter::normalise(text)).filter(|text| !text.is_empty());
        match self {
            Self::Height => sheet.size.height = size()?,
            Self::TileWidth => sheet.size.tile_width = some_size()?,
            Self::Thick => sheet.size.thick = some_size()?,
            Self::Colour => {
                let colours = names.read_several(text)?;
                if colours.is_empty() {
                    return Err("name at least one colour".into());
                }
                sheet.paint.colours = colours;
            }
            Self::TileColour => sheet.paint.tile = some_tint()?,
            Self::Outline => sheet.paint.outline = some_tint()?,
            Self::Tag => sheet.label.tag = words(),
            Self::Name => sheet.label.name = words(),
            Self::Note => sheet.label.note = words(),
            Self::Form
            | Self::HeightOf
            | Self::Finish
            | Self::PlainTile
            | Self::Neutral
            | Self::Joined
            | Self::Aside => {}
        }
        Ok(())
    }
}

/// The one after `now` or before it, all round.
fn beside<T: Copy + PartialEq>(all: &[T], now: T, forward: bool) -> T {
    if forward {
        return after(all, now);
    }
    let back: Vec<T> = all.iter().rev().copied().collect();
    after(&back, now)
}

/// What says nothing of the form that the sheet has now is not told any more.
fn drop_what_is_of_the_other(sheet: &mut Sheet) {
    match sheet.make.form {
        Form::Tile => {
            sheet.size.height_of = HeightOf::Capital;
            sheet.paint.outline = None;
        }
        Form::DieCut => {
            sheet.size.tile_width = None;
            sheet.paint.tile = None;
            sheet.make.plain_tile = false;
        }
    }
}
