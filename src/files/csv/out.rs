//! Writes a stash as a table: one row a chip, lines ended by CR LF (RFC 4180).
//!
//! Must not know where the table goes.

use csv::{Terminator, WriterBuilder};

use crate::measure::{ColourNames, Tint};
use crate::stash::{Form, HeightOf, Letter, Sheet};

use super::CsvColumn;
use super::marks::{Kind, main_colours, marks, spelled};

/// The table of `sheets`, in their order and that of their letters. The columns that may be missing are there only where
/// something would be lost without them.
#[must_use]
pub fn csv_text<'s>(sheets: impl IntoIterator<Item = &'s Sheet>, names: &ColourNames) -> String {
    let sheets: Vec<&Sheet> = sheets.into_iter().collect();
    let columns: Vec<CsvColumn> = CsvColumn::ALL
        .iter()
        .copied()
        .filter(|column| match column {
            CsvColumn::HeightOf => sheets.iter().any(|sheet| height_of(sheet) != HeightOf::Capital),
            CsvColumn::Mark => sheets.iter().any(|sheet| needs_marks(sheet, names)),
            _ => true,
        })
        .collect();
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    // Memory takes all that is written to it.
    let _ = writer.write_record(columns.iter().map(|column| column.as_str()));
    for sheet in sheets {
        for letter in &sheet.letters {
            let _ = writer.write_record(columns.iter().map(|column| cell(sheet, letter, *column, names)));
        }
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn cell(sheet: &Sheet, letter: &Letter, column: CsvColumn, names: &ColourNames) -> String {
    match column {
        CsvColumn::Sheet => sheet.id.to_string(),
        CsvColumn::Form => sheet.make.form.to_string(),
        CsvColumn::Height => sheet.size.height.number(),
        CsvColumn::Colour => spelled(colours(sheet, letter), names),
        CsvColumn::Character => letter.character.to_string(),
        CsvColumn::Left => letter.left.to_string(),
        CsvColumn::HeightOf if sheet.make.form == Form::Tile => String::new(),
        CsvColumn::HeightOf => height_of(sheet).to_string(),
        CsvColumn::Mark => letter.mark.as_ref().map_or_else(String::new, |mark| mark.as_str().to_owned()),
    }
}

fn colours<'s>(sheet: &'s Sheet, letter: &'s Letter) -> &'s [Tint] {
    if letter.colours.is_empty() { &sheet.paint.colours } else { &letter.colours }
}

/// Which letter was measured; a tile has no such thing.
fn height_of(sheet: &Sheet) -> HeightOf {
    if sheet.make.form == Form::Tile { HeightOf::Capital } else { sheet.size.height_of }
}

/// Whether letters of a sheet could not be told apart without their marks, or would get others.
fn needs_marks(sheet: &Sheet, names: &ColourNames) -> bool {
    if sheet.letters.iter().all(|letter| letter.mark.is_none() && letter.colours.is_empty()) {
        return false;
    }
    let letters = sheet.letters.iter();
    let kinds =
        letters.map(|one| Kind { character: &one.character, colours: colours(sheet, one), mark: None });
    let kinds: Vec<Kind<'_>> = kinds.collect();
    let made = marks(&kinds, main_colours(&kinds), names);
    let is_twin =
        |(place, kind): (usize, &Kind<'_>)| kinds[..place].iter().any(|other| kind.is_twin_of(other));
    kinds.iter().enumerate().any(is_twin)
        || sheet.letters.iter().zip(made).any(|(letter, made)| letter.mark != made)
}
