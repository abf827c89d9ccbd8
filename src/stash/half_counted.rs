//! A sheet whose letters are being counted, as far as it has come: what is kept of it, so that no ending loses it.
//!
//! Must not know how letters are counted, nor where it is kept.

use crate::words::words;

use super::{ChipId, Entry, Kind, Ledger, Sheet};

words! {
    /// What is done with a sheet while its letters are counted.
    Way {
        /// A new sheet is counted in.
        New = "new",
        /// All its letters are counted anew.
        Anew = "anew",
        /// More letters are counted in.
        More = "more",
        /// Letters are counted out.
        Fewer = "fewer",
    }
}

/// A sheet whose letters are being counted.
#[derive(Debug, Clone, PartialEq)]
pub struct HalfCounted {
    /// What is done with it.
    pub way: Way,
    /// The sheet, with the letters counted so far and no others. The id of a new one is not its own yet.
    pub sheet: Sheet,
    /// What a new sheet was begun like.
    pub like: Option<String>,
    /// The last entry of the ledger at that time.
    pub after: u32,
}

impl HalfCounted {
    /// The entry by which its letters are recorded since, or the sheet was counted otherwise: to go on would count letters twice.
    #[must_use]
    pub fn recorded(&self, ledger: &Ledger) -> Option<u32> {
        let later = ledger.entries().iter().rev().take_while(|entry| entry.number > self.after);
        let mut it = later.filter(|entry| match self.way {
            Way::New => entry.deed.kind == Kind::Added && self.is_all_of(entry),
            Way::Anew | Way::More | Way::Fewer => {
                matches!(entry.deed.kind, Kind::Added | Kind::Counted)
                    && entry.deed.sheets().any(|sheet| *sheet == self.sheet.id)
            }
        });
        it.next().map(|entry| entry.number)
    }

    /// Whether an entry counts in just these letters, whatever the sheet is called.
    fn is_all_of(&self, entry: &Entry) -> bool {
        let Some(id) = entry.deed.sheets().next() else { return false };
        let letters = self.sheet.letters.iter().filter(|letter| letter.left > 0);
        let chips = letters.map(|letter| {
            let (character, mark) = (letter.character.clone(), letter.mark.clone());
            (ChipId { sheet: id.clone(), character, mark }, i32::from(letter.left))
        });
        chips.collect::<std::collections::BTreeMap<_, _>>() == entry.deed.chips
    }
}
