//! A key as the program and its files speak of it: `ctrl-s`, `shift-left`, `f1`, `space`, `?`.
//!
//! Must not know what any key does, or which library read it.

use std::fmt;
use std::str::FromStr;

/// A key with what was held down beside it, in the one spelling that a terminal can tell apart.
///
/// Two presses that terminals report alike are one `Key`: a character already says whether shift was held, and beside
/// ctrl a letter has no case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    code: KeyCode,
    ctrl: bool,
    alt: bool,
    shift: bool,
}

/// The key alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum KeyCode {
    /// A key that types this character; a capital letter is its own character.
    Char(char),
    /// The enter or return key.
    Enter,
    /// The escape key.
    Esc,
    /// The tabulator; with shift it goes back.
    Tab,
    /// Takes away what is before the cursor.
    Backspace,
    /// Takes away what is under the cursor.
    Delete,
    /// The insert key.
    Insert,
    /// The left arrow.
    Left,
    /// The right arrow.
    Right,
    /// The up arrow.
    Up,
    /// The down arrow.
    Down,
    /// To the start.
    Home,
    /// To the end.
    End,
    /// One screenful up.
    PageUp,
    /// One screenful down.
    PageDown,
    /// A function key, 1 to 24.
    F(u8),
}

/// Why a word is no key.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// The word names no key.
    #[error("\"{0}\" is no key: write one character, or a word such as enter, space, left, page-up, f1")]
    Unknown(String),
    /// Shift was written beside a character that has no capital.
    #[error("\"shift-{0}\" is no key of its own: write the character that it types")]
    ShiftedSign(char),
    /// A terminal sends the same for this key as for another.
    #[error("a terminal cannot tell \"{written}\" from \"{seen_as}\": write \"{seen_as}\"")]
    SeenAs {
        /// What was written.
        written: String,
        /// What reaches the program.
        seen_as: String,
    },
}

/// The keys that have a word instead of a character.
const WORDS: [(&str, KeyCode); 15] = [
    ("enter", KeyCode::Enter),
    ("esc", KeyCode::Esc),
    ("tab", KeyCode::Tab),
    ("space", KeyCode::Char(' ')),
    ("backspace", KeyCode::Backspace),
    ("delete", KeyCode::Delete),
    ("insert", KeyCode::Insert),
    ("left", KeyCode::Left),
    ("right", KeyCode::Right),
    ("up", KeyCode::Up),
    ("down", KeyCode::Down),
    ("home", KeyCode::Home),
    ("end", KeyCode::End),
    ("page-up", KeyCode::PageUp),
    ("page-down", KeyCode::PageDown),
];

/// The highest function key that terminals have a sequence for.
const LAST_F: u8 = 24;

impl Key {
    /// Suspends the program. The terminal's loop takes it before anything else sees it, so it cannot be bound.
    pub const SUSPEND: Self = Self { code: KeyCode::Char('z'), ctrl: true, alt: false, shift: false };

    /// A key with nothing held beside it.
    #[must_use]
    pub const fn plain(code: KeyCode) -> Self {
        Self { code, ctrl: false, alt: false, shift: false }
    }

    /// The same key with ctrl held; a letter loses its case.
    #[must_use]
    pub const fn with_ctrl(self) -> Self {
        let code = match self.code {
            KeyCode::Char(c) => KeyCode::Char(c.to_ascii_lowercase()),
            other => other,
        };
        Self { code, ctrl: true, ..self }
    }

    /// The same key with alt held.
    #[must_use]
    pub const fn with_alt(self) -> Self {
        Self { alt: true, ..self }
    }

    /// The same key with shift held; a small letter becomes its capital, any other character stays as it is.
    #[must_use]
    pub fn with_shift(self) -> Self {
        match self.code {
            KeyCode::Char(_) if self.ctrl => self,
            KeyCode::Char(c) => Self { code: KeyCode::Char(capital(c).unwrap_or(c)), ..self },
            _ => Self { shift: true, ..self },
        }
    }

    /// The key alone.
    #[must_use]
    pub const fn code(self) -> KeyCode {
        self.code
    }

    /// Whether ctrl was held.
    #[must_use]
    pub const fn ctrl(self) -> bool {
        self.ctrl
    }

    /// Whether alt was held.
    #[must_use]
    pub const fn alt(self) -> bool {
        self.alt
    }

    /// Whether shift was held; never beside a character, which says so itself.
    #[must_use]
    pub const fn shift(self) -> bool {
        self.shift
    }

    /// The character that this key types into a text, if it types one.
    #[must_use]
    pub const fn typed(self) -> Option<char> {
        match self.code {
            KeyCode::Char(c) if !self.ctrl && !self.alt => Some(c),
            _ => None,
        }
    }

    /// Reads a key as files and help spell it: `ctrl-`, `alt-` and `shift-` in any order, then a character or a word.
    /// Reading what [`Display`](fmt::Display) writes gives the same key.
    ///
    /// # Errors
    ///
    /// A word that is no key, and a key that no terminal can tell from another.
    pub fn parse(word: &str) -> Result<Self, KeyError> {
        let (mut ctrl, mut alt, mut shift) = (false, false, false);
        let mut name = word;
        loop {
            let (held, rest) = if let Some(rest) = name.strip_prefix("ctrl-") {
                (&mut ctrl, rest)
            } else if let Some(rest) = name.strip_prefix("alt-") {
                (&mut alt, rest)
            } else if let Some(rest) = name.strip_prefix("shift-") {
                (&mut shift, rest)
            } else {
                break;
            };
            if *held {
                return Err(KeyError::Unknown(word.to_owned()));
            }
            *held = true;
            name = rest;
        }
        let code = code(name).ok_or_else(|| KeyError::Unknown(word.to_owned()))?;
        if let (KeyCode::Char(c), true, false) = (code, shift, ctrl)
            && capital(c).is_none()
        {
            return Err(KeyError::ShiftedSign(c));
        }
        let mut key = Self::plain(code);
        key = if ctrl { key.with_ctrl() } else { key };
        key = if alt { key.with_alt() } else { key };
        key = if shift { key.with_shift() } else { key };
        let seen_as = key.seen_as();
        let shift_is_lost = ctrl && shift && !key.shift;
        if seen_as != key || shift_is_lost {
            return Err(KeyError::SeenAs { written: word.to_owned(), seen_as: seen_as.to_string() });
        }
        Ok(key)
    }

    /// The key that a terminal reports for this one: three of them send the same control characters as others.
    fn seen_as(self) -> Self {
        let code = match self.code {
            KeyCode::Char('i') if self.ctrl => KeyCode::Tab,
            KeyCode::Char('m') if self.ctrl => KeyCode::Enter,
            KeyCode::Char('[') if self.ctrl => KeyCode::Esc,
            _ => return self,
        };
        Self { code, ctrl: false, ..self }
    }
}

impl FromStr for Key {
    type Err = KeyError;

    fn from_str(word: &str) -> Result<Self, KeyError> {
        Self::parse(word)
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut word = String::new();
        for (held, prefix) in [(self.ctrl, "ctrl-"), (self.alt, "alt-"), (self.shift, "shift-")] {
            if held {
                word.push_str(prefix);
            }
        }
        if let Some((name, _)) = WORDS.iter().find(|(_, code)| *code == self.code) {
            word.push_str(name);
        } else if let KeyCode::Char(c) = self.code {
            word.push(c);
        } else if let KeyCode::F(number) = self.code {
            word.push('f');
            word.push_str(&number.to_string());
        }
        f.pad(&word)
    }
}

/// The key that a word or a single character names.
fn code(name: &str) -> Option<KeyCode> {
    let mut characters = name.chars();
    if let (Some(c), None) = (characters.next(), characters.next()) {
        return (!c.is_control() && !c.is_whitespace()).then_some(KeyCode::Char(c));
    }
    if let Some((_, code)) = WORDS.iter().find(|(word, _)| *word == name) {
        return Some(*code);
    }
    let digits = name.strip_prefix('f').filter(|digits| !digits.starts_with(['0', '+']))?;
    digits.parse().ok().filter(|number| (1..=LAST_F).contains(number)).map(KeyCode::F)
}

/// The capital of a small letter, where that is one character.
fn capital(c: char) -> Option<char> {
    let mut upper = c.to_uppercase();
    match (upper.next(), upper.next()) {
        (Some(one), None) if c.is_alphabetic() => Some(one),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

    use super::{Key, KeyCode, KeyError, WORDS};
    use proptest::prelude::*;

    #[test]
    fn files_words_give_the_keys_they_name() {
        let s = Key::plain(KeyCode::Char('s'));
        assert_eq!(Key::parse("s").unwrap(), s);
        assert_eq!(Key::parse("ctrl-s").unwrap(), s.with_ctrl());
        assert_eq!(Key::parse("alt-ctrl-s").unwrap(), s.with_ctrl().with_alt());
        assert_eq!(Key::parse("shift-left").unwrap(), Key::plain(KeyCode::Left).with_shift());
        assert_eq!(Key::parse("f12").unwrap(), Key::plain(KeyCode::F(12)));
        assert_eq!(Key::parse("space").unwrap(), Key::plain(KeyCode::Char(' ')));
        assert_eq!(Key::parse("ctrl--").unwrap(), Key::plain(KeyCode::Char('-')).with_ctrl());
        assert_eq!(Key::parse("?").unwrap(), Key::plain(KeyCode::Char('?')));
    }

    #[test]
    fn one_press_has_one_spelling() {
        assert_eq!(Key::parse("shift-a").unwrap(), Key::parse("A").unwrap());
        assert_eq!(Key::parse("ctrl-S").unwrap(), Key::parse("ctrl-s").unwrap());
        assert_ne!(Key::parse("alt-A").unwrap(), Key::parse("alt-a").unwrap());
        assert_eq!(Key::parse("A").unwrap().typed(), Some('A'));
        assert_eq!(Key::parse("alt-A").unwrap().typed(), None);
        assert_eq!(Key::SUSPEND, Key::parse("ctrl-z").unwrap());
    }

    #[test]
    fn what_is_no_key_says_what_would_do() {
        let words =
            ["", "ctrl-", "hyper-s", "ctrl-ctrl-s", "f0", "f25", "f01", "f+1", "pageup", "ab", " ", "\t"];
        for word in words {
            assert_eq!(Key::parse(word), Err(KeyError::Unknown(word.to_owned())), "{word:?}");
        }
        assert_eq!(Key::parse("shift-1"), Err(KeyError::ShiftedSign('1')));
        let lost = Key::parse("ctrl-I").unwrap_err().to_string();
        assert_eq!(lost, "a terminal cannot tell \"ctrl-I\" from \"tab\": write \"tab\"");
        let lost = Key::parse("ctrl-shift-a").unwrap_err().to_string();
        assert_eq!(lost, "a terminal cannot tell \"ctrl-shift-a\" from \"ctrl-a\": write \"ctrl-a\"");
    }

    #[test]
    fn key_words_fill_a_column() {
        assert_eq!(format!("[{:<8}]", Key::parse("ctrl-s").unwrap()), "[ctrl-s  ]");
    }

    fn any_code() -> impl Strategy<Value = KeyCode> {
        prop_oneof![
            prop::sample::select(WORDS.map(|(_, code)| code).to_vec()),
            (1..=24_u8).prop_map(KeyCode::F),
            any::<char>()
                .prop_filter("typed", |c| !c.is_control() && !c.is_whitespace())
                .prop_map(KeyCode::Char),
        ]
    }

    proptest! {
        #[test]
        fn what_is_shown_reads_back(code in any_code(), ctrl: bool, alt: bool, shift: bool) {
            let mut key = Key::plain(code);
            key = if ctrl { key.with_ctrl() } else { key };
            key = if alt { key.with_alt() } else { key };
            key = if shift { key.with_shift() } else { key };
            match Key::parse(&key.to_string()) {
                Ok(read) => prop_assert_eq!(read, key),
                Err(refused) => prop_assert!(matches!(refused, KeyError::SeenAs { .. }), "{refused}"),
            }
        }

        #[test]
        fn any_word_is_read_or_refused(word in "(ctrl-|alt-|shift-)?\\PC{0,3}") {
            if let Ok(key) = Key::parse(&word) {
                prop_assert_eq!(Key::parse(&key.to_string()), Ok(key));
            }
        }
    }
}
