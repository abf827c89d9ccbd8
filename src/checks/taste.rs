//! Taste: every threshold and weight of the checks, with its usual value, its range and what it does.
//!
//! Must not know how a file spells a table; it offers keys, units and ranges.

use crate::measure::{Hundredths, Length, Points};

/// What a threshold is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Points of the score; whole tenths inside.
    Points,
    /// A ratio, a contrast or a colour difference; whole hundredths inside.
    Ratio,
    /// A length; nanometres inside.
    Length,
    /// A whole number.
    Count,
}

/// One threshold or weight.
#[derive(Debug, Clone, Copy)]
pub struct Threshold {
    /// `table.key` as `taste.toml` spells it.
    pub key: &'static str,
    /// What it is counted in.
    pub measure: Measure,
    /// Its usual value, in the measure's inner unit.
    pub usual: i64,
    /// The least value that makes sense.
    pub least: i64,
    /// The greatest value that makes sense.
    pub most: i64,
    /// What it does, in a sentence.
    pub help: &'static str,
}

/// Declares the thresholds: a name for the code, then key, measure, usual value, range and help.
macro_rules! thresholds {
    ($($name:ident = $key:literal $measure:ident $usual:literal in $least:literal..=$most:literal: $help:literal;)+) => {
        /// Names of the thresholds; each is a row of [`THRESHOLDS`].
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[expect(missing_docs, reason = "each is told by the help of its row")]
        pub enum Knob { $($name),+ }

        /// Every threshold, in the order in which the manual lists them.
        pub const THRESHOLDS: &[Threshold] = &[$(Threshold {
            key: $key, measure: Measure::$measure, usual: $usual, least: $least, most: $most, help: $help,
        }),+];
    };
}

thresholds! {
    Missing = "missing.points" Points 2000 in 0..=10_000: "an empty slot";
    HeightRatio = "height.alike" Ratio 115 in 100..=300: "heights up to this ratio look alike";
    HeightDifference = "height.within" Length 1_500_000 in 0..=50_000_000: "or up to this difference";
    HeightSlope = "height.slope" Ratio 8000 in 0..=100_000: "points for each 1.00 of ratio beyond";
    HeightMost = "height.most" Points 400 in 0..=10_000: "at most, for one letter";
    FamilyReach = "colour.reach" Ratio 1500 in 100..=5000: "a colour is a page colour up to this difference";
    NeutralChroma = "colour.neutral" Ratio 1200 in 0..=5000: "a colour of less chroma is neutral";
    StrayBase = "stray.points" Points 40 in 0..=10_000: "a letter whose colour nothing on the page shares";
    StrayMost = "stray.most" Points 300 in 0..=10_000: "at most, however far its colour is";
    PaleEnough = "pale.enough" Ratio 300 in 100..=2100: "contrast that reads well (WCAG 2 SC 1.4.3, large text)";
    PaleFaint = "pale.faint" Ratio 150 in 100..=2100: "contrast below which a letter is all but lost";
    PaleSlope = "pale.slope" Ratio 200 in 0..=10_000: "points for each 1.00 of contrast that lacks";
    PaleMost = "pale.most" Points 120 in 0..=10_000: "a letter that is all but lost";
    Turned = "stand-in.turned" Points 30 in 0..=10_000: "a letter turned over";
    LookAlike = "stand-in.look-alike" Points 40 in 0..=10_000: "a character of nearly the same shape";
    OtherCase = "stand-in.other-case" Points 20 in 0..=10_000: "a letter of the other case";
    Trimmed = "stand-in.trimmed" Points 80 in 0..=10_000: "a letter with a part cut off";
    ScarceLast = "scarce.last" Points 40 in 0..=10_000: "the last of a letter that every title needs";
    ScarceTwo = "scarce.two" Points 20 in 0..=10_000: "one of two left";
    ScarceThree = "scarce.three" Points 13 in 0..=10_000: "one of three left";
    ScarceBand = "scarce.band" Ratio 125 in 100..=300: "letters of this ratio of heights can serve one another";
    NearMost = "near.most" Points 15 in 0..=100: "closeness of height, and of colour: at most, each";
    Form = "form.points" Points 100 in 0..=10_000: "a tile where die-cut letters are wanted, or the other way";
    Ends = "ends.points" Points 60 in 0..=10_000: "an end of the line that is not in the main colour";
    Anchor = "anchor.points" Points 40 in 0..=10_000: "no main colour in the middle";
    Second = "second.points" Points 20 in 0..=10_000: "no second colour near an end";
    Lead = "lead.points" Points 40 in 0..=10_000: "the main colour on fewer than a third of the letters";
    MonotonyWant = "monotony.want" Count 3 in 1..=8: "colours that a title should have";
    Monotony = "monotony.points" Points 80 in 0..=10_000: "each colour fewer";
    Dominance = "dominance.points" Points 60 in 0..=10_000: "one colour on more than three fifths of the letters";
    NeighboursWord = "neighbours.in-word" Points 30 in 0..=10_000: "two neighbours of one colour in a word";
    NeighboursGap = "neighbours.across" Points 10 in 0..=10_000: "two neighbours of one colour across a gap";
    Fragment = "fragment.points" Points 20 in 0..=10_000: "two neighbours from one sheet in a mixed word";
    Joined = "joined.points" Points 100 in 0..=10_000: "joined script beside another sheet's letter";
    Adrift = "adrift.points" Points 200 in 0..=10_000: "a strip that touches nothing on the page";
    Trapped = "trapped.points" Points 10 in 0..=10_000: "each 50 mm2 of bare paper caught between the strip and what is there";
    Cover = "cover.points" Points 10 in 0..=10_000: "each 10 mm2 of letters on a thing that none may lie on";
    Edge = "edge.points" Points 40 in 0..=10_000: "a letter more than a third on a thing that it may only overlap";
    Overlap = "overlap.points" Points 10 in 0..=10_000: "each 10 mm2 of letters on another strip's";
    Off = "off.points" Points 600 in 0..=10_000: "a letter beyond the page's edge";
    Margin = "margin.points" Points 30 in 0..=10_000: "a letter within the page's margin";
    SmallRatio = "small.ratio" Ratio 60 in 10..=200: "a subtitle higher than this share of the title";
}

impl Knob {
    const fn row(self) -> &'static Threshold {
        &THRESHOLDS[self as usize]
    }
}

/// The user's own thresholds and weights; what they did not set has its usual value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taste {
    values: Vec<i64>,
}

impl Default for Taste {
    fn default() -> Self {
        Self { values: THRESHOLDS.iter().map(|threshold| threshold.usual).collect() }
    }
}

impl Taste {
    /// Sets the threshold at `place` of [`THRESHOLDS`].
    ///
    /// # Errors
    /// A value outside of the threshold's range changes nothing and gives the threshold back.
    pub fn set(&mut self, place: usize, value: i64) -> Result<(), &'static Threshold> {
        let threshold = &THRESHOLDS[place];
        if (threshold.least..=threshold.most).contains(&value) {
            self.values[place] = value;
            Ok(())
        } else {
            Err(threshold)
        }
    }

    /// Thresholds that contradict each other, as a sentence.
    #[must_use]
    pub fn contradiction(&self) -> Option<&'static str> {
        (self.value(Knob::PaleFaint) > self.value(Knob::PaleEnough))
            .then_some("pale.faint is above pale.enough; no contrast could be both")
    }

    fn value(&self, knob: Knob) -> i64 {
        self.values[knob as usize]
    }

    /// A threshold counted in points.
    #[must_use]
    pub fn points(&self, knob: Knob) -> Points {
        debug_assert_eq!(knob.row().measure, Measure::Points, "{knob:?}");
        Points::from_tenths(self.small(knob))
    }

    /// A threshold counted in hundredths.
    #[must_use]
    pub fn ratio(&self, knob: Knob) -> Hundredths {
        debug_assert_eq!(knob.row().measure, Measure::Ratio, "{knob:?}");
        Hundredths::new(self.small(knob))
    }

    /// A threshold that is a length.
    pub(super) fn length(&self, knob: Knob) -> Length {
        debug_assert_eq!(knob.row().measure, Measure::Length, "{knob:?}");
        Length::from_nm(self.value(knob))
    }

    /// A threshold that is a whole number.
    pub(super) fn count(&self, knob: Knob) -> usize {
        debug_assert_eq!(knob.row().measure, Measure::Count, "{knob:?}");
        usize::try_from(self.value(knob)).unwrap_or(0)
    }

    /// Ranges keep every value that is no length well inside `i32`.
    fn small(&self, knob: Knob) -> i32 {
        i32::try_from(self.value(knob)).unwrap_or(i32::MAX)
    }
}

impl Threshold {
    /// A value of this threshold as a reader writes it: `1.15`, `40.0`, `"1.5 mm"`, `3`.
    #[must_use]
    pub fn spell(&self, value: i64) -> String {
        match self.measure {
            Measure::Points => format!("{}.{}", value / 10, value % 10),
            Measure::Ratio => format!("{}.{:02}", value / 100, value % 100),
            Measure::Length => format!("\"{}\"", Length::from_nm(value).number()),
            Measure::Count => value.to_string(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usual_values_lie_in_their_ranges_and_keys_differ() {
        for (place, row) in THRESHOLDS.iter().enumerate() {
            assert!((row.least..=row.most).contains(&row.usual), "{}", row.key);
            assert!(THRESHOLDS[..place].iter().all(|earlier| earlier.key != row.key), "{}", row.key);
        }
    }

    #[test]
    fn senseless_values_are_refused() {
        let mut taste = Taste::default();
        assert_eq!(taste.set(Knob::HeightRatio as usize, 50).map_err(|row| row.key), Err("height.alike"));
        assert_eq!(taste, Taste::default());
        assert!(taste.set(Knob::PaleFaint as usize, 400).is_ok());
        assert!(taste.contradiction().is_some());
    }

    #[test]
    fn values_are_spelled_as_files_do() {
        assert_eq!(Knob::HeightRatio.row().spell(115), "1.15");
        assert_eq!(Knob::HeightMost.row().spell(400), "40.0");
        assert_eq!(Knob::HeightDifference.row().spell(1_500_000), "\"1.5 mm\"");
    }
}
