//! The table of a strip's letters, its columns as wide as the paper lets them be.
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
/// A character's column is no wider.
const CHARACTER: f64 = 11.0;
/// A column is that much wider than its words, which are measured again as they are set.
const MORE: f64 = 0.01;
/// The column of sheets is left out where it would be narrower: they are named below, then.
const SHEET: f64 = 24.0;
/// The column of sheets is no wider, so that the eye finds the figures of its row.
const SHEET_WIDEST: f64 = 70.0;

/// The table in `width` mm, the order's table of that number.
pub(super) fn table(table: &LetterTable, width: f64, number: usize) -> Vec<Chunk> {
    let columns = Columns::of(table, width);
    let (marks, height) = columns.row(&table.names(), NAMES);
    let names = Rc::new(Names { height, marks: marks.concat() });
    let heading = Chunk::of(columns.cells(marks, number, true), height, NAMES.line);
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
    /// Which of a row, with its left edge, its width, and whether it keeps to the right.
    shown: Vec<Column>,
    /// Where further lines of a row begin.
    notes: f64,
    right: f64,
}

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
        let (narrow, usual) = (widths(table, least), widths(table, |name| NAMES.width(name)));
        let others = |wide: &[f64]| -> f64 {
            let others = wide.iter().enumerate().filter(|(of, _)| *of != SOURCE);
            others.map(|(_, wide)| wide + APART).sum()
        };
        let roomy = width - others(&usual) >= SHEET;
        let mut wide = if roomy { usual } else { narrow };
        let others = others(&wide);
        let with_source = width - others >= SHEET;
        wide[SOURCE] = wide[SOURCE].clamp(SHEET, SHEET_WIDEST).min(width - others - MORE);
        let columns: Vec<(usize, f64)> =
            wide.into_iter().enumerate().filter(|(of, _)| with_source || *of != SOURCE).collect();
        let taken: f64 = columns.iter().map(|(_, wide)| wide + APART).sum();
        let apart = APART + ((width - taken) / 8.0).clamp(0.0, FURTHER);
        let mut left = 0.0;
        let mut shown = Vec::new();
        for (of, width) in columns {
            shown.push(Column { of, left, width: width + MORE, to_right: of == 0 || of > SOURCE });
            left += width + apart;
        }
        let notes = shown.get(1).map_or(0.0, |column| column.left);
        Self { shown, notes, right: width }
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

    fn cells(&self, cells: Vec<Vec<Mark>>, table: usize, names: bool) -> Vec<Piece> {
        let sense = Sense::Cell(Cell { table, row: 0, names, spans: 1 });
        cells.into_iter().map(|marks| Piece { sense: sense.clone(), marks }).collect()
    }

    fn letter(&self, letter: &LetterRow, table: usize) -> Chunk {
        let (mut cells, height) = self.row(&texts(letter), NOTE);
        if let Some(first) = cells.first_mut() {
            first.insert(0, self.rule());
        }
        let mut pieces = self.cells(cells, table, false);
        let source = if self.tells_source_below() { letter.source.as_str() } else { "" };
        let notes: Vec<&str> = [source, &letter.notes].into_iter().filter(|note| !note.is_empty()).collect();
        if notes.is_empty() {
            return rows(pieces, height + PAD);
        }
        let (mut marks, taken) = swatches(&letter.colours, self.notes, NOTE.foot(height));
        let left = self.notes + taken;
        let (words, further) = NOTE.set(&notes.join("; "), (left, height), self.right - left);
        marks.extend(words);
        pieces.push(self.across(marks, table, 1));
        rows(pieces, height + further + PAD)
    }

    /// The row that begins another line of the strip.
    fn line(&self, title: &str, table: usize) -> Chunk {
        let (mut marks, height) = NAMES.set(title, (self.notes, PAD), self.right - self.notes);
        marks.insert(0, self.rule());
        Chunk::of(vec![self.across(marks, table, 0)], height + 2.0 * PAD, NAMES.line)
    }

    /// A cell over all columns.
    fn across(&self, marks: Vec<Mark>, table: usize, row: usize) -> Piece {
        let spans = self.shown.len();
        Piece { sense: Sense::Cell(Cell { table, row, names: false, spans }), marks }
    }

    /// What parts it from the row above.
    fn rule(&self) -> Mark {
        rule(0.0, self.right, 0.0, FAINT)
    }
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

/// How wide each column's words are, with names as wide as `name` has them.
fn widths(table: &LetterTable, name: impl Fn(&str) -> f64) -> Vec<f64> {
    let mut wide: Vec<f64> = table.names().iter().map(|text| name(text)).collect();
    for row in &table.rows {
        let Row::Letter(letter) = row else { continue };
        for (wide, text) in wide.iter_mut().zip(texts(letter)) {
            *wide = wide.max(NOTE.width(text));
        }
    }
    for character in &mut wide[1..SOURCE] {
        *character = character.min(CHARACTER);
    }
    wide
}

/// The width of a name's longest word: names are wrapped.
fn least(name: &str) -> f64 {
    name.split(' ').map(|word| NAMES.width(word)).fold(0.0, f64::max)
}
