//! What a thing on the page covers, in mm, worked out once for many points and for cells.
//!
//! Must not know what the thing is.

use super::cells::{Cells, first_centre};
use super::element::{Lie, Outline};

/// Where a thing lies, in mm.
#[derive(Debug, Clone, Copy)]
pub struct Footprint {
    centre: (f64, f64),
    half: (f64, f64),
    sin_cos: (f64, f64),
    /// Nothing of it is further from its centre, across and down.
    reach: (f64, f64),
    outline: Outline,
}

/// A side of a rectangle, before it is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The upper.
    Top,
    /// The lower.
    Bottom,
    /// The left.
    Left,
    /// The right.
    Right,
}

impl Lie {
    /// Its footprint.
    #[must_use]
    pub fn footprint(&self) -> Footprint {
        Footprint::of(self)
    }
}

impl Footprint {
    fn of(lie: &Lie) -> Self {
        let half = (lie.size.width.mm() / 2.0, lie.size.height.mm() / 2.0);
        let (sin, cos) = lie.turn.sin_cos();
        let reach = |of_width: f64, of_height: f64| half.0 * of_width.abs() + half.1 * of_height.abs() + 1e-6;
        Self {
            centre: (lie.at.x.mm() + half.0, lie.at.y.mm() + half.1),
            half,
            sin_cos: (sin, cos),
            reach: (reach(cos, sin), reach(sin, cos)),
            outline: lie.outline,
        }
    }

    /// Whether the point at `x`, `y` in mm from the page's left and top edge lies on it; its edge does.
    #[must_use]
    pub fn covers(&self, x: f64, y: f64) -> bool {
        let (dx, dy) = (x - self.centre.0, y - self.centre.1);
        if dx.abs() > self.reach.0 || dy.abs() > self.reach.1 {
            return false;
        }
        let (across, down) = self.own(dx, dy);
        match self.outline {
            Outline::Rect => across.abs() <= 1.0 && down.abs() <= 1.0,
            Outline::Round => across * across + down * down <= 1.0,
        }
    }

    /// A place from its centre as it was before it was turned, over half its width and half its height.
    fn own(&self, dx: f64, dy: f64) -> (f64, f64) {
        let (sin, cos) = self.sin_cos;
        // Turned back: on the page y runs down, so clockwise is the positive sense.
        ((dx * cos + dy * sin) / self.half.0, (dy * cos - dx * sin) / self.half.1)
    }

    /// The side that a point beside it is nearest to; `None` for a round thing, which has none.
    #[must_use]
    pub fn side_at(&self, x: f64, y: f64) -> Option<Side> {
        if self.outline == Outline::Round {
            return None;
        }
        let (across, down) = self.own(x - self.centre.0, y - self.centre.1);
        let beyond = |part: f64, half: f64| (part.abs() - 1.0) * half;
        Some(if beyond(across, self.half.0) > beyond(down, self.half.1) {
            if across < 0.0 { Side::Left } else { Side::Right }
        } else if down < 0.0 {
            Side::Top
        } else {
            Side::Bottom
        })
    }

    /// The whole millimetres that it lies within: left, top, right, bottom.
    pub(super) fn bounds(&self) -> [i32; 4] {
        let (x, y) = self.centre;
        [
            first_centre(x - self.reach.0),
            first_centre(y - self.reach.1),
            first_centre(x + self.reach.0) + 1,
            first_centre(y + self.reach.1) + 1,
        ]
    }

    /// Its cells, as far as they lie on `frame`.
    pub(super) fn cells(&self, frame: &Cells) -> Cells {
        let [left, top, right, bottom] = self.bounds();
        let across = left.max(frame.across().start)..right.min(frame.across().end);
        let down = top.max(frame.down().start)..bottom.min(frame.down().end);
        let patch = |range: &std::ops::Range<i32>| usize::try_from(range.end - range.start).unwrap_or(0);
        let mut cells = Cells::bare(across.start, down.start, patch(&across), patch(&down));
        for y in down {
            let centre = f64::from(y) + 0.5;
            let Some((from, to)) = self.stretch(centre) else { continue };
            // The ends are found by the very rule that tells of a point, so that both always agree.
            let covered = |x: i32| self.covers(f64::from(x) + 0.5, centre);
            let near = |mm: f64| first_centre(mm).clamp(left, right);
            let start = (near(from) - 1..=near(to)).find(|&x| covered(x));
            let end = (near(from) - 1..=near(to)).rev().find(|&x| covered(x));
            if let (Some(start), Some(end)) = (start, end) {
                cells.hold(y, start..end + 1);
            }
        }
        cells
    }

    /// From where to where the line at the height `y` lies on it, nearly.
    fn stretch(&self, y: f64) -> Option<(f64, f64)> {
        let (sin, cos) = self.sin_cos;
        let dy = y - self.centre.1;
        let (wide, high) = self.half;
        let (from, to) = match self.outline {
            Outline::Rect => {
                let between = |slope: f64, shift: f64, half: f64| {
                    let (a, b) = ((half - shift) / slope, (-half - shift) / slope);
                    if slope == 0.0 { (f64::NEG_INFINITY, f64::INFINITY) } else { (a.min(b), a.max(b)) }
                };
                let (a, b) = (between(cos, dy * sin, wide), between(-sin, dy * cos, high));
                (a.0.max(b.0), a.1.min(b.1))
            }
            Outline::Round => {
                let a = (cos / wide).powi(2) + (sin / high).powi(2);
                let b = dy * sin * cos * (1.0 / wide.powi(2) - 1.0 / high.powi(2));
                let c = dy * dy * ((sin / wide).powi(2) + (cos / high).powi(2)) - 1.0;
                let root = (b * b - a * c).max(0.0).sqrt();
                ((-b - root) / a, (-b + root) / a)
            }
        };
        (from <= to + 1e-6).then_some((self.centre.0 + from, self.centre.0 + to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Angle, Length, Point, Size};

    #[test]
    fn cells_are_the_points_it_covers() {
        let frame = Cells::bare(0, 0, 120, 100);
        for (turn, outline) in [0, 3, 17, 45, 90, 91, 180, -30]
            .into_iter()
            .flat_map(|turn| [(turn, Outline::Rect), (turn, Outline::Round)])
        {
            let at = Point { x: Length::from_nm(11_500_000), y: Length::from_nm(28_312_500) };
            let size = Size { width: Length::from_nm(90_487_500), height: Length::from_mm(31) };
            let footprint = Lie { at, size, turn: Angle::from_thousandths(turn * 1000), outline }.footprint();
            let cells = footprint.cells(&frame);
            for y in 0..100 {
                for x in 0..120 {
                    let covers = footprint.covers(f64::from(x) + 0.5, f64::from(y) + 0.5);
                    assert_eq!(cells.holds(x, y), covers, "{outline} turned by {turn}: {x}, {y}");
                }
            }
        }
    }

    #[test]
    fn a_point_is_nearest_to_a_side() {
        let lie = |turn| Lie {
            at: Point { x: Length::from_mm(20), y: Length::from_mm(20) },
            size: Size { width: Length::from_mm(60), height: Length::from_mm(20) },
            turn: Angle::from_thousandths(turn),
            outline: Outline::Rect,
        };
        let side = |turn, x, y| lie(turn).footprint().side_at(x, y);
        assert_eq!(side(0, 50.0, 19.0), Some(Side::Top));
        assert_eq!(side(0, 81.0, 22.0), Some(Side::Right));
        assert_eq!(side(180_000, 50.0, 19.0), Some(Side::Bottom), "turned over, its lower side is above");
    }
}
