//! Colour names: the owner's own, then the open CSS list.
//!
//! Must not know who asks.

use std::collections::BTreeMap;

use super::{Colour, Tint};

/// The owner's own names for colours, over those of the CSS list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ColourNames {
    own: BTreeMap<String, Colour>,
}

impl ColourNames {
    /// The owner's names.
    #[must_use]
    pub const fn new(own: BTreeMap<String, Colour>) -> Self {
        Self { own }
    }

    /// The owner's names, in order.
    pub fn own(&self) -> impl Iterator<Item = (&str, Colour)> {
        self.own.iter().map(|(name, &colour)| (name.as_str(), colour))
    }

    /// Reads an own name, a CSS keyword or `#rrggbb`.
    #[must_use]
    pub fn find(&self, text: &str) -> Option<Tint> {
        let text = text.trim();
        if let Some(colour) = Colour::from_hex(text) {
            return Some(Tint::plain(colour));
        }
        self.own.get(text).copied().or_else(|| Colour::named(text)).map(|colour| Tint::called(text, colour))
    }
}
