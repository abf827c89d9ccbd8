//! Bands of heights: letters of one band can stand side by side.
//!
//! Must not know letters.

use crate::measure::{Hundredths, Length};

/// The greatest ratio of heights within a band: 1.25 to 1 (house choice; a ratio is rounded to 0.01 first).
pub const BAND: Hundredths = Hundredths::new(125);

/// A band of heights, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Band {
    /// The least height.
    pub low: Length,
    /// The greatest height.
    pub high: Length,
}

impl Band {
    /// Whether no height lies in both.
    #[must_use]
    pub fn is_apart(self, other: Self) -> bool {
        self.high < other.low || other.high < self.low
    }
}

/// A band's place among those of a [`super::Supply`], the lowest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BandIx(pub(super) u16);

impl BandIx {
    /// The place as a whole number.
    #[must_use]
    pub const fn get(self) -> usize {
        self.0 as usize
    }
}

/// Every band that no other one holds, for letters of these heights; the lowest first. Without heights there is one, of none.
pub(super) fn bands(mut heights: Vec<Length>) -> Vec<Band> {
    heights.sort_unstable();
    heights.dedup();
    let mut bands: Vec<Band> = Vec::new();
    let mut end = 0;
    for (start, &low) in heights.iter().enumerate() {
        let reached = end;
        while heights.get(end).is_some_and(|high| high.ratio(low) <= BAND) {
            end += 1;
        }
        // A band that ends where the one before ends is part of it.
        if end > reached || start == 0 {
            bands.push(Band { low, high: heights[end - 1] });
        }
    }
    if bands.is_empty() {
        bands.push(Band { low: Length::ZERO, high: Length::ZERO });
    }
    bands
}

/// The bands that hold `height`: from one up to, not including, another. All of them for a mark that has no height that counts.
pub(super) fn holding(bands: &[Band], height: Option<Length>) -> (u16, u16) {
    let place = |count: usize| u16::try_from(count).unwrap_or(u16::MAX);
    let Some(height) = height else { return (0, place(bands.len())) };
    let from = bands.partition_point(|band| band.high < height);
    let to = bands.partition_point(|band| band.low <= height);
    (place(from), place(to))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(heights: &[i64]) -> Vec<(i64, i64)> {
        let bands = bands(heights.iter().map(|&mm| Length::from_mm(mm)).collect());
        bands.iter().map(|band| (band.low.nm() / 1_000_000, band.high.nm() / 1_000_000)).collect()
    }

    #[test]
    fn each_band_reaches_as_far_as_it_can_and_none_lies_in_another() {
        assert_eq!(of(&[20, 12, 25, 26, 15, 20]), [(12, 15), (20, 25), (25, 26)]);
        assert_eq!(of(&[18, 20, 22]), [(18, 22)]);
        assert_eq!(of(&[]), [(0, 0)]);
    }

    #[test]
    fn a_height_lies_in_neighbouring_bands() {
        let mm = |mm| Some(Length::from_mm(mm));
        let bands = bands([12, 15, 20, 25, 26].map(Length::from_mm).to_vec());
        assert_eq!(holding(&bands, mm(25)), (1, 3));
        assert_eq!(holding(&bands, mm(12)), (0, 1));
        assert_eq!(holding(&bands, mm(17)), (1, 1), "none");
        assert_eq!(holding(&bands, None), (0, 3));
    }
}
