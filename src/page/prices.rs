//! What a strip's place on the page comes to in points.
//!
//! One rule for whoever judges a place and whoever looks for one. Must not know how a place is looked at.

use crate::measure::Points;

/// What each thing that is amiss with a place costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Prices {
    /// Touching nothing.
    pub adrift: Points,
    /// Each 50 mm2 of trapped paper.
    pub trapped: Points,
    /// Each 10 mm2 over a thing that letters may not lie on.
    pub cover: Points,
    /// Each letter that lies more than by its edge on a thing that letters may only overlap.
    pub edge: Points,
    /// Each 10 mm2 over another strip's letters.
    pub overlap: Points,
    /// Each letter beyond the page's edge.
    pub off: Points,
    /// Each letter within the page's margin.
    pub margin: Points,
}

/// What is amiss with a place, counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Whether it touches nothing.
    pub adrift: bool,
    /// Trapped paper in mm2.
    pub trapped: u32,
    /// Over things that letters may not lie on, in mm2.
    pub cover: u32,
    /// Letters that lie on a thing that they may only overlap.
    pub edge: u32,
    /// Over another strip's letters, in mm2.
    pub overlap: u32,
    /// Letters beyond the page's edge.
    pub off: u32,
    /// Letters within its margin.
    pub margin: u32,
}

impl Counts {
    /// The points of each count, in the order of their declaration; each rounded once, half away from zero.
    #[must_use]
    pub fn points(&self, prices: &Prices) -> [Points; 7] {
        [
            each(prices.adrift, u32::from(self.adrift), 1),
            each(prices.trapped, self.trapped, 50),
            each(prices.cover, self.cover, 10),
            each(prices.edge, self.edge, 1),
            each(prices.overlap, self.overlap, 10),
            each(prices.off, self.off, 1),
            each(prices.margin, self.margin, 1),
        ]
    }

    /// All points together.
    #[must_use]
    pub fn total(&self, prices: &Prices) -> Points {
        self.points(prices).into_iter().sum()
    }
}

/// `price` for each `of` of `count`.
fn each(price: Points, count: u32, of: i64) -> Points {
    let whole = i64::from(price.tenths()) * i64::from(count);
    Points::from_tenths(i32::try_from((2 * whole + of) / (2 * of)).unwrap_or(i32::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_are_rounded_once_half_away_from_zero() {
        let price = Points::from_tenths(10);
        assert_eq!(each(price, 2, 50), Points::ZERO);
        assert_eq!(each(price, 3, 50), Points::from_tenths(1));
        assert_eq!(each(price, 127, 50), Points::from_tenths(25));
        assert_eq!(each(Points::from_tenths(3), 5, 10), Points::from_tenths(2), "1.5 tenths");
    }
}
