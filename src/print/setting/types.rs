//! How words are set: faces, sizes, the height of a line.
//!
//! Must not know what they say.

use crate::measure::Colour;

use super::super::face::{Face, wrap};
use super::super::sheet::{Mark, Pen, Shape, Words};

/// A way of setting words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Type {
    pub(super) face: Face,
    /// Of the face, in mm.
    pub(super) size: f64,
    /// From line to line, in mm.
    pub(super) line: f64,
}

pub(super) const TITLE: Type = Type { face: Face::Strong, size: 7.0, line: 9.8 };
pub(super) const PART: Type = Type { face: Face::Strong, size: 4.6, line: 6.4 };
pub(super) const NAME: Type = Type { face: Face::Plain, size: 4.6, line: 6.4 };
pub(super) const BODY: Type = Type { face: Face::Plain, size: 3.5, line: 4.9 };
pub(super) const STRONG: Type = Type { face: Face::Strong, ..BODY };
pub(super) const NOTE: Type = Type { face: Face::Plain, size: 3.0, line: 4.2 };
pub(super) const NAMES: Type = Type { face: Face::Strong, ..NOTE };
pub(super) const FOOT: Type = Type { face: Face::Plain, size: 2.6, line: 3.6 };

/// A thin line.
pub(super) const THIN: Pen = Pen { width: 0.2, dash: None, grey: 0.0 };
/// What parts the rows of a table.
pub(super) const FAINT: Pen = Pen { width: 0.15, dash: None, grey: 0.6 };
/// What must be seen.
pub(super) const HEAVY: Pen = Pen { width: 1.0, dash: None, grey: 0.0 };

/// The share of its size that the face rises above the line it stands on, and what it falls below (the font's own ascender and
/// descender).
pub(super) const ABOVE: f64 = 0.928;
pub(super) const BELOW: f64 = 0.236;

/// A box in a colour: its width, its height, and the space after it, in mm.
const SWATCH: (f64, f64, f64) = (3.6, 2.6, 1.2);

/// More would leave no room for their names.
const MOST_SWATCHES: usize = 5;

impl Type {
    /// Where words stand in a line whose top is at `top`.
    pub(super) fn foot(self, top: f64) -> f64 {
        top + (self.line - (ABOVE + BELOW) * self.size) / 2.0 + ABOVE * self.size
    }

    /// How wide `text` is, in mm.
    pub(super) fn width(self, text: &str) -> f64 {
        self.face.width(&Face::legible(text), self.size)
    }

    /// `text` in lines of at most `room` mm.
    pub(super) fn wrap(self, text: &str, room: f64) -> Vec<String> {
        wrap(&Face::legible(text), self.face, self.size, room)
    }

    /// One line with its top at `top`.
    pub(super) fn mark(self, text: String, left: f64, top: f64) -> Mark {
        Mark::Words(Words { at: (left, self.foot(top)), size: self.size, face: self.face, text })
    }

    /// `text` in lines of at most `room` mm from (`left`, `top`) on, and how high they are together.
    pub(super) fn set(self, text: &str, (left, top): (f64, f64), room: f64) -> (Vec<Mark>, f64) {
        self.lines(self.wrap(text, room), |_| left, top)
    }

    /// The same, each line up to the right edge of the room.
    pub(super) fn set_right(self, text: &str, (left, top): (f64, f64), room: f64) -> (Vec<Mark>, f64) {
        let start = |line: &str| left + (room - self.face.width(line, self.size)).max(0.0);
        self.lines(self.wrap(text, room), start, top)
    }

    fn lines(self, lines: Vec<String>, left: impl Fn(&str) -> f64, top: f64) -> (Vec<Mark>, f64) {
        let mut at = top;
        let mut marks = Vec::with_capacity(lines.len());
        for line in lines {
            let left = left(&line);
            marks.push(self.mark(line, left, at));
            at += self.line;
        }
        (marks, at - top)
    }
}

/// Boxes in `colours` beside words that stand on a line at `foot`, and how much room they take.
pub(super) fn swatches(colours: &[Colour], left: f64, foot: f64) -> (Vec<Mark>, f64) {
    let (width, height, space) = SWATCH;
    let mut at = left;
    let mut marks = Vec::with_capacity(colours.len());
    for &colour in colours.iter().take(MOST_SWATCHES) {
        let pen = Some(Pen { width: 0.15, ..THIN });
        let outline = vec![rect(at, foot - height, width, height)];
        marks.push(Mark::Shape(Shape { outline, fill: Some(colour), pen }));
        at += width + space;
    }
    (marks, at - left)
}

/// A box to tick.
pub(super) fn tick_box(left: f64, foot: f64) -> Mark {
    let side = 2.8;
    Mark::Shape(Shape { outline: vec![rect(left, foot - side, side, side)], fill: None, pen: Some(THIN) })
}

fn rect(left: f64, top: f64, width: f64, height: f64) -> Vec<(f64, f64)> {
    vec![(left, top), (left + width, top), (left + width, top + height), (left, top + height)]
}

/// A level line.
pub(super) fn rule(left: f64, right: f64, down: f64, pen: Pen) -> Mark {
    Mark::Line { from: (left, down), to: (right, down), pen }
}
