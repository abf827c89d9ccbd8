//! A sheet whose letters are being counted, as far as it has come: what is kept of it, so that no ending loses it.
//!
//! Must not know how letters are counted, nor where it is kept.

use crate::words::words;

use super::Sheet;

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
}
