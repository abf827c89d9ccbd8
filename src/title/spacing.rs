//! How the letters of a strip are set: gaps, lines and what they line up by.
//!
//! Must not know the letters.

use crate::measure::Length;
use crate::words::words;

words! {
    /// How gaps are measured.
    Spacing {
        /// From box to box.
        Even = "even",
        /// So that the space between two shapes looks alike.
        Optical = "optical",
    }
}

words! {
    /// What the letters of a line share.
    LineUp {
        /// They stand on one line.
        Feet = "feet",
        /// Their middles lie on one line.
        Middle = "middle",
    }
}

/// How a strip is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Setting {
    /// Between letters of a word.
    pub gap: Length,
    /// Between words.
    pub word_gap: Length,
    /// Between the feet of the first line and the tops of the second.
    pub line_gap: Length,
    /// How gaps are measured.
    pub spacing: Spacing,
    /// What the letters line up by.
    pub line_up: LineUp,
}

impl Default for Setting {
    /// 1.5 mm between letters, 7 mm between words, 4 mm between lines: a house choice for letters of 20 to 30 mm.
    fn default() -> Self {
        Self {
            gap: Length::from_nm(1_500_000),
            word_gap: Length::from_mm(7),
            line_gap: Length::from_mm(4),
            spacing: Spacing::Even,
            line_up: LineUp::Feet,
        }
    }
}
