//! A character: what one sticker carries and one slot asks for.
//!
//! Must not know sheets or strips.

use std::fmt;
use std::sync::Arc;

use unicode_normalization::{UnicodeNormalization, is_nfc};
use unicode_segmentation::UnicodeSegmentation;

/// One grapheme cluster (UAX #29) in NFC, without U+FE0E and U+FE0F, curly quotes and dashes folded to plain ones.
/// Case matters.
#[derive(Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Character(Text);

/// Letters of ASCII, nearly all there are, need no memory of their own.
#[derive(Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
enum Text {
    Plain(u8),
    Other(Arc<str>),
}

/// Why a text is no character.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CharacterError {
    /// Nothing, or white space.
    #[error("there is no letter here; write one, such as \"E\"")]
    Empty,
    /// More than one.
    #[error("{0:?} is more than one letter; write them one by one")]
    Several(String),
    /// A control character, or a mark that only steers direction.
    #[error("{0:?} holds a control character; a letter must be one that can be seen")]
    Control(String),
}

/// Every ASCII character, so that a plain one can be shown as text.
const ASCII: &str = "\0\x01\x02\x03\x04\x05\x06\x07\x08\t\n\x0b\x0c\r\x0e\x0f\x10\x11\x12\x13\x14\x15\x16\x17\x18\x19\x1a\
\x1b\x1c\x1d\x1e\x1f !\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~\x7f";

impl Character {
    /// Reads one grapheme cluster.
    ///
    /// # Errors
    /// When there is none, more than one, or it holds a control character.
    pub fn new(text: &str) -> Result<Self, CharacterError> {
        if let &[byte] = text.as_bytes()
            && byte.is_ascii_graphic()
        {
            return Ok(Self(Text::Plain(byte)));
        }
        let folded = normalise(text);
        // A mark on white space is one cluster, but nothing that a sticker can carry.
        if folded.trim().is_empty() || (folded.starts_with(char::is_whitespace) && is_one(&folded)) {
            return Err(CharacterError::Empty);
        }
        if folded.chars().any(is_unseen) {
            return Err(CharacterError::Control(text.to_owned()));
        }
        if !is_one(&folded) {
            return Err(CharacterError::Several(text.to_owned()));
        }
        Ok(match *folded.as_bytes() {
            [byte] => Self(Text::Plain(byte)),
            _ => Self(Text::Other(folded.into())),
        })
    }

    /// The cluster as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        match &self.0 {
            Text::Plain(byte) => &ASCII[usize::from(*byte)..=usize::from(*byte)],
            Text::Other(text) => text,
        }
    }

    /// Its first code point; the others of a cluster only mark it.
    #[must_use]
    pub fn base(&self) -> char {
        self.as_str().chars().next().unwrap_or(' ')
    }

    /// Where it stands among others: letters first, capitals before small ones, then figures, then signs.
    #[must_use]
    pub fn in_order(&self) -> (u8, Self) {
        let rank = match self.base() {
            c if c.is_uppercase() => 0,
            c if c.is_alphabetic() => 1,
            c if c.is_numeric() => 2,
            _ => 3,
        };
        (rank, self.clone())
    }

    /// The capital, where that is one grapheme.
    #[must_use]
    pub fn to_upper(&self) -> Option<Self> {
        if let Text::Plain(byte) = self.0 {
            return Some(Self(Text::Plain(byte.to_ascii_uppercase())));
        }
        Self::new(&self.as_str().to_uppercase()).ok()
    }

    /// The small letter, where that is one grapheme.
    #[must_use]
    pub fn to_lower(&self) -> Option<Self> {
        if let Text::Plain(byte) = self.0 {
            return Some(Self(Text::Plain(byte.to_ascii_lowercase())));
        }
        Self::new(&self.as_str().to_lowercase()).ok()
    }

    /// How to print it: itself, or the code point of a mark that cannot stand alone.
    #[must_use]
    pub fn spoken(&self) -> String {
        if unicode_width::UnicodeWidthStr::width(self.as_str()) == 0 {
            return self
                .as_str()
                .chars()
                .map(|c| format!("U+{:04X}", u32::from(c)))
                .collect::<Vec<_>>()
                .join(" ");
        }
        self.as_str().to_owned()
    }
}

impl fmt::Display for Character {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl fmt::Debug for Character {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(self.as_str(), f)
    }
}

/// The grapheme clusters of a text, as written.
pub fn characters(text: &str) -> impl Iterator<Item = &str> {
    text.graphemes(true)
}

/// A text in NFC, without U+FE0E and U+FE0F, curly quotes and dashes folded to plain ones; white space and line breaks
/// stay.
#[must_use]
pub fn normalise(text: &str) -> String {
    if text.is_ascii() {
        return text.to_owned();
    }
    let folded = text.chars().filter(|c| !matches!(c, '\u{fe0e}' | '\u{fe0f}')).map(fold);
    let folded: String = folded.collect();
    if is_nfc(&folded) { folded } else { folded.nfc().collect() }
}

const fn fold(c: char) -> char {
    match c {
        '\u{2018}' | '\u{2019}' | '\u{201a}' | '\u{201b}' => '\'',
        '\u{201c}' | '\u{201d}' | '\u{201e}' | '\u{201f}' => '"',
        '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
        _ => c,
    }
}

fn is_one(text: &str) -> bool {
    text.graphemes(true).nth(1).is_none()
}

/// Control characters, and the format characters of Unicode that only steer direction, joining or line breaks. The two
/// joiners that hold clusters together and the tags that spell flags are no such thing.
fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}')
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn one_spelling_of_each() {
        assert_eq!(Character::new("e\u{301}").unwrap(), Character::new("é").unwrap());
        assert_eq!(Character::new("♥\u{fe0f}").unwrap().as_str(), "♥");
        assert_eq!(Character::new("’").unwrap().as_str(), "'");
        assert_eq!(Character::new("–").unwrap().as_str(), "-");
        assert_ne!(Character::new("a").unwrap(), Character::new("A").unwrap());
    }

    #[test]
    fn what_is_no_character_is_told() {
        assert_eq!(Character::new(""), Err(CharacterError::Empty));
        assert_eq!(Character::new(" "), Err(CharacterError::Empty));
        assert_eq!(Character::new("AB"), Err(CharacterError::Several("AB".into())));
        assert!(matches!(Character::new("\u{1b}"), Err(CharacterError::Control(_))));
        for unseen in ["\u{202e}", "\u{61c}", "\u{ad}", "\u{2069}", "\u{2028}"] {
            let error = Character::new(&format!("A{unseen}")).unwrap_err();
            assert!(matches!(error, CharacterError::Control(_)));
            assert!(!error.to_string().contains(unseen), "told without the thing itself");
        }
        assert_eq!(Character::new(" \u{301}"), Err(CharacterError::Empty));
        assert_eq!(Character::new("\u{a0}"), Err(CharacterError::Empty));
    }

    #[test]
    fn case_only_where_it_is_one_letter() {
        assert_eq!(Character::new("é").unwrap().to_upper().unwrap().as_str(), "É");
        assert_eq!(Character::new("ß").unwrap().to_upper(), None);
        assert_eq!(Character::new("q").unwrap().to_upper().unwrap().as_str(), "Q");
        assert_eq!(Character::new("&").unwrap().to_lower().unwrap().as_str(), "&");
    }

    #[test]
    fn a_bare_mark_is_spelled_out() {
        assert_eq!(Character::new("\u{301}").unwrap().spoken(), "U+0301");
    }
}
