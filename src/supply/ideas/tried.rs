//! A word of a list: whether it is worth judging, and in which letters it is tried.
//!
//! Must not know what the stash can spell.

use crate::letter::Character;
use crate::title::{CaseRule, Wording};

use super::{IdeaRules, small};

/// The letters of a word.
pub(super) enum Letters<'a> {
    /// Nothing but ASCII.
    Plain(&'a [u8]),
    /// Anything else, in small letters.
    Any(Vec<Character>),
}

/// In which letters a word is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// As the list has it.
    AsWritten,
    /// In capitals.
    Capitals,
    /// With a capital at the beginning of each word.
    FirstCapitals,
    /// In small letters.
    Small,
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

/// The ways in which `word` is tried, the first one first.
pub(super) fn ways(word: &str, case: CaseRule) -> &'static [Way] {
    match case {
        CaseRule::Upper => &[Way::Capitals],
        CaseRule::Lower => &[Way::Small],
        CaseRule::Any | CaseRule::AsWritten if word.chars().any(char::is_uppercase) => {
            &[Way::AsWritten, Way::Capitals, Way::FirstCapitals, Way::Small]
        }
        CaseRule::Any | CaseRule::AsWritten => &[Way::Capitals, Way::FirstCapitals, Way::Small],
    }
}

impl Way {
    /// Writes `word` in these letters into `text`, in place of what is there. A letter whose other case is more than one (ß)
    /// stays as it is.
    pub(super) fn write(self, word: &str, text: &mut String) {
        text.clear();
        let mut begins = true;
        for c in word.chars() {
            text.push(match self {
                Self::AsWritten => c,
                Self::Capitals => upper(c),
                Self::FirstCapitals if begins => upper(c),
                Self::FirstCapitals | Self::Small => lower(c),
            });
            begins = c.is_whitespace();
        }
    }
}

fn upper(c: char) -> char {
    if c.is_ascii() {
        return c.to_ascii_uppercase();
    }
    let mut cases = c.to_uppercase();
    if cases.len() == 1 { cases.next().unwrap_or(c) } else { c }
}

fn lower(c: char) -> char {
    if c.is_ascii() {
        return c.to_ascii_lowercase();
    }
    let mut cases = c.to_lowercase();
    if cases.len() == 1 { cases.next().unwrap_or(c) } else { c }
}
