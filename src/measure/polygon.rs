//! Closed polygons: what a line across them passes through, and how far they reach.
//!
//! Must not know what they outline.

/// Corners in order; the last joins the first.
pub type Polygon = Vec<(f64, f64)>;

/// Calls `span` with the ends of each stretch that the line at the height `y` has within `polygons`, taken together by the
/// non-zero rule, from left to right. A corner on the line belongs to what follows in the direction of y.
pub fn spans(polygons: &[Polygon], y: f64, mut span: impl FnMut(f64, f64)) {
    let mut crossings: Vec<(f64, i32)> = Vec::new();
    for polygon in polygons {
        let next = polygon.iter().cycle().skip(1);
        for (&(x0, y0), &(x1, y1)) in polygon.iter().zip(next) {
            if (y0 <= y) != (y1 <= y) {
                crossings.push((x0 + (y - y0) / (y1 - y0) * (x1 - x0), if y1 > y0 { 1 } else { -1 }));
            }
        }
    }
    crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut winding = 0;
    for pair in crossings.windows(2) {
        winding += pair[0].1;
        if winding != 0 {
            span(pair[0].0, pair[1].0);
        }
    }
}

/// How far polygons reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    /// Least x.
    pub left: f64,
    /// Least y.
    pub top: f64,
    /// Greatest x.
    pub right: f64,
    /// Greatest y.
    pub bottom: f64,
}

impl Extent {
    /// Of all corners; `None` without any.
    #[must_use]
    pub fn of(polygons: &[Polygon]) -> Option<Self> {
        polygons.iter().flatten().fold(None, |extent: Option<Self>, &(x, y)| {
            let one = Self { left: x, top: y, right: x, bottom: y };
            Some(extent.map_or(one, |extent| extent.and(one)))
        })
    }

    /// What reaches as far as both.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// Moved.
    #[must_use]
    pub fn moved(self, x: f64, y: f64) -> Self {
        Self { left: self.left + x, top: self.top + y, right: self.right + x, bottom: self.bottom + y }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_leaves_its_hole_and_an_overlap_counts_once() {
        let square = |from: f64, to: f64| vec![(from, from), (to, from), (to, to), (from, to)];
        let mut hole = square(2.0, 4.0);
        hole.reverse();
        let mut met = Vec::new();
        spans(&[square(0.0, 6.0), hole], 3.0, |from, to| met.push((from, to)));
        assert_eq!(met, [(0.0, 2.0), (4.0, 6.0)]);
        let mut length = 0.0;
        spans(&[square(0.0, 6.0), square(4.0, 9.0)], 5.0, |from, to| length += to - from);
        assert!((length - 9.0).abs() < 1e-12);
        assert_eq!(Extent::of(&[square(1.0, 3.0)]).map(|one| (one.left, one.bottom)), Some((1.0, 3.0)));
    }
}
