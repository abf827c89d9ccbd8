//! What a wording asks of the stash: how many of each character.
//!
//! Must not know what is left.

use crate::letter::Character;
use crate::title::{Wording, WordingError};

use super::alphabet::{Alphabet, FOREIGN};
use super::asking::Asking;
use super::look::MOST_TOLD;

/// How many letters of each character are wanted; made for one [`super::Supply`].
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Demand {
    /// By number, in the order in which they are first asked for.
    pub(super) needs: Vec<(u16, u32)>,
    /// Characters that no letter serves for.
    pub(super) foreign: Vec<(Character, u32)>,
}

impl Demand {
    /// How many letters are wanted in all.
    #[must_use]
    pub fn letters(&self) -> u32 {
        let counts = self.needs.iter().map(|&(_, letters)| letters);
        counts.chain(self.foreign.iter().map(|&(_, letters)| letters)).sum()
    }

    /// Wants what `other` wants besides.
    pub fn add(&mut self, other: &Self) {
        for &(number, letters) in &other.needs {
            self.want(number, letters);
        }
        for (character, letters) in &other.foreign {
            self.want_foreign(character.clone(), *letters);
        }
    }

    /// Whether more letters of a character are wanted than can be looked up.
    pub(super) fn is_large(&self) -> bool {
        self.needs.iter().any(|&(_, letters)| letters > MOST_TOLD)
    }

    pub(super) fn clear(&mut self) {
        self.needs.clear();
        self.foreign.clear();
    }

    /// Wants nothing but what `text` asks for, read as [`Wording::new`] reads it.
    pub(super) fn read(
        &mut self,
        text: &str,
        alphabet: &Alphabet,
        asking: &Asking,
    ) -> Result<(), WordingError> {
        self.clear();
        let plain = |byte: u8| byte == b' ' || byte.is_ascii_graphic();
        if text.len() > Wording::MOST || !text.bytes().all(plain) {
            self.want_wording(&Wording::new(text)?, alphabet, asking);
            return Ok(());
        }
        for byte in text.bytes().filter(|&byte| byte != b' ') {
            match alphabet.plain(byte) {
                FOREIGN => self.want_wording_letter(byte, asking),
                number => self.want(number, 1),
            }
        }
        Ok(())
    }

    /// Wants the letters of `wording` besides.
    pub(super) fn want_wording(&mut self, wording: &Wording, alphabet: &Alphabet, asking: &Asking) {
        for asked in wording.slots() {
            let wanted = asking.wanted(&asked.character);
            match alphabet.number(&wanted) {
                Some(number) => self.want(number, 1),
                None => self.want_foreign(wanted, 1),
            }
        }
    }

    #[cold]
    fn want_wording_letter(&mut self, byte: u8, asking: &Asking) {
        if let Ok(written) = Character::new(char::from(byte).encode_utf8(&mut [0; 4])) {
            self.want_foreign(asking.wanted(&written), 1);
        }
    }

    fn want(&mut self, number: u16, letters: u32) {
        match self.needs.iter_mut().find(|need| need.0 == number) {
            Some(need) => need.1 += letters,
            None => self.needs.push((number, letters)),
        }
    }

    fn want_foreign(&mut self, character: Character, letters: u32) {
        match self.foreign.iter_mut().find(|need| need.0 == character) {
            Some(need) => need.1 += letters,
            None => self.foreign.push((character, letters)),
        }
    }
}
