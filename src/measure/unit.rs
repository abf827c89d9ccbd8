//! The units that files, prompts and screens offer.
//!
//! Must not know what is measured in them.

use std::fmt;

use super::spelling::{INCH, MM};

/// The unit of a bare number, and of what is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Unit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches.
    Inch,
}

impl Unit {
    /// Reads `mm` or `in` (`inch`, `inches`).
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "mm" => Some(Self::Millimetre),
            "in" | "inch" | "inches" => Some(Self::Inch),
            _ => None,
        }
    }

    /// Nanometres in one.
    pub(super) const fn nm(self) -> i64 {
        match self {
            Self::Millimetre => MM,
            Self::Inch => INCH,
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_reads_back() {
        for unit in [Unit::Millimetre, Unit::Inch] {
            assert_eq!(Unit::parse(&unit.to_string()), Some(unit));
        }
        assert_eq!(Unit::parse("ell"), None);
    }
}
