//! A recount: rows about a sheet that the stash has.
//!
//! Must not know where rows come from.

use std::collections::BTreeMap;

use crate::measure::{ColourNames, Tint};
use crate::stash::{ChipId, HeightOf, Letter, Mark, Sheet};

use super::cells::Row;
use super::marks::{mark_of, spelled};
use super::{CsvColumn, CsvFault};

/// The rows of one sheet that was there, and the chips that they count.
#[derive(Debug)]
pub(super) struct Recount<'s> {
    sheet: &'s Sheet,
    names: &'s ColourNames,
    /// Each chip with its count and the line of its row.
    pub(super) counted: BTreeMap<ChipId, (u16, usize)>,
}

impl<'s> Recount<'s> {
    pub(super) fn of(sheet: &'s Sheet, names: &'s ColourNames) -> Self {
        Self { sheet, names, counted: BTreeMap::new() }
    }

    /// Takes a row in; what does not agree with the sheet is a fault, and the row is left out.
    pub(super) fn add(&mut self, row: &Row, faults: &mut Vec<CsvFault>) {
        let before = faults.len();
        self.agree(row, faults);
        let chip =
            self.chip(row).map_err(|(column, message)| faults.push(CsvFault::new(row.line, column, message)));
        let (Ok(chip), true) = (chip, faults.len() == before) else { return };
        if let Some((_, line)) = self.counted.get(&chip) {
            let message = format!("line {line} counts {chip} already; keep one of the two");
            faults.push(CsvFault::new(row.line, CsvColumn::Character, message));
            return;
        }
        self.counted.insert(chip, (row.letter.left, row.line));
    }

    /// Whether form and height are the sheet's.
    fn agree(&self, row: &Row, faults: &mut Vec<CsvFault>) {
        let (id, form, size) = (&self.sheet.id, self.sheet.make.form, &self.sheet.size);
        let mut tell = |column, found: &str, has: &str| {
            let message =
                format!("{found} here, and the sheet {id} has {has}; write that, or change its file first");
            faults.push(CsvFault::new(row.line, column, message));
        };
        if row.form != form {
            tell(CsvColumn::Form, row.form.as_str(), form.as_str());
        }
        if row.height != size.height {
            tell(CsvColumn::Height, &row.height.number(), &size.height.number());
        }
        if let Some(height_of) = row.height_of.filter(|of| *of != size.height_of) {
            tell(CsvColumn::HeightOf, height_of.as_str(), HeightOf::as_str(size.height_of));
        }
    }

    /// The chip that a row means: by its mark, else by its colours.
    fn chip(&self, row: &Row) -> Result<ChipId, (CsvColumn, String)> {
        let character = &row.letter.character;
        let of_it: Vec<&Letter> =
            self.sheet.letters.iter().filter(|letter| letter.character == *character).collect();
        let chip = |mark| ChipId { sheet: self.sheet.id.clone(), character: character.clone(), mark };
        let Some(mark) = &row.letter.mark else { return Ok(chip(self.mark_by_colour(row, &of_it)?)) };
        let chip = chip(Some(mark.clone()));
        match of_it.iter().find(|letter| letter.mark.as_ref() == Some(mark)) {
            Some(there) if !Tint::are_alike(self.colours(there), &row.colours) => {
                let has = spelled(self.colours(there), self.names);
                Err((CsvColumn::Colour, format!("{chip} is {has}; write that, or another mark")))
            }
            None if !Tint::are_alike(&self.sheet.paint.colours, &row.colours) => {
                Err(self.no_such(row, &of_it))
            }
            _ => Ok(chip),
        }
    }

    /// The mark of the one among `of_it` that has the row's colours; of several the one without a mark.
    fn mark_by_colour(&self, row: &Row, of_it: &[&Letter]) -> Result<Option<Mark>, (CsvColumn, String)> {
        let alike = of_it.iter().filter(|letter| Tint::are_alike(self.colours(letter), &row.colours));
        let marks: Vec<Option<&Mark>> = alike.map(|letter| letter.mark.as_ref()).collect();
        match marks.as_slice() {
            [] => self.mark_of_new(row, of_it),
            [only] => Ok(only.cloned()),
            several if several.contains(&None) => Ok(None),
            several => {
                let marks: Vec<&str> = several.iter().flatten().map(|mark| mark.as_str()).collect();
                let (character, marks) = (&row.letter.character, marks.join(", "));
                let message = format!(
                    "the sheet has several {character} in this colour; say which in a column mark: {marks}"
                );
                Err((CsvColumn::Character, message))
            }
        }
    }

    /// The mark of a letter that the sheet lacks. By itself it has the sheet's colours, so the row's must be these.
    fn mark_of_new(&self, row: &Row, of_it: &[&Letter]) -> Result<Option<Mark>, (CsvColumn, String)> {
        if !Tint::are_alike(&self.sheet.paint.colours, &row.colours) {
            return Err(self.no_such(row, of_it));
        }
        let has = |mark: Option<&Mark>| of_it.iter().any(|letter| letter.mark.as_ref() == mark);
        Ok(if has(None) { mark_of(&row.colours, self.names, |mark| has(Some(mark))) } else { None })
    }

    fn colours<'l>(&'l self, letter: &'l Letter) -> &'l [Tint] {
        if letter.colours.is_empty() { &self.sheet.paint.colours } else { &letter.colours }
    }

    /// That the sheet has no such letter in this colour, and in which it has it.
    fn no_such(&self, row: &Row, of_it: &[&Letter]) -> (CsvColumn, String) {
        let mut has: Vec<String> =
            of_it.iter().map(|letter| spelled(self.colours(letter), self.names)).collect();
        let own = spelled(&self.sheet.paint.colours, self.names);
        if !has.contains(&own) {
            has.push(own);
        }
        let (character, colour) = (&row.letter.character, spelled(&row.colours, self.names));
        let (id, has) = (&self.sheet.id, has.join(", "));
        let message = format!(
            "the sheet {id} has no {character} in {colour}, only in {has}; write that, or put the letter into its file first"
        );
        (CsvColumn::Colour, message)
    }
}
