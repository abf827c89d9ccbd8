//! The check bars: two lengths to measure, so that a sheet printed at a wrong scale is found out before it is used.
//!
//! Must not know what else is on the sheet.

use super::clip::Dot;
use super::face::Face;
use super::sheet::{Mark, Pen, Piece, Sense, Words};

/// A bar's length in mm, and what it is called. An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
pub(super) const BARS: [(f64, &str); 2] = [(100.0, "100 mm"), (101.6, "4 in")];

/// How high both bars are with their words, one under the other.
pub(super) const HEIGHT: f64 = 15.0;

/// How wide they are.
pub(super) const WIDTH: f64 = 101.6;

const PEN: Pen = Pen { width: 0.25, dash: None, grey: 0.0 };
const TICK: f64 = 1.5;
const SIZE: f64 = 2.8;

/// Both bars under each other, in a room of [`WIDTH`] and [`HEIGHT`] whose upper left corner is `at`.
pub(super) fn check_bars(at: Dot) -> Vec<Piece> {
    let pieces = |(place, (length, called)): (usize, (f64, &str))| {
        let y = at.1 + HEIGHT - TICK - if place == 0 { HEIGHT / 2.0 } else { 0.0 };
        let text = format!("{called}: measure this before use");
        let words = Mark::Words(Words { at: (at.0, y - 2.2), size: SIZE, face: Face::Plain, text });
        let line = |from: Dot, to: Dot| Mark::Line { from, to, pen: PEN };
        let tick = |x: f64| line((x, y - TICK), (x, y + TICK));
        let bar = line((at.0, y), (at.0 + length, y));
        let told = format!("A line with a tick at each end, {called} long in print.");
        [
            Piece { sense: Sense::Paragraph, marks: vec![words] },
            Piece { sense: Sense::Drawing(told), marks: vec![bar, tick(at.0), tick(at.0 + length)] },
        ]
    };
    BARS.into_iter().enumerate().flat_map(pieces).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bars_are_as_long_as_they_say() {
        let pieces = check_bars((10.0, 260.0));
        let long: Vec<f64> = pieces
            .iter()
            .flat_map(|piece| &piece.marks)
            .filter_map(|mark| match mark {
                Mark::Line { from, to, .. } if (from.1 - to.1).abs() < 1e-12 => Some(to.0 - from.0),
                _ => None,
            })
            .collect();
        assert!((long[0] - 100.0).abs() < 1e-12 && (long[1] - 4.0 * 25.4).abs() < 1e-12, "{long:?}");
        assert_eq!(long.len(), 2);
    }
}
