//! A word of a list: whether it is worth judging.
//!
//! Must not know what the stash can spell.

use crate::letter::Character;
use crate::title::Wording;

use super::{IdeaRules, small};

/// The letters of a word.
pub(super) enum Letters<'a> {
    /// Nothing but ASCII.
    Plain(&'a [u8]),
    /// Anything else, in small letters.
    Any(Vec<Character>),
}

impl<'a> Letters<'a> {
    /// The letters of `word`; `None` where it is no wording.
    pub(super) fn of(word: &'a str) -> Option<Self> {
        if word.len() <= Wording::MOST && word.bytes().all(|byte| byte == b' ' || byte.is_ascii_graphic()) {
            return Some(Self::Plain(word.as_bytes()));
        }
        let wording = Wording::new(word).ok()?;
        Some(Self::Any(wording.slots().iter().map(|asked| small(&asked.character)).collect()))
    }

    /// Whether they are as many as they should be, and those of `must`, in small letters, are among them.
    pub(super) fn fit(&self, rules: &IdeaRules, must: &[(Character, usize)]) -> bool {
        let among = |(letter, times): &(Character, usize)| self.count(letter) >= *times;
        (rules.least.max(1)..=rules.most).contains(&self.len()) && must.iter().all(among)
    }

    fn len(&self) -> usize {
        match self {
            Self::Plain(bytes) => bytes.iter().filter(|&&byte| byte != b' ').count(),
            Self::Any(letters) => letters.len(),
        }
    }

    fn count(&self, letter: &Character) -> usize {
        match (self, letter.as_str().as_bytes()) {
            (Self::Plain(bytes), [one]) => bytes.iter().filter(|byte| byte.eq_ignore_ascii_case(one)).count(),
            (Self::Plain(_), _) => 0,
            (Self::Any(letters), _) => letters.iter().filter(|one| *one == letter).count(),
        }
    }
}
