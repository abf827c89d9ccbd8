//! The line that says which ideas are looked for: `4-8 with QZ scarce 1 beside stand-ins`.
//!
//! Must not know how they are looked for.

use crate::letter::{Character, characters};
use crate::supply::IdeaRules;

/// The fewest letters of an idea, where nothing is said of it.
const LEAST: usize = 3;
/// The most.
const MOST: usize = 20;

/// Which ideas are looked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IdeaLine {
    /// What they must be.
    pub rules: IdeaRules,
    /// Whether they must stand beside the wording that is looked at, from the same letters.
    pub beside: bool,
}

impl Default for IdeaLine {
    fn default() -> Self {
        let rules = IdeaRules { least: LEAST, most: MOST, with: Vec::new(), scarce: None, stand_ins: false };
        Self { rules, beside: false }
    }
}

impl IdeaLine {
    /// Reads the words of a line, in any order: `6` or `4-8` letters, `with QZ`, `scarce 1`, `beside`, `stand-ins`.
    ///
    /// # Errors
    /// The word that could not be read, and what would do.
    pub fn read(text: &str) -> Result<Self, String> {
        let mut line = Self::default();
        let mut words = text.split_whitespace();
        while let Some(word) = words.next() {
            match word {
                "with" => {
                    let letters = words.next().ok_or("after \"with\" write letters, such as: with QZ")?;
                    let read = characters(letters).map(Character::new).collect::<Result<Vec<_>, _>>();
                    line.rules.with.extend(read.map_err(|error| error.to_string())?);
                }
                "scarce" => {
                    let most = words.next().and_then(|most| most.parse().ok());
                    line.rules.scarce =
                        Some(most.ok_or("after \"scarce\" write how many at most, such as: scarce 1")?);
                }
                "beside" => line.beside = true,
                "stand-ins" => line.rules.stand_ins = true,
                _ => {
                    let word_told = word.escape_debug();
                    (line.rules.least, line.rules.most) = lengths(word).ok_or_else(|| {
                        format!("\"{word_told}\" is no number of letters (4-8), nor with, scarce, beside or stand-ins")
                    })?;
                }
            }
        }
        Ok(line)
    }
}

/// Reads `6` or `4-8`.
fn lengths(word: &str) -> Option<(usize, usize)> {
    let (least, most) = word.split_once('-').unwrap_or((word, word));
    let (least, most) = (least.parse().ok()?, most.parse().ok()?);
    (1 <= least && least <= most).then_some((least, most))
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn words_in_any_order() {
        assert_eq!(IdeaLine::read(""), Ok(IdeaLine::default()));
        let line = IdeaLine::read("with QuZ beside 4-8 scarce 1 stand-ins").unwrap();
        assert_eq!((line.rules.least, line.rules.most), (4, 8));
        assert_eq!(line.rules.with.iter().map(Character::as_str).collect::<String>(), "QuZ");
        assert_eq!((line.rules.scarce, line.beside, line.rules.stand_ins), (Some(1), true, true));
        assert_eq!(IdeaLine::read("6").unwrap().rules.most, 6);
    }

    #[test]
    fn what_cannot_be_read_is_told() {
        for (text, part) in [
            ("harbour", "\"harbour\" is no number of letters"),
            ("8-4", "\"8-4\" is no number"),
            ("0-3", "\"0-3\" is no number"),
            ("with", "after \"with\""),
            ("scarce few", "after \"scarce\""),
        ] {
            let error = IdeaLine::read(text).unwrap_err();
            assert!(error.contains(part), "{text}: {error}");
        }
    }
}
