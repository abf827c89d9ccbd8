//! What the owner is asked of a sheet that was changed by hand while entries of the ledger waited to be counted in it.
//!
//! The program was stopped between the ledger and the sheet, and the next to write into the sheet was the owner. Whether the
//! new counts include the entries nobody else can know. Must not know folders.

use crate::stash::{Ledger, Sheet};

use super::folder::of_file;
use super::problem::{Level, Problem};

/// The question about `sheet`, with both ways out; `None` where there is nothing to ask.
pub(super) fn question(ledger: &Ledger, sheet: &Sheet) -> Option<Problem> {
    let (what, last) = edited(ledger, sheet)?;
    let message = format!(
        "{what}; `oddment mend --write` counts that in now, or, if your counts \
         include it already, write as_of = {last} into the file"
    );
    let problem = of_file(&format!("sheets/{}.toml", sheet.id), &message);
    Some(Problem { level: Level::Warning, key: "as_of".into(), ..problem })
}

/// What was changed by hand in `sheet` over which entries, in words, and the last of these; `None` where nothing was.
pub(super) fn edited(ledger: &Ledger, sheet: &Sheet) -> Option<(String, u32)> {
    let edited = ledger.edited_over(sheet);
    let (first, last) = ledger.waiting(sheet).filter(|_| !edited.is_empty())?;
    let chips = edited.iter().map(|one| format!("{} ({} before, {} now)", one.chip, one.had, one.left));
    let chips = chips.collect::<Vec<_>>().join(", ");
    Some((format!("{chips} changed by hand before {} was counted in it", entries(first, last)), last))
}

/// How a sentence calls the entries from `first` to `last`.
pub(super) fn entries(first: u32, last: u32) -> String {
    if first == last {
        format!("entry {first} of the ledger")
    } else {
        format!("what the ledger has from entry {first} to {last}")
    }
}
