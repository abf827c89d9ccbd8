//! Lengths: whole nanometres inside, every spelling of a craft ruler outside.
//!
//! Must not know what is measured.

use super::spelling::{INCH, MM, fraction, mixed, split_unit};
use super::{Hundredths, Unit};

/// The furthest that anything lies or reaches: 5 m.
const FAR: i64 = 5_000 * MM;

/// A length in whole nanometres, so that 1/64 in = 396,875 is exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Length(i64);

/// Why a text or number is no length, or not one that serves.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// It cannot be read.
    #[error("{0:?} is no length; write one such as \"12 mm\", \"1.2 cm\" or \"1 1/4 in\"")]
    Unreadable(String),
    /// It is larger than anything on a craft table.
    #[error("{0} is beyond 5 m either way")]
    Far(String),
    /// A size of nothing, or less.
    #[error("{0} is no size; it must be above 0")]
    NotAbove0(String),
    /// A page larger than 1 m a side.
    #[error("{0} is too large; a page is at most 1 m a side")]
    LargePage(String),
}

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);

    /// Whole nanometres.
    #[must_use]
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// Whole millimetres.
    #[must_use]
    pub const fn from_mm(mm: i64) -> Self {
        Self(mm.saturating_mul(MM))
    }

    /// Millimetres, rounded to the nanometre, half away from zero. No number gives none; what is too large saturates.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "saturates; everything lies within 5 m")]
    pub fn from_mm_f64(mm: f64) -> Self {
        Self((mm * 1e6).round() as i64)
    }

    /// Whole nanometres.
    #[must_use]
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// Millimetres; exact for everything within 5 m up to the last bit of a double.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "5 m are 5e9 nm, far below 2^53")]
    pub fn mm(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// Without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// Multiplied and rounded to the nanometre, half away from zero.
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "saturates; everything lies within 5 m"
    )]
    pub fn scale(self, by: f64) -> Self {
        Self((self.0 as f64 * by).round() as i64)
    }

    /// The larger over the smaller, rounded half away from zero to 0.01. Where either is not above 0 the ratio is the
    /// largest there is, unless both are equal: 1.
    #[must_use]
    pub fn ratio(self, other: Self) -> Hundredths {
        let (small, large) = (self.0.min(other.0), self.0.max(other.0));
        if small == large {
            return Hundredths::new(100);
        }
        if small <= 0 {
            return Hundredths::new(i32::MAX);
        }
        let (small, large) = (i128::from(small), i128::from(large));
        let rounded = (large * 200 + small) / (small * 2);
        Hundredths::new(i32::try_from(rounded).unwrap_or(i32::MAX))
    }

    /// Reads `12 mm`, `1.2 cm`, `0.5 in`, `1/2 in`, `1 1/4 in`, `1-1/4 in`, `1¼"`, or a bare number in `bare`. Decimals
    /// are read exactly and rounded half away from zero to the nanometre; digits after the 18th decimal are dropped.
    ///
    /// # Errors
    /// When it cannot be read, or is beyond 5 m either way.
    pub fn parse(text: &str, bare: Unit) -> Result<Self, LengthError> {
        let unreadable = || LengthError::Unreadable(text.to_owned());
        let (number, nm) = split_unit(text.trim(), bare.nm());
        let (sign, number) = match number.trim().strip_prefix(['-', '−']) {
            Some(rest) => (-1, rest.trim()),
            None => (1, number.trim()),
        };
        let (top, bottom) = fraction(number).ok_or_else(unreadable)?;
        let far = || LengthError::Far(text.split_whitespace().collect::<Vec<_>>().join(" "));
        let doubled =
            top.checked_mul(i128::from(nm) * 2).and_then(|n| n.checked_add(bottom)).ok_or_else(far)?;
        let nm = i64::try_from(doubled / (bottom * 2)).map_err(|_| far())?;
        if nm > FAR { Err(far()) } else { Ok(Self(sign * nm)) }
    }

    /// A bare number in `unit`.
    ///
    /// # Errors
    /// When it is no number, or beyond 5 m either way.
    pub fn from_number(number: f64, unit: Unit) -> Result<Self, LengthError> {
        if !number.is_finite() {
            return Err(LengthError::Unreadable(number.to_string()));
        }
        Self::parse(&number.to_string(), unit)
    }

    /// Itself, as a size.
    ///
    /// # Errors
    /// When it is not above 0, or beyond 5 m.
    pub fn as_size(self) -> Result<Self, LengthError> {
        if self.0 <= 0 { Err(LengthError::NotAbove0(self.number())) } else { self.as_offset() }
    }

    /// Itself, as an offset, gap or place.
    ///
    /// # Errors
    /// When it is beyond 5 m either way.
    pub fn as_offset(self) -> Result<Self, LengthError> {
        if self.0.unsigned_abs() > FAR.unsigned_abs() {
            Err(LengthError::Far(self.number()))
        } else {
            Ok(self)
        }
    }

    /// Itself, as a side of a page.
    ///
    /// # Errors
    /// When it is not above 0, or beyond 1 m.
    pub fn as_page_side(self) -> Result<Self, LengthError> {
        if self.0 > 1_000 * MM { Err(LengthError::LargePage(self.number())) } else { self.as_size() }
    }

    /// As screens show it: millimetres with one decimal (`25.0 mm`), inches to the nearest 1/16 as a craft ruler reads
    /// (`1 3/16 in`).
    #[must_use]
    pub fn show(self, unit: Unit) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let nm = i128::from(self.0).abs();
        match unit {
            Unit::Millimetre => {
                let tenths = (nm + i128::from(MM) / 20) / (i128::from(MM) / 10);
                let sign = if tenths == 0 { "" } else { sign };
                format!("{sign}{}.{} mm", tenths / 10, tenths % 10)
            }
            Unit::Inch => {
                let sixteenths = (nm * 16 + i128::from(INCH) / 2) / i128::from(INCH);
                let sign = if sixteenths == 0 { "" } else { sign };
                format!("{sign}{} in", mixed(sixteenths))
            }
        }
    }

    /// As files spell it: the shortest decimal of millimetres that is exact, such as `12.7 mm`.
    #[must_use]
    pub fn number(self) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, rest) = (self.0.unsigned_abs() / 1_000_000, self.0.unsigned_abs() % 1_000_000);
        if rest == 0 {
            return format!("{sign}{whole} mm");
        }
        let decimals = format!("{rest:06}");
        format!("{sign}{whole}.{} mm", decimals.trim_end_matches('0'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn nm(text: &str) -> Option<i64> {
        Length::parse(text, Unit::Millimetre).ok().map(Length::nm)
    }

    #[test]
    fn every_spelling_of_a_ruler() {
        let quarter = Some(31_750_000);
        for text in [
            "1 1/4 in",
            "1-1/4 in",
            "1¼\"",
            "1 ¼ in",
            "1.25 in",
            "31.75 mm",
            "3.175 cm",
            "31.75",
            "1 1/4 inches",
        ] {
            assert_eq!(nm(text), quarter, "{text}");
        }
        assert_eq!(nm("1/64 in"), Some(396_875));
        assert_eq!(nm("½ in"), Some(12_700_000));
        assert_eq!(nm("-0.5 mm"), Some(-500_000));
        assert_eq!(nm(".5 mm"), Some(500_000));
        assert_eq!(Length::parse("2", Unit::Inch), Ok(Length::from_nm(50_800_000)));
    }

    #[test]
    fn what_is_no_length_is_told() {
        for text in [
            "",
            "mm",
            "twelve",
            "1/0 in",
            "1..2",
            "12 parsecs",
            "nan",
            "inf",
            "1e3",
            "--1",
            "1/2/3",
            ".",
            "--1/4 in",
            "1--1/4 in",
            "1 -- ½",
            "-",
            "12- mm",
            "12 -",
            "1.5/4",
            "1/-4",
            "5 m",
        ] {
            assert!(
                matches!(Length::parse(text, Unit::Millimetre), Err(LengthError::Unreadable(_))),
                "{text:?}"
            );
        }
        for text in ["6000 mm", "-200 in", "123456789012 mm", "999999999999999999 in"] {
            assert!(matches!(Length::parse(text, Unit::Millimetre), Err(LengthError::Far(_))), "{text:?}");
        }
        let told = Length::parse("12 parsecs", Unit::Millimetre).map_err(|error| error.to_string());
        assert_eq!(
            told,
            Err("\"12 parsecs\" is no length; write one such as \"12 mm\", \"1.2 cm\" or \"1 1/4 in\""
                .to_owned())
        );
        let told = Length::parse("6000\u{b}\n mm", Unit::Millimetre).map_err(|error| error.to_string());
        assert_eq!(
            told,
            Err("6000 mm is beyond 5 m either way".to_owned()),
            "no control character is passed on"
        );
        assert!(Length::ZERO.as_size().is_err());
        assert!(Length::from_mm(1_001).as_page_side().is_err());
        assert!(Length::from_number(f64::NAN, Unit::Inch).is_err());
    }

    #[test]
    fn shown_as_a_ruler_reads() {
        assert_eq!(Length::from_mm(25).show(Unit::Millimetre), "25.0 mm");
        assert_eq!(Length::from_nm(30_162_500).show(Unit::Inch), "1 3/16 in");
        assert_eq!(Length::from_nm(-6_350_000).show(Unit::Inch), "-1/4 in");
        assert_eq!(Length::from_nm(-10_000).show(Unit::Millimetre), "0.0 mm");
        assert_eq!(Length::from_nm(396_875).number(), "0.396875 mm");
    }

    #[test]
    fn ratios_are_rounded_half_away() {
        assert_eq!(Length::from_mm(25).ratio(Length::from_mm(19)).to_string(), "1.32");
        assert_eq!(Length::from_nm(1_005).ratio(Length::from_nm(1_000)).get(), 101);
        assert_eq!(Length::ZERO.ratio(Length::from_mm(1)).get(), i32::MAX);
    }

    #[test]
    fn scaling_rounds_half_away_to_the_nanometre() {
        assert_eq!(Length::from_nm(5).scale(0.5).nm(), 3);
        assert_eq!(Length::from_nm(-5).scale(0.5).nm(), -3);
        for nm in (1..20_001).step_by(2) {
            assert_eq!(Length::from_nm(nm).scale(0.5).nm(), (nm + 1) / 2, "{nm} nm");
        }
    }

    #[test]
    fn the_ends_of_the_range_stay_whole() {
        for extreme in [Length::from_nm(i64::MIN), Length::from_nm(i64::MAX), Length::from_mm(i64::MIN)] {
            assert!(extreme.as_offset().is_err(), "{extreme:?}");
            assert!(extreme.abs() > Length::ZERO && extreme.abs().as_size().is_err(), "{extreme:?}");
        }
        assert_eq!((-Length::from_nm(i64::MIN)).nm(), i64::MAX);
        assert_eq!(Length::from_mm(5_000).as_size(), Ok(Length::from_mm(5_000)));
        assert_eq!(Length::from_mm(1_000).as_page_side(), Ok(Length::from_mm(1_000)));
        assert!(Length::from_nm(5_000_000_001).as_offset().is_err());
    }
}
