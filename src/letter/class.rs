//! How tall a character's body is, by its kind.
//!
//! Must not know the face.

use unicode_normalization::UnicodeNormalization;

use super::Character;

/// The class of a character.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Class {
    /// A capital.
    Capital,
    /// A small letter that rises above the others: b d f h k l t i j.
    Ascender,
    /// A small letter without ascender or descender.
    Small,
    /// A small letter that hangs below the line: g p q y.
    Descender,
    /// A figure.
    Figure,
    /// Anything else: punctuation, &, hearts and stars.
    Symbol,
}

impl Class {
    /// The class of `character`, by its base letter: é is as tall as e.
    #[must_use]
    pub fn of(character: &Character) -> Self {
        let base = character.base();
        let plain = if base.is_ascii() { base } else { std::iter::once(base).nfd().next().unwrap_or(base) };
        match plain {
            'b' | 'd' | 'f' | 'h' | 'k' | 'l' | 't' | 'i' | 'j' => Self::Ascender,
            'g' | 'p' | 'q' | 'y' => Self::Descender,
            c if c.is_lowercase() => Self::Small,
            c if c.is_alphabetic() => Self::Capital,
            c if c.is_numeric() => Self::Figure,
            _ => Self::Symbol,
        }
    }
}
