//! A title that someone would like to make one day.
//!
//! Must not know whether the stash can spell it.

use super::Wording;

/// A title wished for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wish {
    /// What it is to say; never empty in a stash.
    pub wording: Wording,
    /// Anything worth remembering.
    pub note: Option<String>,
}

impl Wish {
    /// Whether it wishes for `wording`: the same characters in the same words and lines, however far apart these are written.
    #[must_use]
    pub fn is_for(&self, wording: &Wording) -> bool {
        self.wording.slots() == wording.slots()
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn a_wish_is_known_by_what_it_says() {
        let wish = Wish { wording: Wording::new("CAF\u{c9} BY\nTHE SEA\u{2019}S EDGE").unwrap(), note: None };
        for (text, is_same) in [
            ("CAFE\u{301}  BY \r\n THE SEA'S EDGE ", true),
            ("CAF\u{c9} BY THE SEA'S EDGE", false),
            ("CAF\u{c9} BY\nTHESEA'S EDGE", false),
            ("Caf\u{e9} by\nthe sea's edge", false),
        ] {
            assert_eq!(wish.is_for(&Wording::new(text).unwrap()), is_same, "{text}");
        }
    }
}
