//! How often English needs each letter.
//!
//! Must not know how many are left.

use super::Character;

/// Share of each letter in English text, in thousandths of a per cent: A, B, C ...; from the table of the Python package
/// letter-frequency-languages 0.0.6.
const SHARES: [u16; 26] = [
    8167, 1492, 2782, 4253, 12702, 2228, 2015, 6094, 6966, 153, 772, 4025, 2406, 6749, 7507, 1929, 95, 5987,
    6327, 9056, 2758, 978, 2360, 150, 1974, 74,
];

/// E, the letter that English needs most.
const MOST: u16 = SHARES[4];
/// K, the most frequent of those that count for nothing: X Q Z J K.
const LEAST: u16 = SHARES[10];

/// A letter's share in English text, in thousandths of a per cent; `None` for anything but A to Z. Case does not matter.
#[must_use]
pub fn share(character: &Character) -> Option<u16> {
    let &[byte] = character.as_str().as_bytes() else { return None };
    let place = byte.to_ascii_uppercase().checked_sub(b'A').map(usize::from)?;
    SHARES.get(place).copied()
}

/// How much a letter is needed: 1 for E, 0 for X, Q, Z, J and K, in between in proportion to its share in English text
/// above K's. Case does not matter; anything but A to Z counts for nothing.
#[must_use]
pub fn weight(character: &Character) -> f64 {
    let share = share(character).unwrap_or(0);
    f64::from(share.saturating_sub(LEAST)) / f64::from(MOST - LEAST)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, clippy::float_cmp, reason = "a test may fail loudly; the ends are exact")]
mod tests {
    use super::*;

    fn of(text: &str) -> f64 {
        weight(&Character::new(text).unwrap())
    }

    #[test]
    fn from_e_down_to_the_five_that_count_for_nothing() {
        assert_eq!(of("E"), 1.0);
        assert_eq!(of("e"), 1.0);
        for rare in ["X", "Q", "Z", "J", "K", "&", "7", "É"] {
            assert_eq!(of(rare), 0.0, "{rare}");
        }
        assert!(of("T") > of("A") && of("A") > of("O") && of("V") > 0.0);
    }
}
