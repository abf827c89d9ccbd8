//! The characters that the stash can serve for, each with a number.
//!
//! Must not know how they are served.

use std::collections::HashMap;

use crate::letter::Character;

use super::asking::Asking;

/// Stands for a character that nothing serves for.
pub(super) const FOREIGN: u16 = u16::MAX;

/// The numbers of characters as written: the case rule is seen to.
#[derive(Debug, Clone)]
pub(super) struct Alphabet {
    ascii: [u16; 128],
    others: HashMap<Character, u16>,
    characters: Vec<Character>,
}

impl Alphabet {
    /// Numbers `characters` by their places.
    pub(super) fn new(characters: Vec<Character>, asking: &Asking) -> Self {
        let others: HashMap<Character, u16> = characters.iter().cloned().zip(0..).collect();
        let mut ascii = [FOREIGN; 128];
        for (code, number) in (0u8..).zip(&mut ascii) {
            if let Ok(written) = Character::new(char::from(code).encode_utf8(&mut [0; 4])) {
                *number = others.get(&asking.wanted(&written)).copied().unwrap_or(FOREIGN);
            }
        }
        Self { ascii, others, characters }
    }

    /// The number of a plain character as written, or [`FOREIGN`].
    pub(super) fn plain(&self, byte: u8) -> u16 {
        self.ascii.get(usize::from(byte)).copied().unwrap_or(FOREIGN)
    }

    /// The number of a character that is wanted.
    pub(super) fn number(&self, wanted: &Character) -> Option<u16> {
        self.others.get(wanted).copied()
    }

    /// The character of a number.
    pub(super) fn character(&self, number: u16) -> &Character {
        &self.characters[usize::from(number)]
    }

    /// How many there are.
    pub(super) fn len(&self) -> usize {
        self.characters.len()
    }
}
