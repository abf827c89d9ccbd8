//! Adding, scaling and summing lengths; what would overflow stops at the end of the range.
//!
//! Must not know what is measured.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::Length;

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::from_nm(self.nm().saturating_add(other.nm()))
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::from_nm(self.nm().saturating_sub(other.nm()))
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self::from_nm(self.nm().saturating_neg())
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, by: i64) -> Self {
        Self::from_nm(self.nm().saturating_mul(by))
    }
}

impl Div<i64> for Length {
    type Output = Self;
    /// Rounded towards zero.
    ///
    /// # Panics
    /// When `by` is 0, as integers do.
    fn div(self, by: i64) -> Self {
        Self::from_nm(self.nm().saturating_div(by))
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}
