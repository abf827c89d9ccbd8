//! The height that a line is compared by, and what a difference from it costs.
//!
//! Must not know which letters have which height.

use crate::measure::{Hundredths, Length, Points};
use crate::page::Page;
use crate::title::Strip;

use super::taste::{Knob, Taste};

/// The heights that suit a strip: least and most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Suits(Option<(Length, Length)>);

impl Suits {
    /// As the strip says; else by the page's shorter side, 6 to 13 % for a title and 2 to 5 % for a subtitle (house);
    /// else any.
    #[must_use]
    pub fn of(strip: &Strip, page: &Page) -> Self {
        let share = match strip.role().as_str() {
            "title" => Some((0.06, 0.13)),
            "subtitle" => Some((0.02, 0.05)),
            _ => None,
        };
        let by_page = || {
            let (least, most) = share?;
            page.shorter_side().map(|side| (side.scale(least), side.scale(most)))
        };
        Self(strip.rules.tall.or_else(by_page))
    }

    /// Least and most, if there is a bound.
    #[must_use]
    pub const fn band(self) -> Option<(Length, Length)> {
        self.0
    }

    /// `height` brought into the band.
    #[must_use]
    pub fn clamp(self, height: Length) -> Length {
        self.0.map_or(height, |(least, most)| height.clamp(least, most.max(least)))
    }
}

/// The height among those of the letters, each brought into the band that suits, that makes the sum of the letters'
/// height points least; ties go to the larger.
#[must_use]
pub fn reference_height(
    heights: impl Iterator<Item = Length>,
    suits: Suits,
    taste: &Taste,
) -> Option<Length> {
    let mut heights: Vec<Length> = heights.collect();
    heights.sort_unstable();
    let mut candidates: Vec<Length> = heights.iter().map(|&height| suits.clamp(height)).collect();
    candidates.dedup();
    let cost = |reference: Length| {
        heights.iter().map(|&height| height_points(height, reference, taste)).sum::<Points>()
    };
    candidates.into_iter().rev().min_by_key(|&reference| cost(reference))
}

/// What a letter of `height` costs in a line compared by `reference`: nothing where they look alike.
#[must_use]
pub fn height_points(height: Length, reference: Length, taste: &Taste) -> Points {
    let ratio = height.ratio(reference);
    let alike = taste.ratio(Knob::HeightRatio);
    if ratio <= alike || (height - reference).abs() <= taste.length(Knob::HeightDifference) {
        return Points::ZERO;
    }
    let beyond = Hundredths::new(ratio.get() - alike.get());
    Points::weighted(taste.ratio(Knob::HeightSlope), beyond).min(taste.points(Knob::HeightMost))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reference(heights: &[i64], suits: Suits) -> Option<i64> {
        let heights = heights.iter().map(|&mm| Length::from_mm(mm));
        reference_height(heights, suits, &Taste::default()).map(|height| height.nm() / 1_000_000)
    }

    #[test]
    fn the_line_is_compared_by_the_height_that_most_letters_have() {
        assert_eq!(reference(&[25, 25, 19], Suits(None)), Some(25));
        assert_eq!(reference(&[25, 19, 19], Suits(None)), Some(19));
        assert_eq!(reference(&[], Suits(None)), None);
    }

    #[test]
    fn ties_go_to_the_larger() {
        assert_eq!(reference(&[25, 24], Suits(None)), Some(25));
    }

    #[test]
    fn a_band_that_suits_bounds_it() {
        let suits = Suits(Some((Length::from_mm(18), Length::from_mm(22))));
        assert_eq!(reference(&[30, 30], suits), Some(22));
    }

    #[test]
    fn points_by_ratio_beyond_what_looks_alike() {
        let points = |a: i64, b: i64| {
            height_points(Length::from_mm(a), Length::from_mm(b), &Taste::default()).tenths()
        };
        assert_eq!(points(25, 19), 136, "80 x (1.32 - 1.15) = 13.6");
        assert_eq!(points(23, 20), 0, "1.15 looks alike");
        assert_eq!(points(5, 4), 0, "1 mm apart");
        assert_eq!(points(60, 20), 400, "at most 40.0");
    }
}
