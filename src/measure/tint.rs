//! A colour together with the name its owner gave it.
//!
//! Must not know what is coloured.

use std::borrow::Cow;
use std::sync::Arc;

use super::Colour;

/// A colour and, where the owner named it, that name.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Tint {
    /// The colour itself.
    pub colour: Colour,
    /// The owner's word for it; absent where a file gave only `#rrggbb`.
    pub name: Option<Arc<str>>,
}

impl Tint {
    /// A tint without a name of its own.
    #[must_use]
    pub const fn plain(colour: Colour) -> Self {
        Self { colour, name: None }
    }

    /// A tint that its owner calls `name`.
    #[must_use]
    pub fn called(name: &str, colour: Colour) -> Self {
        Self { colour, name: Some(name.into()) }
    }

    /// The owner's name, or else the nearest name of the open CSS list.
    #[must_use]
    pub fn name(&self) -> Cow<'_, str> {
        match &self.name {
            Some(name) => Cow::Borrowed(name),
            None => Cow::Borrowed(self.colour.nearest_name()),
        }
    }

    /// Whether two lists of colours look the same, whatever they are called.
    #[must_use]
    pub fn are_alike(a: &[Self], b: &[Self]) -> bool {
        a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a.colour == b.colour)
    }
}
