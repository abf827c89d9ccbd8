//! The table of a strip's letters, its columns as wide as the paper lets them be.
//!
//! Must not know what the figures mean.

use std::rc::Rc;

use super::super::sheet::{Cell, Mark, Piece, Sense};
use super::super::told::{LetterRow, LetterTable, Row};
use super::chunk::{Chunk, Names};
use super::types::{FAINT, NAMES, NOTE, THIN, rule, swatches};

/// From a row's rule to its words.
const PAD: f64 = 0.7;
/// Between columns.
const APART: f64 = 2.0;
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
    let all = marks.iter().flatten().cloned();
    let names =
        Rc::new(Names { height: height + PAD, marks: all.chain([columns.rule(height, THIN)]).collect() });
    let mut heading = Chunk::of(columns.cells(marks, number, true), height + PAD, NAMES.line);
    if let Some(first) = heading.pieces.first_mut() {
        first.marks.push(columns.rule(height, THIN));
    }
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
        let mut wide: Vec<f64> = table.names().iter().map(|name| least(name)).collect();
        for row in &table.rows {
            let Row::Letter(letter) = row else { continue };
            for (wide, text) in wide.iter_mut().zip(texts(letter)) {
                *wide = wide.max(NOTE.width(text));
            }
        }
        wide[1] = wide[1].min(CHARACTER);
        wide[2] = wide[2].min(CHARACTER);
        let others: f64 =
            wide.iter().enumerate().filter(|(of, _)| *of != SOURCE).map(|(_, wide)| wide + APART).sum();
        let with_source = width - others >= SHEET;
        wide[SOURCE] = wide[SOURCE].clamp(SHEET, SHEET_WIDEST).min(width - others - MORE);
        let mut left = 0.0;
        let mut shown = Vec::new();
        for (of, width) in wide.into_iter().enumerate().filter(|(of, _)| with_source || *of != SOURCE) {
            shown.push(Column { of, left, width: width + MORE, to_right: of == 0 || of > SOURCE });
            left += width + APART;
        }
        let notes = shown.get(1).map_or(0.0, |column| column.left);
        Self { shown, notes, right: width }
    }

    fn names_source(&self) -> bool {
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
            first.insert(0, self.rule(0.0, FAINT));
        }
        let mut pieces = self.cells(cells, table, false);
        let notes = if self.names_source() {
            format!("{}; {}", letter.source, letter.notes)
        } else {
            letter.notes.clone()
        };
        let (mut marks, taken) = swatches(&letter.colours, self.notes, NOTE.foot(height));
        let left = self.notes + taken;
        let (words, further) = NOTE.set(&notes, (left, height), self.right - left);
        marks.extend(words);
        pieces.push(self.across(marks, table, 1));
        let whole = height + further + PAD;
        Chunk { lines: (PAD, NOTE.line), ..Chunk::of(pieces, whole, NOTE.line) }
    }

    /// The row that begins another line of the strip.
    fn line(&self, title: &str, table: usize) -> Chunk {
        let (mut marks, height) = NAMES.set(title, (self.notes, PAD), self.right - self.notes);
        marks.insert(0, self.rule(0.0, FAINT));
        Chunk::of(vec![self.across(marks, table, 0)], height + 2.0 * PAD, NAMES.line)
    }

    /// A cell over all columns.
    fn across(&self, marks: Vec<Mark>, table: usize, row: usize) -> Piece {
        let spans = self.shown.len();
        Piece { sense: Sense::Cell(Cell { table, row, names: false, spans }), marks }
    }

    fn rule(&self, down: f64, pen: super::super::sheet::Pen) -> Mark {
        rule(0.0, self.right, down, pen)
    }
}

/// What stands in the columns.
fn texts(letter: &LetterRow) -> [&str; 8] {
    let [left, feet, gap, width] = letter.figures.each_ref().map(String::as_str);
    [&letter.number, &letter.wanted, &letter.used, &letter.source, left, feet, gap, width]
}

/// The width of a name's longest word: names are wrapped.
fn least(name: &str) -> f64 {
    name.split(' ').map(|word| NAMES.width(word)).fold(0.0, f64::max)
}
