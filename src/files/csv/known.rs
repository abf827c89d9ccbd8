//! A recount: rows about a sheet that the stash has.
//!
//! Must not know where rows come from.

use std::collections::BTreeMap;

use crate::measure::ColourNames;
use crate::stash::{ChipId, HeightOf, Letter, Sheet};

use super::cells::Row;
use super::marks::{are_alike, mark_of, spelled};
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
        let (character, mark) = (&row.letter.character, &row.letter.mark);
        let chip = |mark| ChipId { sheet: self.sheet.id.clone(), character: character.clone(), mark };
        let of_it: Vec<&Letter> =
            self.sheet.letters.iter().filter(|letter| letter.character == *character).collect();
        let mut alike = of_it.iter().filter(|letter| are_alike(self.colours(letter), &row.colours));
        if mark.is_some() {
            return match of_it.iter().find(|letter| letter.mark == *mark) {
                Some(there) if !are_alike(self.colours(there), &row.colours) => {
                    let has = spelled(self.colours(there), self.names);
                    let message = format!("{} is {has}; write that, or another mark", chip(mark.clone()));
                    Err((CsvColumn::Colour, message))
                }
                None if !are_alike(&self.sheet.paint.colours, &row.colours) => Err(self.no_such(row, &of_it)),
                _ => Ok(chip(mark.clone())),
            };
        }
        match (alike.clone().find(|letter| letter.mark.is_none()), alike.next(), alike.next()) {
            (Some(_), ..) => Ok(chip(None)),
            (None, Some(only), None) => Ok(chip(only.mark.clone())),
            (None, Some(_), Some(_)) => {
                let marks: Vec<&str> =
                    of_it.iter().filter_map(|letter| Some(letter.mark.as_ref()?.as_str())).collect();
                let marks = marks.join(", ");
                let message = format!(
                    "the sheet has several {character} in this colour; say which in a column mark: {marks}"
                );
                Err((CsvColumn::Character, message))
            }
            // One that the sheet never had; by itself in a file it would have the sheet's colours.
            (None, None, _) if !are_alike(&self.sheet.paint.colours, &row.colours) => {
                Err(self.no_such(row, &of_it))
            }
            (None, None, _) if of_it.iter().any(|letter| letter.mark.is_none()) => {
                let is_taken = |mark: &_| of_it.iter().any(|letter| letter.mark.as_ref() == Some(mark));
                Ok(chip(mark_of(&row.colours, self.names, is_taken)))
            }
            (None, None, _) => Ok(chip(None)),
        }
    }

    fn colours<'l>(&'l self, letter: &'l Letter) -> &'l [crate::measure::Tint] {
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
