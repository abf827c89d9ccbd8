//! The table of a strip's letters, its columns as wide as the paper lets them be: what else there is to know of a letter has a
//! column of its own, or else stands below its row.
//!
//! Must not know what the figures mean.

use std::rc::Rc;

use super::super::sheet::{Cell, Mark, Piece, Sense};
use super::super::told::{LetterRow, LetterTable, Row};
use super::chunk::{Chunk, Names};
use super::types::{FAINT, NAMES, NOTE, rule, swatches};

/// From a row's rule to its words.
const PAD: f64 = 0.7;
/// Between columns, and how much more where there is room.
const APART: f64 = 2.0;
const FURTHER: f64 = 4.0;
/// A character's column is no wider than this, or than this share of the table: one that the faces lack is named by its code.
const CHARACTER: f64 = 11.0;
const CHARACTER_SHARE: f64 = 0.09;
/// A column is that much wider than its words, which are measured again as they are set.
const MORE: f64 = 0.01;
/// The column of sheets is left out where it would be narrower: they are named below, then.
const SHEET: f64 = 24.0;
/// The column of sheets is no wider, so that the eye finds the figures of its row.
const SHEET_WIDEST: f64 = 70.0;
/// What else there is to know has no column where it would be narrower.
const WHAT: f64 = 45.0;
/// Names of columns are wrapped only where that column would be narrower than this, and than its words.
const WHAT_EASY: f64 = 60.0;

/// The table in `width` mm, the order's table of that number.
pub(super) fn table(table: &LetterTable, width: f64, number: usize) -> Vec<Chunk> {
    let columns = Columns::of(table, width);
    let (mut marks, height) = columns.row(&table.names(), NAMES);
    if let Some((left, width)) = columns.what {
        marks.push(NAMES.set("what", (left, PAD), width).0);
    }
    let names = Rc::new(Names { height, marks: marks.concat() });
    let heading = Chunk::of(cells(marks, number, true), height, NAMES.line);
    let mut chunks = vec![heading.after(1.0).held()];
    for row in &table.rows {
        let chunk = match row {
            Row::Line(title) => columns.line(title, number).held(),
            Row::Letter(letter) => columns.letter(letter, number),
        };
        chunks.push(Chunk { names: Some(Rc::clone(&names)), ..chunk });
    }
    chunks
}

/// The columns that are shown.
struct Columns {
    shown: Vec<Column>,
    /// Left edge and width of the column of what else there is to know; `None`: it stands below.
    what: Option<(f64, f64)>,
    /// Where further lines of a row begin.
    notes: f64,
    right: f64,
}

/// A column: which of a row, its left edge, its width, and whether it keeps to the right.
struct Column {
    of: usize,
    left: f64,
    width: f64,
    to_right: bool,
}

/// The column of sheets.
const SOURCE: usize = 3;

impl Columns {
    fn of(table: &LetterTable, width: f64) -> Self {
        let most = CHARACTER.max(CHARACTER_SHARE * width);
        let (narrow, usual) = (widths(table, most, least), widths(table, most, |name| NAMES.width(name)));
        let natural = what_width(table);
        // What is left for the sheets and, with another column, for what else there is to know.
        let spare = |wide: &[f64]| width - others(wide);
        let source = narrow[SOURCE].clamp(SHEET, SHEET_WIDEST);
        let with_what = natural > 0.0 && spare(&narrow) >= SHEET + APART + WHAT.min(natural);
        let kept = if with_what { APART + WHAT.min(natural) } else { 0.0 };
        let wanted = if with_what { source + APART + WHAT_EASY.min(natural) } else { SHEET };
        let mut wide = if spare(&usual) >= wanted { usual } else { narrow };
        let spare = spare(&wide);
        let with_source = spare >= SHEET;
        wide[SOURCE] = source.min(spare - kept - MORE);
        let what = with_what.then(|| (spare - APART - wide[SOURCE] - MORE).min(natural));
        let columns: Vec<(usize, f64)> =
            wide.into_iter().enumerate().filter(|(of, _)| with_source || *of != SOURCE).collect();
        let taken: f64 = columns.iter().map(|(_, wide)| wide + APART).sum::<f64>() + what.unwrap_or(0.0);
        let apart = APART + ((width - taken) / 8.0).clamp(0.0, FURTHER);
        let mut left = 0.0;
        let mut shown = Vec::new();
        for (of, width) in columns {
            shown.push(Column { of, left, width: width + MORE, to_right: of == 0 || of > SOURCE });
            left += width + apart;
        }
        let notes = shown.get(1).map_or(0.0, |column| column.left);
        Self { shown, what: what.map(|what| (left, what + MORE)), notes, right: width }
    }

    fn tells_source_below(&self) -> bool {
        self.shown.iter().all(|column| column.of != SOURCE)
    }

    /// The marks of each cell, and how high the row is.
    fn row(&self, texts: &[impl AsRef<str>], face: super::types::Type) -> (Vec<Vec<Mark>>, f64) {
        let mut height = 0.0_f64;
        let mut cells = Vec::with_capacity(self.shown.len());
        for column in &self.shown {
            let (text, at) = (texts[column.of].as_ref(), (column.left, PAD));
            let (marks, high) = if column.to_right {
                face.set_right(text, at, column.width)
            } else {
                face.set(text, at, column.width)
            };
            height = height.max(high);
            cells.push(marks);
        }
        (cells, PAD + height)
    }

    fn letter(&self, letter: &LetterRow, table: usize) -> Chunk {
        let (mut marks, height) = self.row(&texts(letter), NOTE);
        if let Some(first) = marks.first_mut() {
            first.insert(0, self.rule());
        }
        if let Some((left, width)) = self.what {
            let (what, high) = notes(letter, &letter.notes, (left, PAD), width);
            marks.push(what);
            return rows(cells(marks, table, false), height.max(PAD + high) + PAD);
        }
        let mut pieces = cells(marks, table, false);
        let source = if self.tells_source_below() { letter.source.as_str() } else { "" };
        let told: Vec<&str> = [source, &letter.notes].into_iter().filter(|note| !note.is_empty()).collect();
        if told.is_empty() {
            return rows(pieces, height + PAD);
        }
        let (marks, high) = notes(letter, &told.join("; "), (self.notes, height), self.right - self.notes);
        pieces.push(self.across(marks, table, 1));
        rows(pieces, height + high + PAD)
    }

    /// The row that begins another line of the strip.
    fn line(&self, title: &str, table: usize) -> Chunk {
        let (mut marks, height) = NAMES.set(title, (self.notes, PAD), self.right - self.notes);
        marks.insert(0, self.rule());
        Chunk::of(vec![self.across(marks, table, 0)], height + 2.0 * PAD, NAMES.line)
    }

    /// A cell over all columns.
    fn across(&self, marks: Vec<Mark>, table: usize, row: usize) -> Piece {
        let spans = self.shown.len() + usize::from(self.what.is_some());
        Piece { sense: Sense::Cell(Cell { table, row, names: false, spans }), marks }
    }

    /// What parts it from the row above.
    fn rule(&self) -> Mark {
        rule(0.0, self.right, 0.0, FAINT)
    }
}

/// `text` behind the letter's colours, and how high it is.
fn notes(letter: &LetterRow, text: &str, (left, top): (f64, f64), room: f64) -> (Vec<Mark>, f64) {
    if text.is_empty() {
        return (Vec::new(), 0.0);
    }
    let (mut marks, taken) = swatches(&letter.colours, left, NOTE.foot(top));
    let (words, height) = NOTE.set(text, (left + taken, top), room - taken);
    marks.extend(words);
    (marks, height)
}

/// The cells of a row.
fn cells(cells: Vec<Vec<Mark>>, table: usize, names: bool) -> Vec<Piece> {
    let sense = Sense::Cell(Cell { table, row: 0, names, spans: 1 });
    cells.into_iter().map(|marks| Piece { sense: sense.clone(), marks }).collect()
}

/// What belongs to one letter.
fn rows(pieces: Vec<Piece>, height: f64) -> Chunk {
    Chunk { lines: (PAD, NOTE.line), ..Chunk::of(pieces, height, NOTE.line) }
}

/// What stands in the columns.
fn texts(letter: &LetterRow) -> [&str; 8] {
    let [left, feet, gap, width] = letter.figures.each_ref().map(String::as_str);
    [&letter.number, &letter.wanted, &letter.used, &letter.source, left, feet, gap, width]
}

/// How wide each column's words are, those of characters at `most`, with names as wide as `name` has them.
fn widths(table: &LetterTable, most: f64, name: impl Fn(&str) -> f64) -> Vec<f64> {
    let mut wide: Vec<f64> = table.names().iter().map(|text| name(text)).collect();
    for row in &table.rows {
        let Row::Letter(letter) = row else { continue };
        for (wide, text) in wide.iter_mut().zip(texts(letter)) {
            *wide = wide.max(NOTE.width(text));
        }
    }
    for character in &mut wide[1..SOURCE] {
        *character = character.min(most);
    }
    wide
}

/// How wide the columns beside that of the sheets are, with the space after each.
fn others(wide: &[f64]) -> f64 {
    wide.iter().enumerate().filter(|(of, _)| *of != SOURCE).map(|(_, wide)| wide + APART).sum()
}

/// How wide all that there is to know of a letter is on one line, at the most; 0 where there is nothing.
fn what_width(table: &LetterTable) -> f64 {
    let wide = |row: &Row| match row {
        Row::Letter(letter) if !letter.notes.is_empty() => {
            swatches(&letter.colours, 0.0, 0.0).1 + NOTE.width(&letter.notes)
        }
        Row::Letter(_) | Row::Line(_) => 0.0,
    };
    table.rows.iter().map(wide).fold(0.0, f64::max)
}

/// The width of a name's longest word: names are wrapped.
fn least(name: &str) -> f64 {
    name.split(' ').map(|word| NAMES.width(word)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(notes: &[&str]) -> LetterTable {
        let letter = |notes: &&str| {
            Row::Letter(Box::new(LetterRow {
                number: "7".into(),
                wanted: "A".into(),
                used: "V".into(),
                source: "37: Harbour blocks".into(),
                figures: ["120.5", "191.0", "1.5", "~12.6"].map(String::from),
                colours: Vec::new(),
                notes: (*notes).into(),
            }))
        };
        LetterTable { unit: "mm", rows: notes.iter().map(letter).collect() }
    }

    /// How high each row is, in lines.
    #[expect(clippy::cast_possible_truncation, reason = "a few")]
    fn lines(chunks: &[Chunk]) -> Vec<i64> {
        chunks[1..].iter().map(|chunk| ((chunk.height - 2.0 * PAD) / NOTE.line).round() as i64).collect()
    }

    fn spans(chunk: &Chunk) -> Vec<usize> {
        let cells = chunk.pieces.iter();
        cells
            .filter_map(|piece| if let Sense::Cell(cell) = piece.sense { Some(cell.spans) } else { None })
            .collect()
    }

    #[test]
    fn what_else_there_is_to_know_has_a_column_where_it_has_room() {
        let long = "die-cut, teal; ".repeat(8);
        let table = of(&["die-cut, teal", "", &long]);
        let wide = super::table(&table, 190.0, 0);
        assert_eq!(spans(&wide[0]), [1; 9]);
        assert_eq!(spans(&wide[2]), [1; 9], "an empty cell is a cell");
        assert_eq!(lines(&wide)[..2], [1, 1]);
        assert!(lines(&wide)[2] > 1, "long notes wrap in their column");
        let narrow = super::table(&table, 105.0, 0);
        assert_eq!(spans(&narrow[1]).last(), Some(&spans(&narrow[0]).len()), "below, over all columns");
        assert_eq!(lines(&narrow)[0], 2);
    }

    #[test]
    fn where_there_is_nothing_else_to_know_no_column_is_kept_for_it() {
        assert_eq!(spans(&super::table(&of(&[""]), 190.0, 0)[0]), [1; 8]);
    }
}
