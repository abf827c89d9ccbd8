//! Angles: thousandths of a degree, clockwise positive as on a page seen from above.
//!
//! Must not know what is turned.

use std::fmt;
use std::ops::{Add, Neg, Sub};

/// Thousandths of a degree in a full turn.
const FULL: i32 = 360_000;

/// An angle above -180 and up to 180 degrees, clockwise positive, in whole thousandths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Angle(i32);

impl Angle {
    /// Straight.
    pub const ZERO: Self = Self(0);

    /// Whole thousandths of a degree.
    #[must_use]
    pub const fn from_thousandths(thousandths: i32) -> Self {
        let within = thousandths.rem_euclid(FULL);
        Self(if within > FULL / 2 { within - FULL } else { within })
    }

    /// Degrees, rounded to the thousandth; `None` beyond a hundred turns, or for no number.
    #[must_use]
    pub fn from_degrees(degrees: f64) -> Option<Self> {
        #[expect(clippy::cast_possible_truncation, reason = "bounded just before")]
        (degrees.abs() <= 36_000.0).then(|| Self::from_thousandths((degrees * 1000.0).round() as i32))
    }

    /// Whole thousandths of a degree.
    #[must_use]
    pub const fn thousandths(self) -> i32 {
        self.0
    }

    /// Degrees.
    #[must_use]
    pub fn degrees(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// Sine and cosine, by a portable maths library; exact for quarter turns.
    #[must_use]
    pub fn sin_cos(self) -> (f64, f64) {
        match self.0 {
            0 => (0.0, 1.0),
            90_000 => (1.0, 0.0),
            180_000 => (0.0, -1.0),
            -90_000 => (-1.0, 0.0),
            _ => libm::sincos(self.degrees().to_radians()),
        }
    }

    /// As files spell it: the shortest decimal of degrees.
    #[must_use]
    pub fn number(self) -> String {
        self.degrees().to_string()
    }
}

impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", self.degrees())
    }
}

impl Add for Angle {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::from_thousandths(self.0 + other.0)
    }
}

impl Sub for Angle {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::from_thousandths(self.0 - other.0)
    }
}

impl Neg for Angle {
    type Output = Self;
    fn neg(self) -> Self {
        Self::from_thousandths(-self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angles_come_back_into_one_turn() {
        assert_eq!(Angle::from_degrees(270.0).map(Angle::thousandths), Some(-90_000));
        assert_eq!(Angle::from_degrees(-180.0).map(Angle::thousandths), Some(180_000));
        assert_eq!(Angle::from_degrees(f64::NAN), None);
        assert_eq!(Angle::from_thousandths(-3_500).number(), "-3.5");
    }
}
