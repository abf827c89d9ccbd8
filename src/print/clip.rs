//! Lines and outlines cut off at the edges of a window.
//!
//! Must not know what is drawn.

use crate::measure::{Extent, Polygon};

/// A point in mm.
pub(super) type Dot = (f64, f64);

/// What of the line from `from` to `to` lies within `window`; `None` where nothing does (Liang and Barsky 1984).
pub(super) fn line(from: Dot, to: Dot, window: Extent) -> Option<(Dot, Dot)> {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let sides = [
        (-dx, from.0 - window.left),
        (dx, window.right - from.0),
        (-dy, from.1 - window.top),
        (dy, window.bottom - from.1),
    ];
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (speed, room) in sides {
        if speed < 0.0 {
            enters = enters.max(room / speed);
        } else if speed > 0.0 {
            leaves = leaves.min(room / speed);
        } else if room < 0.0 {
            return None;
        }
    }
    let at = |share: f64| (from.0 + share * dx, from.1 + share * dy);
    (enters < leaves).then(|| (at(enters), at(leaves)))
}

/// What of `polygon` lies within `window`; empty where nothing does. Where it is cut off, it runs along the window's edge
/// (Sutherland and Hodgman 1974).
pub(super) fn polygon(polygon: &Polygon, window: Extent) -> Polygon {
    let sides: [&dyn Fn(Dot) -> f64; 4] =
        [&|(x, _)| x - window.left, &|(x, _)| window.right - x, &|(_, y)| y - window.top, &|(_, y)| {
            window.bottom - y
        }];
    sides.into_iter().fold(polygon.clone(), |polygon, inside| cut_off(&polygon, inside))
}

/// What of `polygon` lies where `inside` is not below 0.
fn cut_off(polygon: &Polygon, inside: &dyn Fn(Dot) -> f64) -> Polygon {
    let mut kept = Polygon::new();
    for (&from, &to) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        let (start, end) = (inside(from), inside(to));
        if start >= 0.0 {
            kept.push(from);
        }
        if (start >= 0.0) != (end >= 0.0) {
            let share = start / (start - end);
            kept.push((from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1)));
        }
    }
    kept
}

/// Whether `dot` lies within `polygon`, by the even-odd rule.
pub(super) fn within(polygon: &Polygon, dot: Dot) -> bool {
    let mut inside = false;
    for (&(x0, y0), &(x1, y1)) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        if (y0 > dot.1) != (y1 > dot.1) && dot.0 < x0 + (dot.1 - y0) / (y1 - y0) * (x1 - x0) {
            inside = !inside;
        }
    }
    inside
}

/// Whether all of `inner` lies within `outer`, but for less than any printer can show.
pub(super) fn holds(outer: Extent, inner: Extent) -> bool {
    const SLACK: f64 = 1e-6;
    outer.left <= inner.left + SLACK
        && outer.top <= inner.top + SLACK
        && inner.right <= outer.right + SLACK
        && inner.bottom <= outer.bottom + SLACK
}

/// Whether two boxes share more than an edge.
pub(super) fn meet(a: Extent, b: Extent) -> bool {
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

/// `extent` made larger on all sides.
pub(super) fn grown(extent: Extent, by: f64) -> Extent {
    Extent {
        left: extent.left - by,
        top: extent.top - by,
        right: extent.right + by,
        bottom: extent.bottom + by,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOW: Extent = Extent { left: 0.0, top: 0.0, right: 10.0, bottom: 6.0 };

    #[test]
    fn a_line_is_cut_at_the_window() {
        assert_eq!(line((-5.0, 3.0), (20.0, 3.0), WINDOW), Some(((0.0, 3.0), (10.0, 3.0))));
        assert_eq!(line((2.0, -2.0), (2.0, 5.0), WINDOW), Some(((2.0, 0.0), (2.0, 5.0))));
        assert_eq!(line((-2.0, 7.0), (12.0, 7.0), WINDOW), None);
        assert_eq!(line((-4.0, 1.0), (1.0, -4.0), WINDOW), None);
    }

    #[test]
    fn an_outline_is_cut_at_the_window() {
        let square = vec![(8.0, 4.0), (14.0, 4.0), (14.0, 9.0), (8.0, 9.0)];
        let cut = polygon(&square, WINDOW);
        let extent = Extent::of(&[cut]);
        assert_eq!(extent, Some(Extent { left: 8.0, top: 4.0, right: 10.0, bottom: 6.0 }));
        assert!(polygon(&vec![(20.0, 0.0), (22.0, 0.0), (22.0, 2.0)], WINDOW).is_empty());
    }
}
