//! The figures of the score: points in whole tenths, ratios and differences in whole hundredths.
//!
//! Must not know what costs them.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

use serde::{Serialize, Serializer};

/// A ratio, a contrast or a colour difference, rounded to 0.01 before use so that every machine agrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Hundredths(i32);

/// Points of the score in whole tenths, so that sums are exact. Lower is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Points(i32);

impl Hundredths {
    /// Whole hundredths.
    #[must_use]
    pub const fn new(hundredths: i32) -> Self {
        Self(hundredths)
    }

    /// Rounded half away from zero.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "saturates")]
    pub fn from_f64(value: f64) -> Self {
        Self((value * 100.0).round() as i32)
    }

    /// Whole hundredths.
    #[must_use]
    pub const fn get(self) -> i32 {
        self.0
    }
}

impl fmt::Display for Hundredths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        write!(f, "{sign}{}.{:02}", self.0.unsigned_abs() / 100, self.0.unsigned_abs() % 100)
    }
}

impl Points {
    /// None.
    pub const ZERO: Self = Self(0);

    /// Whole tenths.
    #[must_use]
    pub const fn from_tenths(tenths: i32) -> Self {
        Self(tenths)
    }

    /// Rounded half away from zero.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "saturates")]
    pub fn from_f64(points: f64) -> Self {
        Self((points * 10.0).round() as i32)
    }

    /// Whole tenths.
    #[must_use]
    pub const fn tenths(self) -> i32 {
        self.0
    }

    /// As a number.
    #[must_use]
    pub fn as_f64(self) -> f64 {
        f64::from(self.0) / 10.0
    }

    /// `weight` points for each 1.00 of `amount`, rounded once, half away from zero.
    #[must_use]
    pub fn weighted(weight: Hundredths, amount: Hundredths) -> Self {
        let product = i64::from(weight.0) * i64::from(amount.0);
        let rounded = (product + 500 * product.signum()) / 1000;
        let end = if rounded < 0 { i32::MIN } else { i32::MAX };
        Self(i32::try_from(rounded).unwrap_or(end))
    }
}

impl fmt::Display for Points {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let text = format!("{sign}{}.{}", self.0.unsigned_abs() / 10, self.0.unsigned_abs() % 10);
        f.pad(&text)
    }
}

impl Serialize for Points {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.as_f64())
    }
}

impl Add for Points {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Points {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Points {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Points {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i32> for Points {
    type Output = Self;
    fn mul(self, times: i32) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

impl Sum for Points {
    fn sum<I: Iterator<Item = Self>>(points: I) -> Self {
        points.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounded_once_half_away_from_zero() {
        let weighted =
            |weight, amount| Points::weighted(Hundredths::new(weight), Hundredths::new(amount)).tenths();
        assert_eq!(weighted(8000, 17), 136);
        assert_eq!(weighted(10, 50), 1, "0.05 goes up");
        assert_eq!(weighted(10, 49), 0);
        assert_eq!(weighted(-10, 50), -1, "away from zero below it too");
        assert_eq!((weighted(i32::MAX, i32::MAX), weighted(i32::MAX, i32::MIN)), (i32::MAX, i32::MIN));
        assert_eq!(Points::from_f64(-0.25).tenths(), -3);
    }

    #[test]
    fn written_with_one_decimal() {
        assert_eq!(Points::from_tenths(173).to_string(), "17.3");
        assert_eq!(Points::from_tenths(-4).to_string(), "-0.4");
        assert_eq!(Hundredths::new(132).to_string(), "1.32");
    }
}
