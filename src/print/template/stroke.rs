//! Lines that go on from each other drawn with one pen, so that dashes run on around corners.
//!
//! Must not know what they outline.

use crate::print::clip::Dot;
use crate::print::sheet::{Mark, Pen};

/// Less than any printer shows.
const NOTHING: f64 = 1e-6;

/// `lines` drawn with `pen` in `dashes`, each with the space after it, over and over; unbroken where there are none. Where a line
/// starts at the end of the one before, its dashes go on with that one's.
pub(super) fn along(lines: &[(Dot, Dot)], pen: Pen, dashes: &[(f64, f64)]) -> Vec<Mark> {
    let unbroken = Pen { dash: None, ..pen };
    let period: f64 = dashes.iter().map(|(dash, space)| dash + space).sum();
    if period <= 0.0 {
        return lines.iter().map(|&(from, to)| Mark::Line { from, to, pen: unbroken }).collect();
    }
    let (mut marks, mut done, mut end) = (Vec::new(), 0.0, (f64::NAN, f64::NAN));
    for &(from, to) in lines {
        let goes_on = (from.0 - end.0).abs() < NOTHING && (from.1 - end.1).abs() < NOTHING;
        if !goes_on {
            done = 0.0;
        }
        end = to;
        let length = libm::hypot(to.0 - from.0, to.1 - from.1);
        let at = |far: f64| {
            let share = far / length;
            (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1))
        };
        // Where on this line the dashes start over that its start is among.
        let mut start = -(done % period);
        for &(dash, space) in dashes.iter().cycle() {
            if start >= length {
                break;
            }
            let (from, to) = (start.max(0.0), (start + dash).min(length));
            if from < to {
                marks.push(Mark::Line { from: at(from), to: at(to), pen: unbroken });
            }
            start += dash + space;
        }
        done += length;
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dashes_run_on_around_corners() {
        let pen = Pen { width: 0.2, dash: None, grey: 0.0 };
        let corner = [((0.0, 0.0), (4.0, 0.0)), ((4.0, 1e-12), (4.0, 4.0))];
        let ends: Vec<(Dot, Dot)> = along(&corner, pen, &[(2.0, 1.0)])
            .iter()
            .filter_map(|mark| match mark {
                Mark::Line { from, to, .. } => Some((*from, *to)),
                Mark::Words(_) | Mark::Shape(_) => None,
            })
            .collect();
        let wanted = [
            ((0.0, 0.0), (2.0, 0.0)),
            ((3.0, 0.0), (4.0, 0.0)),
            ((4.0, 0.0), (4.0, 1.0)),
            ((4.0, 2.0), (4.0, 4.0)),
        ];
        let near = |a: Dot, b: Dot| libm::hypot(a.0 - b.0, a.1 - b.1) < 1e-9;
        let same =
            ends.iter().zip(wanted).all(|(found, wanted)| near(found.0, wanted.0) && near(found.1, wanted.1));
        assert!(ends.len() == wanted.len() && same, "{ends:?}");
        assert_eq!(along(&corner, pen, &[]).len(), 2);
        let dots = along(&[((0.0, 0.0), (8.0, 0.0))], pen, &[(3.0, 1.0), (0.5, 1.0)]);
        assert_eq!(dots.len(), 3, "a dash, a dot, a dash: {dots:?}");
    }
}
