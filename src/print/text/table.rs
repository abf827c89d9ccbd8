//! The letters of a strip in columns of a fixed width: one row a letter, and what else there is to know below it.
//!
//! Must not know the rest of the order.

use super::super::column::{left, printable, right, width};
use super::super::told::{LetterRow, LetterTable};

/// Columns of a row's sheet, and of each of its lengths.
const SHEET: usize = 19;
const FIGURE: usize = 10;

/// Columns in front of a row's further lines.
pub(super) const INSET: usize = 15;

/// What stands over the columns.
pub(super) fn header(table: &LetterTable) -> String {
    let [no, wanted, used, source, figures @ ..] = table.names();
    row(&no, &wanted, &used, &source, &figures)
}

/// A letter: its row, then what else there is to know of it.
pub(super) fn told(letter: &LetterRow) -> (String, String) {
    let source = printable(&letter.source);
    let row = row(&letter.number, &letter.wanted, &letter.used, &source, &letter.figures);
    let notes =
        if width(&source) > SHEET { format!("{source}; {}", letter.notes) } else { letter.notes.clone() };
    (row, notes)
}

fn row(number: &str, wanted: &str, used: &str, source: &str, figures: &[String; 4]) -> String {
    let figures = figures.each_ref().map(|figure| right(figure, FIGURE)).join(" ");
    let (wanted, used) = (left(wanted, 4), left(used, 4));
    format!("{}  {wanted} {used} {} {figures}", right(number, 3), left(source, SHEET))
}
