//! How far the marks of a piece reach on their sheet.
//!
//! Must not know how they are written.

use crate::measure::Extent;
use crate::print::{Mark, Piece};

/// How far words reach over and under the line that they stand on, in sizes of their face: the faces' ascender and
/// descender, rounded outwards.
const OVER: f64 = 0.94;
const UNDER: f64 = 0.24;

/// In mm, y down; `None` without marks.
pub(super) fn reach(piece: &Piece) -> Option<Extent> {
    piece.marks.iter().filter_map(of_mark).reduce(Extent::and)
}

fn of_mark(mark: &Mark) -> Option<Extent> {
    match mark {
        Mark::Words(words) => {
            let (left, line) = words.at;
            Some(Extent {
                left,
                top: line - OVER * words.size,
                right: left + words.width(),
                bottom: line + UNDER * words.size,
            })
        }
        Mark::Shape(shape) => {
            let reach = Extent::of(&shape.outline)?;
            Some(wider(reach, shape.pen.map_or(0.0, |pen| pen.width / 2.0)))
        }
        Mark::Line { from, to, pen } => {
            Extent::of(&[vec![*from, *to]]).map(|reach| wider(reach, pen.width / 2.0))
        }
    }
}

fn wider(reach: Extent, by: f64) -> Extent {
    Extent { left: reach.left - by, top: reach.top - by, right: reach.right + by, bottom: reach.bottom + by }
}
