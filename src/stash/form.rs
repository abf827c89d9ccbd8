//! How a sticker is made: its form, its finish, and which letter its height was taken of.
//!
//! Must not know counts or colours.

use crate::words::words;

words! {
    /// Whether the sticker is cut round the letter or is a small rectangle with the letter printed on it.
    Form {
        /// The letter printed on a small rectangle.
        Tile = "tile",
        /// Cut round the letter.
        DieCut = "die-cut",
    }
}

words! {
    /// Which letter of a die-cut sheet was measured: a lower-case sheet has no capital.
    HeightOf {
        /// A capital.
        Capital = "capital",
        /// A small letter without ascender: a, e, n, x.
        Small = "small",
        /// A tall small letter: b, d, l.
        Tall = "tall",
    }
}

words! {
    /// What the sticker is made of, or how its face looks.
    Finish {
        /// Plain printed paper.
        Matte = "matte",
        /// Shiny paper.
        Gloss = "gloss",
        /// Glittered.
        Glitter = "glitter",
        /// Metal foil.
        Foil = "foil",
        /// Soft and raised.
        Puffy = "puffy",
        /// Raised on foam.
        Foam = "foam",
        /// Thick board.
        Chipboard = "chipboard",
        /// Felt.
        Felt = "felt",
        /// Wood veneer.
        Wood = "wood",
        /// Cork.
        Cork = "cork",
        /// Vinyl.
        Vinyl = "vinyl",
        /// Printed on clear film.
        Clear = "clear",
    }
}

impl Finish {
    /// Foil, wood and cork go with any page (common practice, no source).
    #[must_use]
    pub const fn is_neutral(self) -> bool {
        matches!(self, Self::Foil | Self::Wood | Self::Cork)
    }

    /// Whether a craft knife can trim a letter of this finish: thick and soft ones cannot be (common practice).
    #[must_use]
    pub const fn can_be_trimmed(self) -> bool {
        !matches!(self, Self::Chipboard | Self::Wood | Self::Puffy)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_is_read_back() {
        assert!(Finish::ALL.iter().all(|f| Finish::parse(f.as_str()) == Some(*f)));
        assert_eq!(Form::parse("die-cut"), Some(Form::DieCut));
        assert_eq!(HeightOf::parse("Tall"), None);
    }
}
