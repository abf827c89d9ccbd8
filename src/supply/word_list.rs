//! Words and wordings to try: the English ones that the program carries, or a list of the user's own.
//!
//! Must not know what the stash can spell.

use std::borrow::Cow;

/// The words that the program carries; `.licences/README.md` tells where they are from and which were left out.
const ENGLISH: &str = include_str!("words.txt");

/// A list of words or wordings, one a line, the commonest first. It is read line by line as it is gone through: nothing is
/// built from it.
#[derive(Debug, Clone)]
pub struct WordList<'a> {
    text: Cow<'a, str>,
}

impl WordList<'static> {
    /// More than a hundred thousand English words in British spelling, in small letters: by classes of commonness as SCOWL
    /// (Spell Checker Oriented Word Lists) has them, the commonest class first, and by the alphabet within a class. No
    /// names, no abbreviations, nothing with an apostrophe, and no words that would offend.
    #[must_use]
    pub const fn english() -> Self {
        Self { text: Cow::Borrowed(ENGLISH) }
    }
}

impl<'a> WordList<'a> {
    /// The list in `text`: one word or wording a line, in the order in which they are to be tried. Blank lines and those that
    /// begin with `#` are left out, and so are white space around a line, its carriage return and a byte-order mark.
    #[must_use]
    pub fn from_text(text: impl Into<Cow<'a, str>>) -> Self {
        Self { text: text.into() }
    }

    /// This list after the words of `own`.
    #[must_use]
    pub fn after(self, own: &str) -> WordList<'static> {
        WordList { text: Cow::Owned(format!("{own}\n{}", self.text)) }
    }

    /// Each word or wording, the commonest first.
    pub fn words(&self) -> impl Iterator<Item = &str> + Clone {
        let mut from = 0;
        std::iter::from_fn(move || {
            let (word, next) = self.word_from(from)?;
            from = next;
            Some(word)
        })
    }

    /// The first word at or after the byte `from`, and where to look for the one after it; `None` at the end of the list.
    pub(super) fn word_from(&self, mut from: usize) -> Option<(&str, usize)> {
        let text = self.text.strip_prefix('\u{feff}').unwrap_or(&self.text);
        loop {
            let rest = text.get(from..).filter(|rest| !rest.is_empty())?;
            let line = rest.split('\n').next().unwrap_or(rest);
            from += line.len() + 1;
            let word = line.trim();
            if !word.is_empty() && !word.starts_with('#') {
                return Some((word, from));
            }
        }
    }

    /// How many there are; counts them, which takes a while in a long list.
    #[must_use]
    pub fn len(&self) -> usize {
        self.words().count()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.words().next().is_none()
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use unicode_normalization::{UnicodeNormalization as _, char::is_combining_mark, is_nfc};

    use super::*;

    /// The classes of the carried list, each with its words.
    fn classes() -> Vec<(u32, Vec<&'static str>)> {
        let class = |text: &'static str| {
            let (number, words) = text.split_once('\n').unwrap_or((text, ""));
            (number.parse().unwrap_or(0), words.lines().collect())
        };
        ENGLISH.split("# ").skip(1).map(class).collect()
    }

    #[test]
    fn the_english_list_is_long_and_holds_no_word_twice() {
        let list = WordList::english();
        let different: HashSet<&str> = list.words().collect();
        assert_eq!(different.len(), list.len());
        assert!(list.len() >= 100_000 && !list.is_empty(), "{}", list.len());
    }

    #[test]
    fn each_english_word_is_made_of_small_letters() {
        for word in WordList::english().words() {
            assert!(word.chars().all(|c| c.is_alphabetic() && c.is_lowercase()), "{word}");
            assert!(is_nfc(word), "{word}");
        }
    }

    #[test]
    fn the_commonest_class_is_first_and_each_is_in_the_order_of_the_alphabet() {
        let classes = classes();
        let numbers: Vec<u32> = classes.iter().map(|(number, _)| *number).collect();
        assert_eq!(numbers, [10, 20, 35, 40, 50, 55, 60, 70]);
        let plain = |word: &&str| word.nfd().filter(|c| !is_combining_mark(*c)).collect::<String>();
        for (number, words) in &classes {
            assert!(words.is_sorted_by_key(plain), "{number}");
        }
        let all: Vec<&str> = classes.into_iter().flat_map(|(_, words)| words).collect();
        assert!(WordList::english().words().eq(all), "nothing but the classes and their words");
    }

    #[test]
    fn a_list_of_ones_own_is_taken_line_by_line() {
        let list = WordList::from_text(
            "\u{feff}# My own.\r\n\r\nHARBOUR LIGHTS\r\n  quay \n\t\n#pier\nfête #1\nlamp",
        );
        assert_eq!(list.words().collect::<Vec<_>>(), ["HARBOUR LIGHTS", "quay", "fête #1", "lamp"]);
        assert_eq!(list.len(), 4);
        let owned = WordList::from_text(String::from("# nothing\n"));
        assert!(owned.is_empty());
        assert_eq!(owned.len(), 0);
    }
}
