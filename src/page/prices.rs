//! What a strip's place on the page comes to in points.
//!
//! One rule for whoever judges a place and whoever looks for one. Must not know how a place is looked at.

use crate::measure::Points;

/// What can be amiss with a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amiss {
    /// The strip touches nothing.
    Adrift,
    /// Bare paper is caught between the strip and what is there; counted in mm2.
    Trapped,
    /// Letters lie on a thing that none may lie on; in mm2.
    Cover,
    /// Letters lie on a thing that they may only overlap; in letters.
    Edge,
    /// Letters lie on another strip's; in mm2.
    Overlap,
    /// Letters reach beyond the page's edge; in letters.
    Off,
    /// Letters stand within the page's margin; in letters.
    Margin,
}

impl Amiss {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::Adrift, Self::Trapped, Self::Cover, Self::Edge, Self::Overlap, Self::Off, Self::Margin];

    /// How much of it costs its price once.
    const fn unit(self) -> i64 {
        match self {
            Self::Trapped => 50,
            Self::Cover | Self::Overlap => 10,
            Self::Adrift | Self::Edge | Self::Off | Self::Margin => 1,
        }
    }
}

/// What each thing costs that is amiss with a place: once if it is adrift, each letter, each 50 mm2 of trapped paper, each
/// 10 mm2 of letters over what they must not cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Prices([Points; 7]);

/// What is amiss with a place, each counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts([u32; 7]);

impl Prices {
    /// Each as `price` says.
    #[must_use]
    pub fn new(price: impl Fn(Amiss) -> Points) -> Self {
        Self(Amiss::ALL.map(price))
    }
}

impl Counts {
    /// Each as `count` says.
    #[must_use]
    pub fn new(count: impl Fn(Amiss) -> u32) -> Self {
        Self(Amiss::ALL.map(count))
    }

    /// How much of it there is: letters, mm2, or 1 where it is adrift.
    #[must_use]
    pub const fn of(&self, amiss: Amiss) -> u32 {
        self.0[amiss as usize]
    }

    /// The same with another count of one.
    #[must_use]
    pub const fn with(mut self, amiss: Amiss, count: u32) -> Self {
        self.0[amiss as usize] = count;
        self
    }

    /// The points of one, rounded once, half away from zero.
    #[must_use]
    pub fn points(&self, amiss: Amiss, prices: &Prices) -> Points {
        let (price, count, of) = (prices.0[amiss as usize], self.of(amiss), amiss.unit());
        let whole = i64::from(price.tenths()) * i64::from(count);
        Points::from_tenths(i32::try_from((2 * whole + of) / (2 * of)).unwrap_or(i32::MAX))
    }

    /// All points together.
    #[must_use]
    pub fn total(&self, prices: &Prices) -> Points {
        Amiss::ALL.into_iter().map(|amiss| self.points(amiss, prices)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_are_rounded_once_half_away_from_zero() {
        let cost = |amiss, tenths, count| {
            let prices = Prices::new(|_| Points::from_tenths(tenths));
            Counts::default().with(amiss, count).total(&prices).tenths()
        };
        assert_eq!([2, 3, 127].map(|area| cost(Amiss::Trapped, 10, area)), [0, 1, 25]);
        assert_eq!(cost(Amiss::Cover, 3, 5), 2, "1.5 tenths");
        assert_eq!(cost(Amiss::Off, 600, 2), 1200);
    }
}
