//! What the title says, and the slots it asks to be filled.
//!
//! Must not know which letters fill them.

use std::ops::Range;

use crate::letter::{Character, CharacterError, characters, normalise};

/// A wording of one line or two, parted into slots.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Wording {
    text: String,
    slots: Vec<Asked>,
}

/// What one slot asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// The character wanted.
    pub character: Character,
    /// The word it belongs to, from 0 through both lines.
    pub word: usize,
    /// The line it stands on: 0 or 1.
    pub line: usize,
}

/// What lies between a slot and the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joint {
    /// Nothing: one word.
    Word,
    /// A gap between words.
    Gap,
    /// The end of the line.
    Line,
}

/// Why a text is no wording.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WordingError {
    /// A strip has one line or two.
    #[error("it has {0} lines; a strip holds one or two")]
    Lines(usize),
    /// More slots than [`Wording::MOST`].
    #[error("it asks for {0} letters; a strip holds at most {most}", most = Wording::MOST)]
    Long(usize),
    /// Something in it cannot be a letter.
    #[error(transparent)]
    Character(CharacterError),
}

impl Wording {
    /// The most slots that a strip holds.
    pub const MOST: usize = 200;

    /// Parts `text` into slots by grapheme cluster (UAX #29), after NFC and folding of curly quotes and dashes. White
    /// space takes no slot; a line break starts the second line.
    ///
    /// # Errors
    /// More than two lines, more than [`Wording::MOST`] letters, or a control character.
    pub fn new(text: &str) -> Result<Self, WordingError> {
        let text = normalise(text.trim());
        let lines = text.lines().count();
        if lines > 2 {
            return Err(WordingError::Lines(lines));
        }
        let mut slots = Vec::new();
        let mut word = 0;
        for (line, row) in text.lines().enumerate() {
            for one in row.split_whitespace() {
                for cluster in characters(one) {
                    let character = Character::new(cluster).map_err(WordingError::Character)?;
                    slots.push(Asked { character, word, line });
                }
                word += 1;
            }
        }
        if slots.len() > Self::MOST {
            return Err(WordingError::Long(slots.len()));
        }
        Ok(Self { text, slots })
    }

    /// The wording as written, folded.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The slots, in order.
    #[must_use]
    pub fn slots(&self) -> &[Asked] {
        &self.slots
    }

    /// How many slots there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.slots.len()
    }

    /// Whether nothing is asked for.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.slots.is_empty()
    }

    /// What lies between `slot` and the next; `None` at the end.
    #[must_use]
    pub fn joint(&self, slot: usize) -> Option<Joint> {
        let (here, next) = (self.slots.get(slot)?, self.slots.get(slot + 1)?);
        Some(match () {
            () if here.line != next.line => Joint::Line,
            () if here.word != next.word => Joint::Gap,
            () => Joint::Word,
        })
    }

    /// The slots of each word, in order.
    pub fn words(&self) -> impl Iterator<Item = Range<usize>> + '_ {
        self.runs(|asked| asked.word)
    }

    /// The slots of each line, in order.
    pub fn lines(&self) -> impl Iterator<Item = Range<usize>> + '_ {
        self.runs(|asked| asked.line)
    }

    /// The slots of the word that `slot` belongs to.
    #[must_use]
    pub fn word_around(&self, slot: usize) -> Range<usize> {
        self.words().find(|word| word.contains(&slot)).unwrap_or(0..0)
    }

    fn runs(&self, key: impl Fn(&Asked) -> usize + 'static) -> impl Iterator<Item = Range<usize>> + '_ {
        let mut start = 0;
        self.slots.chunk_by(move |a, b| key(a) == key(b)).map(move |run| {
            let range = start..start + run.len();
            start = range.end;
            range
        })
    }

    /// For each slot of `self` the slot of `old` whose letter it can keep: the longest common run of characters in
    /// order, so that a letter put in or taken out in the middle leaves the rest standing.
    #[must_use]
    pub fn kept_from(&self, old: &[Character]) -> Vec<Option<usize>> {
        let new: Vec<&Character> = self.slots.iter().map(|asked| &asked.character).collect();
        let width = old.len() + 1;
        let mut longest = vec![0_u32; (new.len() + 1) * width];
        for i in (0..new.len()).rev() {
            for j in (0..old.len()).rev() {
                longest[i * width + j] = if *new[i] == old[j] {
                    longest[(i + 1) * width + j + 1] + 1
                } else {
                    longest[(i + 1) * width + j].max(longest[i * width + j + 1])
                };
            }
        }
        let (mut i, mut j) = (0, 0);
        let mut kept = vec![None; new.len()];
        while i < new.len() && j < old.len() {
            if *new[i] == old[j] {
                kept[i] = Some(j);
                (i, j) = (i + 1, j + 1);
            } else if longest[(i + 1) * width + j] >= longest[i * width + j + 1] {
                i += 1;
            } else {
                j += 1;
            }
        }
        kept
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn white_space_takes_no_slot_and_a_break_starts_the_second_line() {
        let wording = Wording::new("  AT  THE\nQUAY ").unwrap();
        assert_eq!(wording.len(), 9);
        assert_eq!(wording.words().collect::<Vec<_>>(), [0..2, 2..5, 5..9]);
        assert_eq!(wording.lines().collect::<Vec<_>>(), [0..5, 5..9]);
        assert_eq!(wording.joint(0), Some(Joint::Word));
        assert_eq!(wording.joint(1), Some(Joint::Gap));
        assert_eq!(wording.joint(4), Some(Joint::Line));
        assert_eq!(wording.joint(8), None);
    }

    #[test]
    fn graphemes_are_slots() {
        assert_eq!(Wording::new("CAFE\u{301}").unwrap().len(), 4);
    }

    #[test]
    fn three_lines_are_too_many() {
        assert_eq!(Wording::new("A\nB\nC"), Err(WordingError::Lines(3)));
        assert_eq!(Wording::new(&"A".repeat(201)), Err(WordingError::Long(201)));
    }

    #[test]
    fn a_changed_wording_keeps_what_it_can() {
        let old: Vec<Character> = ["L", "A", "M", "P"].iter().map(|c| Character::new(c).unwrap()).collect();
        let new = Wording::new("LAPS").unwrap();
        assert_eq!(new.kept_from(&old), [Some(0), Some(1), Some(3), None]);
        assert!(Wording::new("").unwrap().kept_from(&old).is_empty());
    }
}
