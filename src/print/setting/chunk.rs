//! What stays together on a sheet: a paragraph, an item, a row; moved, and parted where it is higher than a sheet.
//!
//! Must not know what it says.

use std::rc::Rc;

use super::super::sheet::{Mark, Piece, Sense};
use super::types::{ABOVE, BELOW};

/// Lengths that add up to the same, but for rounding.
pub(super) const HAIR: f64 = 1e-6;

/// Something set, in mm from its own upper left corner.
#[derive(Debug, Clone)]
pub(super) struct Chunk {
    /// Space above, but for a sheet's top.
    pub(super) before: f64,
    /// How high it is.
    pub(super) height: f64,
    /// Where its first line begins, and how high a line is: it is parted only between lines.
    pub(super) lines: (f64, f64),
    /// What is set. Rows of its cells are counted from its own first.
    pub(super) pieces: Vec<Piece>,
    /// Whether the next must be on the same sheet.
    pub(super) held: bool,
    /// What stands over it when it is the first on a sheet.
    pub(super) names: Option<Rc<Names>>,
    /// The part of the order that it belongs to.
    pub(super) part: Rc<str>,
}

/// The names of columns, repeated on each sheet that a table goes on to.
#[derive(Debug)]
pub(super) struct Names {
    pub(super) height: f64,
    pub(super) marks: Vec<Mark>,
}

impl Chunk {
    /// Of pieces whose lines are `line` mm high.
    pub(super) fn of(pieces: Vec<Piece>, height: f64, line: f64) -> Self {
        let part = Rc::from("");
        Self { before: 0.0, height, lines: (0.0, line), pieces, held: false, names: None, part }
    }

    /// With that much space above.
    pub(super) fn after(self, before: f64) -> Self {
        Self { before, ..self }
    }

    /// On one sheet with the next.
    pub(super) fn held(self) -> Self {
        Self { held: true, ..self }
    }

    /// As much as fits `room`, at least one line, and the rest; `None` where all is one line.
    pub(super) fn part_at(&self, room: f64) -> Option<(Self, Self)> {
        let (first, line) = self.lines;
        let mut cut = first + line;
        while cut + line <= room + HAIR {
            cut += line;
        }
        if cut >= self.height - line / 2.0 {
            return None;
        }
        let (mut upper, mut lower) = (Vec::new(), Vec::new());
        for piece in &self.pieces {
            let (above, below) = part_marks(&piece.marks, cut);
            let cell = matches!(piece.sense, Sense::Cell(_));
            if cell || !above.is_empty() {
                upper.push(Piece { sense: piece.sense.clone(), marks: above });
            }
            if cell || !below.is_empty() {
                lower.push(Piece { sense: piece.sense.clone(), marks: below });
            }
        }
        let upper = Self { height: cut, pieces: upper, held: false, ..self.clone() };
        let lower = Self {
            height: self.height - cut,
            pieces: lower,
            lines: (0.0, line),
            before: 0.0,
            ..self.clone()
        };
        Some((upper, lower))
    }

    /// Each of its items alone, and what else there is.
    pub(super) fn items(self) -> Vec<Self> {
        let mut items: Vec<Vec<Piece>> = Vec::new();
        for piece in self.pieces {
            match items.last_mut() {
                Some(last) if piece.sense == Sense::Item => last.push(piece),
                _ => items.push(vec![piece]),
            }
        }
        let alone = |pieces: Vec<Piece>| {
            let top = pieces
                .iter()
                .flat_map(|piece| &piece.marks)
                .map(|mark| reach(mark).0)
                .fold(f64::MAX, f64::min);
            let foot =
                pieces.iter().flat_map(|piece| &piece.marks).map(|mark| reach(mark).1).fold(top, f64::max);
            let up = |piece: Piece| {
                let marks = piece.marks.into_iter().map(|mark| moved(mark, 0.0, -top)).collect();
                Piece { sense: piece.sense, marks }
            };
            let pieces = pieces.into_iter().map(up).collect();
            Self::of(pieces, foot - top, foot - top).after(self.before)
        };
        items
            .into_iter()
            .filter(|pieces| pieces.iter().any(|piece| !piece.marks.is_empty()))
            .map(alone)
            .collect()
    }
}

/// What lies above `cut`, and what lies below, from there.
fn part_marks(marks: &[Mark], cut: f64) -> (Vec<Mark>, Vec<Mark>) {
    let (mut above, mut below) = (Vec::new(), Vec::new());
    for mark in marks {
        match mark {
            // An upright line goes on.
            Mark::Line { from, to, pen } if from.1 < cut && cut < to.1 => {
                above.push(Mark::Line { from: *from, to: (to.0, cut), pen: *pen });
                below.push(Mark::Line { from: (from.0, 0.0), to: (to.0, to.1 - cut), pen: *pen });
            }
            _ if reach(mark).1 <= cut + HAIR => above.push(mark.clone()),
            _ => below.push(moved(mark.clone(), 0.0, -cut)),
        }
    }
    (above, below)
}

/// How far down a mark begins and ends.
fn reach(mark: &Mark) -> (f64, f64) {
    match mark {
        Mark::Words(words) => (words.at.1 - ABOVE * words.size, words.at.1 + BELOW * words.size),
        Mark::Line { from, to, .. } => (from.1.min(to.1), from.1.max(to.1)),
        Mark::Shape(shape) => {
            let downs = shape.outline.iter().flatten().map(|at| at.1);
            downs.fold((f64::MAX, f64::MIN), |(top, foot), down| (top.min(down), foot.max(down)))
        }
    }
}

/// A mark that is nothing to a reader.
pub(super) fn ornament(mark: Mark) -> Piece {
    Piece { sense: Sense::Ornament, marks: vec![mark] }
}

/// `mark` moved.
pub(super) fn moved(mark: Mark, x: f64, y: f64) -> Mark {
    let at = |at: (f64, f64)| (at.0 + x, at.1 + y);
    match mark {
        Mark::Words(mut words) => {
            words.at = at(words.at);
            Mark::Words(words)
        }
        Mark::Line { from, to, pen } => Mark::Line { from: at(from), to: at(to), pen },
        Mark::Shape(mut shape) => {
            shape.outline.iter_mut().flatten().for_each(|corner| *corner = at(*corner));
            Mark::Shape(shape)
        }
    }
}
