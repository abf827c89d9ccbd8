//! The cells of one row, each read by itself.
//!
//! Must not know other rows or the stash.

use csv::StringRecord;

use crate::letter::Character;
use crate::measure::{ColourNames, Length, Tint, Unit};
use crate::stash::{Form, HeightOf, MOST_LEFT, Mark};
use crate::words::nearest;

use super::marks::{BETWEEN, Kind};
use super::table::Table;
use super::{CsvColumn, CsvFault};

/// A row whose cells can be read.
#[derive(Debug)]
pub(super) struct Row {
    /// The line on which it begins.
    pub(super) line: usize,
    /// The sheet as the row calls it.
    pub(super) sheet: String,
    pub(super) form: Form,
    pub(super) height: Length,
    pub(super) height_of: Option<HeightOf>,
    pub(super) colours: Vec<Tint>,
    pub(super) letter: RowLetter,
}

/// The letter of a row.
#[derive(Debug)]
pub(super) struct RowLetter {
    pub(super) character: Character,
    pub(super) mark: Option<Mark>,
    pub(super) left: u16,
}

impl Row {
    /// Its letter as the table tells it from others.
    pub(super) const fn kind(&self) -> Kind<'_> {
        Kind {
            character: &self.letter.character,
            colours: self.colours.as_slice(),
            mark: self.letter.mark.as_ref(),
        }
    }
}

/// Reads a row; every cell that cannot be read is a fault, and the row is `None` then.
pub(super) fn read(
    table: &Table,
    (line, row): &(usize, StringRecord),
    names: &ColourNames,
    faults: &mut Vec<CsvFault>,
) -> Option<Row> {
    let mut cells = Cells { table, line: *line, row, faults };
    let sheet = cells.needed(CsvColumn::Sheet, "the sheet's name", |cell| Ok(cell.to_owned()));
    let form = cells.needed(CsvColumn::Form, "tile or die-cut", |cell| word(cell, Form::ALL, Form::as_str));
    let height = cells.needed(CsvColumn::Height, "one such as 12 mm", |cell| {
        let height = Length::parse(cell, Unit::Millimetre).and_then(Length::as_size);
        height.map_err(|error| error.to_string())
    });
    let colours = cells.needed(CsvColumn::Colour, "one such as teal", |cell| {
        cell.split(BETWEEN).map(|name| names.read(name)).collect::<Result<Vec<Tint>, String>>()
    });
    let character = cells.needed(CsvColumn::Character, "the letter on the sticker", |cell| {
        Character::new(cell).map_err(|error| error.to_string())
    });
    let left = cells.needed(CsvColumn::Left, "0 where none is left", count);
    let height_of = cells.optional(CsvColumn::HeightOf, |cell| match form {
        Some(Form::Tile) => Err("this is told of die-cut letters; leave it empty for a tile".into()),
        _ => word(cell, HeightOf::ALL, HeightOf::as_str),
    });
    let mark = cells.optional(CsvColumn::Mark, |cell| Mark::new(cell).map_err(|error| error.to_string()));
    let (height_of, mark) = (height_of?, mark?);
    let letter = RowLetter { character: character?, mark, left: left? };
    Some(Row {
        line: *line,
        sheet: sheet?,
        form: form?,
        height: height?,
        height_of,
        colours: colours?,
        letter,
    })
}

/// The cells of one row, and the faults found in them.
struct Cells<'c> {
    table: &'c Table,
    line: usize,
    row: &'c StringRecord,
    faults: &'c mut Vec<CsvFault>,
}

impl Cells<'_> {
    /// Reads a cell that must not be empty; `would_do` says what stands there.
    fn needed<T>(
        &mut self,
        column: CsvColumn,
        would_do: &str,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        if self.table.cell(self.row, column).is_none() {
            self.tell(column, &format!("this cell is empty; write {would_do}"));
            return None;
        }
        self.optional(column, read).flatten()
    }

    /// Reads a cell that may be empty: `Some(None)` then. `None` where it cannot be read.
    #[expect(clippy::option_option, reason = "told, absent or wrong")]
    fn optional<T>(
        &mut self,
        column: CsvColumn,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<Option<T>> {
        match self.table.cell(self.row, column).map(read) {
            None => Some(None),
            Some(Ok(value)) => Some(Some(value)),
            Some(Err(message)) => {
                self.tell(column, &message);
                None
            }
        }
    }

    fn tell(&mut self, column: CsvColumn, message: &str) {
        self.faults.push(CsvFault::new(self.line, column, message));
    }
}

/// One word of a closed set.
fn word<T: Copy>(cell: &str, all: &[T], spelled: impl Fn(T) -> &'static str) -> Result<T, String> {
    let words = || all.iter().map(|one| spelled(*one));
    all.iter().copied().find(|one| spelled(*one) == cell).ok_or_else(|| {
        let hint = nearest(cell, words()).map_or_else(String::new, |near| format!("; did you mean {near}?"));
        format!("{cell:?} is none of {}{hint}", words().collect::<Vec<_>>().join(", "))
    })
}

fn count(cell: &str) -> Result<u16, String> {
    let whole = cell.bytes().all(|byte| byte.is_ascii_digit()).then(|| cell.parse().ok()).flatten();
    whole
        .filter(|count| *count <= MOST_LEFT)
        .ok_or_else(|| format!("{cell:?} is no count; write a whole number from 0 to {MOST_LEFT}"))
}
