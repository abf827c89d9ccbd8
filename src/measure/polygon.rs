//! Closed polygons: what a line across them passes through, and how far they reach.
//!
//! Must not know what they outline.

/// Corners in order; the last joins the first.
pub type Polygon = Vec<(f64, f64)>;

/// Lines across polygons: the first at the height `start`, each the next `step` further, `count` of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lines {
    /// The height of the first.
    pub start: f64,
    /// From one to the next; above 0.
    pub step: f64,
    /// How many.
    pub count: usize,
}

impl Lines {
    /// The height of a line.
    #[expect(clippy::cast_precision_loss, reason = "far fewer lines than 2^52")]
    fn height(&self, line: usize) -> f64 {
        self.start + line as f64 * self.step
    }

    /// The first line at the height `y` or beyond.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
    fn from(&self, y: f64) -> usize {
        let near = ((y - self.start) / self.step).floor().max(0.0) as usize;
        (near.saturating_sub(1)..self.count).find(|&line| self.height(line) >= y).unwrap_or(self.count)
    }

    /// Calls `span` with a line and the ends of each stretch that it has within `polygons`, taken together by the non-zero
    /// rule: line by line, each from left to right. A corner on a line belongs to what follows in the direction of y.
    pub fn across(self, polygons: &[Polygon], mut span: impl FnMut(usize, f64, f64)) {
        let mut crossings: Vec<(usize, f64, i32)> = Vec::new();
        for polygon in polygons {
            let next = polygon.iter().cycle().skip(1);
            for (&(x0, y0), &(x1, y1)) in polygon.iter().zip(next) {
                let (low, high, turns) = if y0 < y1 { (y0, y1, 1) } else { (y1, y0, -1) };
                for line in self.from(low)..self.count {
                    let y = self.height(line);
                    if y >= high {
                        break;
                    }
                    crossings.push((line, x0 + (y - y0) / (y1 - y0) * (x1 - x0), turns));
                }
            }
        }
        crossings.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut winding = 0;
        for pair in crossings.windows(2) {
            // On every line the windings add up to none.
            winding += pair[0].2;
            if winding != 0 {
                span(pair[0].0, pair[0].1, pair[1].1);
            }
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

    /// The middle of it.
    #[must_use]
    pub const fn middle(self) -> (f64, f64) {
        (f64::midpoint(self.left, self.right), f64::midpoint(self.top, self.bottom))
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
        let lines = |start: f64, count: usize| Lines { start, step: 1.0, count };
        let mut met = Vec::new();
        lines(1.0, 2).across(&[square(0.0, 6.0), hole], |line, from, to| met.push((line, from, to)));
        assert_eq!(met, [(0, 0.0, 6.0), (1, 0.0, 2.0), (1, 4.0, 6.0)]);
        let mut length = 0.0;
        lines(5.0, 1).across(&[square(0.0, 6.0), square(4.0, 9.0)], |_, from, to| length += to - from);
        assert!((length - 9.0).abs() < 1e-12);
        let mut last = None;
        lines(-3.0, 30).across(&[square(0.0, 6.0)], |line, _, _| last = Some(line));
        assert_eq!(last, Some(8), "the lower edge belongs to what follows");
        assert_eq!(Extent::of(&[square(1.0, 3.0)]).map(|one| (one.left, one.bottom)), Some((1.0, 3.0)));
    }
}
