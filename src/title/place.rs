//! Where a strip lies on the page, and the way between the two.
//!
//! Must not know what lies there.

use crate::measure::{Angle, Point};

/// Where a strip lies on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Place {
    /// Where the feet of the first letter stand; `None`: not placed yet.
    pub at: Option<Point>,
    /// Turned about that point, clockwise positive.
    pub turn: Angle,
}

impl Place {
    /// Where a point of the strip, along it and up from its feet, lies on the page, in mm; `None` where the strip is not
    /// placed. The page's y runs down: along the strip is (cos, sin), up from its feet is (sin, -cos).
    #[must_use]
    pub fn on_page(&self, (along, up): (f64, f64)) -> Option<(f64, f64)> {
        let (at, (sin, cos)) = (self.at?, self.turn.sin_cos());
        Some((at.x.mm() + along * cos + up * sin, at.y.mm() + along * sin - up * cos))
    }

    /// The other way: where a point of the page lies on the strip.
    #[must_use]
    pub fn on_strip(&self, (x, y): (f64, f64)) -> Option<(f64, f64)> {
        let (at, (sin, cos)) = (self.at?, self.turn.sin_cos());
        let (dx, dy) = (x - at.x.mm(), y - at.y.mm());
        Some((dx * cos + dy * sin, dx * sin - dy * cos))
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::measure::Length;

    #[test]
    fn the_way_to_the_page_and_back() {
        let at = Some(Point { x: Length::from_mm(40), y: Length::from_mm(50) });
        let place = Place { at, turn: Angle::from_thousandths(90_000) };
        // A quarter turn clockwise: along the strip is down the page, up from its feet is to the right.
        let (x, y) = place.on_page((10.0, 5.0)).unwrap();
        assert!((x - 45.0).abs() < 1e-9 && (y - 60.0).abs() < 1e-9, "{x} {y}");
        let tilted = Place { turn: Angle::from_thousandths(-12_345), ..place };
        let (along, up) = tilted.on_strip(tilted.on_page((33.0, -4.0)).unwrap()).unwrap();
        assert!((along - 33.0).abs() < 1e-9 && (up + 4.0).abs() < 1e-9, "{along} {up}");
        assert_eq!(Place::default().on_page((0.0, 0.0)), None);
    }
}
