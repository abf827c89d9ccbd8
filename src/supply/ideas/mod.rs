//! Words of a list that can be spelled now, found little by little.
//!
//! Must not know how long anyone may wait, nor how an idea is shown.

mod room;
mod tried;

use crate::letter::Character;

use super::Verdict;
use super::band::{Band, BandIx};
use super::demand::Demand;
use super::stock::Supply;
use super::word_list::WordList;
use super::written::Written;

use room::Room;
use tried::Letters;

/// What an idea must be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IdeaRules {
    /// The fewest letters.
    pub least: usize,
    /// The most letters.
    pub most: usize,
    /// Letters that must be in it, each as many times as it stands here; case does not matter.
    pub with: Vec<Character>,
    /// The most scarce letters it may take; `None`: any number.
    pub scarce: Option<u32>,
    /// Whether letters may stand in for others.
    pub stand_ins: bool,
}

/// A word that can be spelled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Idea {
    /// The word, in the letters in which it can be spelled.
    pub text: String,
    /// [`Verdict::Now`] or [`Verdict::StandIns`].
    pub verdict: Verdict,
    /// The band of heights that spells it: of those that do, the one with the fewest scarce letters, and where that is a tie of
    /// the largest ones.
    pub band: Band,
    /// Its place among those of the [`Supply`].
    pub place: BandIx,
    /// How many of its letters are scarce in that band: letters that English needs, of which no more than
    /// [`Ideas::SCARCE`] are left there as themselves.
    pub scarce: u32,
}

/// A search through a list, word by word; keeps its place and what it has found.
#[derive(Debug)]
pub struct Ideas {
    rules: IdeaRules,
    must: Vec<(Character, usize)>,
    beside: Demand,
    place: usize,
    looked_at: usize,
    found: Vec<Idea>,
    room: Room,
}

impl Ideas {
    /// So many of a letter are few: at most 3 (house choice).
    pub const SCARCE: u8 = 3;

    /// Begins a search. An idea is to stand beside what `beside` wants, in one band of heights with it; that is made for the
    /// [`Supply`] that the search then asks, and with another supply, or another list, a search has to begin anew.
    #[must_use]
    pub fn new(rules: IdeaRules, beside: Demand) -> Self {
        let mut must: Vec<(Character, usize)> = Vec::new();
        for letter in &rules.with {
            let letter = small(letter);
            match must.iter_mut().find(|one| one.0 == letter) {
                Some(one) => one.1 += 1,
                None => must.push((letter, 1)),
            }
        }
        Self { rules, must, beside, place: 0, looked_at: 0, found: Vec::new(), room: Room::default() }
    }

    /// Looks at the next `words` words of `list`. Whether that was the end of it.
    ///
    /// Each word is tried in capitals, with first capitals and in small letters, and before that as the list has it if that has
    /// capitals; the first of these that the letters spell as themselves counts, or else the first that stand-ins spell.
    pub fn run(&mut self, supply: &Supply, list: &WordList<'_>, words: usize) -> bool {
        for _ in 0..words {
            let Some((word, next)) = list.word_from(self.place) else { return true };
            self.place = next;
            self.looked_at += 1;
            if let Some(letters) = Letters::of(word)
                && letters.fit(&self.rules, &self.must)
                && let Some(idea) = self.judge(supply, word)
            {
                self.found.push(idea);
            }
        }
        list.word_from(self.place).is_none()
    }

    /// What was found so far, in the order of the list.
    #[must_use]
    pub fn found(&self) -> &[Idea] {
        &self.found
    }

    /// How many words were looked at so far.
    #[must_use]
    pub const fn looked_at(&self) -> usize {
        self.looked_at
    }

    fn judge(&mut self, supply: &Supply, word: &str) -> Option<Idea> {
        let case = supply.asking().case;
        for stand_ins in [false, true] {
            if stand_ins && !self.rules.stand_ins {
                break;
            }
            for &way in Written::ways(word, case) {
                way.write(word, &mut self.room.text);
                let idea = self.room.judge(supply, &self.beside, &self.rules, stand_ins);
                if idea.is_some() {
                    return idea;
                }
            }
        }
        None
    }
}

fn small(character: &Character) -> Character {
    character.to_lower().unwrap_or_else(|| character.clone())
}
