//! Which characters run out first.
//!
//! Must not know wishes.

use std::collections::BTreeMap;

use crate::letter::{Character, share};
use crate::stash::{ChipIx, Stash};

/// How long the letters last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Running {
    /// A to Z, the one that runs out first in front; of those that are gone already the one that is needed most.
    pub letters: Vec<RunningOut>,
    /// Figures, signs and letters with marks, which have no published share: those that once were there and are gone, in order.
    pub gone: Vec<Character>,
}

/// How long one letter lasts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunningOut {
    /// The capital: A to Z.
    pub letter: Character,
    /// Capitals left.
    pub capitals: u32,
    /// Small letters left.
    pub small: u32,
    /// Letters of English text until they are used up, all letters of the text counted.
    pub text: u64,
}

impl Running {
    /// Reckons with what is on hand in `stash`; `spare` says how many of a chip are kept for something else.
    #[must_use]
    pub fn new(stash: &Stash, spare: impl Fn(ChipIx) -> u16) -> Self {
        let mut left: BTreeMap<&Character, u32> = BTreeMap::new();
        for chip in stash.chips() {
            let seen = stash.chip(chip);
            let there = seen.on_hand().saturating_sub(spare(chip));
            *left.entry(&seen.letter.character).or_default() += u32::from(there);
        }
        let count = |character: &Character| left.get(character).copied().unwrap_or(0);
        let capitals = ('A'..='Z').filter_map(|letter| Character::new(letter.encode_utf8(&mut [0; 4])).ok());
        let mut letters: Vec<(u64, u64, RunningOut)> = capitals
            .filter_map(|letter| {
                let (share, small) =
                    (u64::from(share(&letter)?), letter.to_lower().map_or(0, |small| count(&small)));
                let capitals = count(&letter);
                let all = u64::from(capitals + small);
                // A share is in thousandths of a per cent.
                Some((all, share, RunningOut { letter, capitals, small, text: all * 100_000 / share }))
            })
            .collect();
        letters.sort_by(|a, b| (a.0 * b.1, b.1).cmp(&(b.0 * a.1, a.1)));
        let letters = letters.into_iter().map(|(_, _, letter)| letter).collect();
        let mut gone: Vec<Character> = left
            .iter()
            .filter(|(one, left)| **left == 0 && share(one).is_none())
            .map(|(one, _)| (*one).clone())
            .collect();
        gone.sort_by_key(Character::in_order);
        Self { letters, gone }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::sheet;
    use super::*;

    fn order(running: &Running) -> String {
        running.letters.iter().map(|one| one.letter.as_str()).collect()
    }

    #[test]
    fn what_is_needed_most_runs_out_first_where_all_are_equally_many() {
        let every: String = ('A'..='Z').collect();
        let twice = every.to_lowercase().repeat(3);
        let running = Running::new(&Stash::new(vec![sheet("a", &every), sheet("b", &twice)]), |_| 0);
        assert_eq!(order(&running), "ETAOINSHRDLCUMWFGYPBVKJXQZ");
        let first = &running.letters[0];
        assert_eq!((first.capitals, first.small, first.text), (1, 3, 31), "4 in 0.12702");
        assert!(running.gone.is_empty());
    }

    #[test]
    fn what_is_gone_comes_first_and_signs_are_told_apart() {
        let mut short = sheet("a", "EEAAAAAAAAAAAAAA7&&É");
        for letter in &mut short.letters {
            letter.left *= u16::from(!matches!(letter.character.as_str(), "7" | "É"));
        }
        let running = Running::new(&Stash::new(vec![short]), |_| 0);
        assert!(order(&running).starts_with('T') && order(&running).ends_with("ZEA"));
        let gone: Vec<&str> = running.gone.iter().map(Character::as_str).collect();
        assert_eq!(gone, ["É", "7"]);
    }
}
