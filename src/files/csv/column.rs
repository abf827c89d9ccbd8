//! The columns of the table.
//!
//! Must not know what their cells hold.

use crate::words::words;

words! {
    /// A column, by the name that the first line gives it.
    CsvColumn {
        /// The sheet's id, or a name from which an id is made.
        Sheet = "sheet",
        /// Tile or die-cut.
        Form = "form",
        /// The sheet's height.
        Height = "height",
        /// The chip's colours, several with ` + ` between them, the main one first.
        Colour = "colour",
        /// The character, as it is.
        Character = "character",
        /// How many are left.
        Left = "left",
        /// Which letter of a die-cut sheet has that height; empty or missing: a capital.
        HeightOf = "height_of",
        /// The chip's mark; empty or missing: the colour tells which chip is meant.
        Mark = "mark",
    }
}

impl CsvColumn {
    /// Whether a table may lack it.
    #[must_use]
    pub const fn is_optional(self) -> bool {
        matches!(self, Self::HeightOf | Self::Mark)
    }
}
