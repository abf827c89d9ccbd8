//! Millimetres of a sheet and points of a page: 72 points are an inch, an inch is 25.4 mm.
//!
//! Must not know what is measured.

use pdf_writer::Rect;

use crate::measure::{Extent, Length};

/// Points in a millimetre.
pub(super) const POINTS: f64 = 72.0 / 25.4;

/// No side of a page is shorter or longer, in mm; the longer is what readers hold to (ISO 32000-1, annex C: 14,400 points).
const SIDES: (f64, f64) = (2.0, 5_000.0);

/// Millimetres as points.
#[expect(clippy::cast_possible_truncation, reason = "PDF knows no longer numbers")]
pub(super) fn points(mm: f64) -> f32 {
    (bounded(mm) * POINTS) as f32
}

/// Millimetres as they are written where they are the unit: to a ten-thousandth.
#[expect(clippy::cast_possible_truncation, reason = "PDF knows no longer numbers")]
pub(super) fn millimetres(mm: f64) -> f32 {
    ((bounded(mm) * 10_000.0).round() / 10_000.0) as f32
}

/// A side of a page, in mm.
pub(super) fn side(length: Length) -> f64 {
    length.mm().clamp(SIDES.0, SIDES.1)
}

/// What reaches so far on a sheet of `height` mm, in points, y up.
pub(super) fn rect(reach: Extent, height: f64) -> Rect {
    Rect::new(
        points(reach.left),
        points(height - reach.bottom),
        points(reach.right),
        points(height - reach.top),
    )
}

/// What is no number is 0, and nothing is further off than readers can tell.
fn bounded(mm: f64) -> f64 {
    if mm.is_finite() { mm.clamp(-SIDES.1, SIDES.1) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inch_is_72_points() {
        assert!((points(25.4) - 72.0).abs() < 1e-5);
        assert!((millimetres(101.6) - 101.6).abs() < f32::EPSILON);
    }

    #[test]
    fn what_is_no_number_is_written_as_one() {
        assert!(points(f64::NAN) == 0.0 && millimetres(f64::INFINITY) == 0.0);
        assert!(millimetres(1e300).is_finite());
    }
}
