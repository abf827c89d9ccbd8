//! A sheet of paper with what is set on it: words and drawings, in millimetres from its upper left corner, y down.
//!
//! Must not know what an order is, nor in which form a sheet is written.

use std::borrow::Cow;

use crate::measure::{Colour, Polygon, Size};

use super::direction::as_seen;
use super::face::Face;

/// A sheet of paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its size as it is set: a template may lie across, wider than high.
    pub size: Size,
    /// What it holds, in a few words: `what to pull`, `template of the title, part 1 of 2`.
    pub told: String,
    /// What is set on it, in the order in which it is read.
    pub pieces: Vec<Piece>,
}

/// What is set on a sheet and belongs together: a paragraph, a cell of a table, a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// What it is to a reader.
    pub sense: Sense,
    /// What is printed.
    pub marks: Vec<Mark>,
}

/// What a piece is to a reader who hears it instead of seeing it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sense {
    /// The title of the whole.
    Title,
    /// The heading of a part.
    Heading,
    /// The heading of a part of a part.
    Subheading,
    /// A paragraph.
    Paragraph,
    /// The bullet or number in front of an item of a list; items that follow each other are one list.
    Bullet,
    /// What stands behind a bullet.
    Item,
    /// A cell of a table.
    Cell(Cell),
    /// A drawing, with the words that stand in for it.
    Drawing(String),
    /// Nothing to a reader: rules, repeated headings, the number of the sheet.
    Ornament,
}

/// Where a cell stands. Cells of one table follow each other row by row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// Which table of the order, from 0.
    pub table: usize,
    /// Its row, from 0.
    pub row: usize,
    /// Whether it names its column.
    pub names: bool,
    /// How many columns it spans, at least 1.
    pub spans: usize,
}

/// Something printed.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// Words on one line.
    Words(Words),
    /// Closed outlines, taken together by the non-zero rule.
    Shape(Shape),
    /// A straight line.
    Line {
        /// One end.
        from: (f64, f64),
        /// The other.
        to: (f64, f64),
        /// How it is drawn.
        pen: Pen,
    },
}

/// Words on one line, in black.
#[derive(Debug, Clone, PartialEq)]
pub struct Words {
    /// The left end of the line they stand on.
    pub at: (f64, f64),
    /// The size of the face, in mm.
    pub size: f64,
    /// The face.
    pub face: Face,
    /// The words; every character is one that the face has.
    pub text: String,
}

/// Closed outlines.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Their corners.
    pub outline: Vec<Polygon>,
    /// How they are filled, if at all.
    pub fill: Option<Colour>,
    /// How their edges are drawn, if at all.
    pub pen: Option<Pen>,
}

/// How a line is drawn, in black or grey.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// How wide, in mm.
    pub width: f64,
    /// Lengths of a dash and of the space after it, in mm; `None`: unbroken.
    pub dash: Option<(f64, f64)>,
    /// From 0, black, to 1, white.
    pub grey: f64,
}

impl Words {
    /// How wide they are, in mm.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.face.width(&self.text, self.size)
    }

    /// The words in the order in which their marks stand from left to right. It differs from `text`, the order in which they
    /// are read, where letters run from right to left.
    #[must_use]
    pub fn as_seen(&self) -> Cow<'_, str> {
        as_seen(&self.text)
    }
}
