//! Reads `on-sale.toml`: sheets seen in a shop, each in the form of a sheet's file, with the counts of a full sheet.
//!
//! Must not know what one of them would be good for.

use std::collections::HashSet;
use std::io;

use super::folder::{StashFolder, read_bytes};
use super::problem::Problems;
use super::reader::Keys;
use super::sheet::{commented_hashes, whole};
use super::source::Source;
use crate::measure::ColourNames;
use crate::stash::{Sheet, SheetId};

/// The file's name.
pub(super) const ON_SALE: &str = "on-sale.toml";

impl StashFolder {
    /// The sheets of `on-sale.toml` that are without an error, and all that is wrong there; nothing where there is no such
    /// file. It is read when it is asked for: no start waits for it.
    #[must_use]
    pub fn on_sale(&self, colours: &ColourNames) -> (Vec<Sheet>, Problems) {
        match std::fs::read(self.path().join(ON_SALE)) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => (Vec::new(), Problems::new()),
            bytes => match read_bytes(bytes, ON_SALE) {
                Ok(text) => read_on_sale(ON_SALE, &text, colours),
                Err(problem) => (Vec::new(), Problems::from(problem)),
            },
        }
    }
}

/// Reads every `[[sheet]]` of `text`; `file` is how problems call it. One with an error is told and left out. Each has an id
/// made from its name that no other of them has; a sheet of the stash may have it.
#[must_use]
pub fn read_on_sale(file: &str, text: &str, colours: &ColourNames) -> (Vec<Sheet>, Problems) {
    let source = Source::new(file, text, colours);
    let mut sheets = Vec::new();
    if let Some(tree) = source.tree() {
        let keys = Keys::new(&source, tree.get_ref());
        keys.know(&["sheet"]);
        commented_hashes(keys, "sheet.letters");
        let unnamed = SheetId::unnamed();
        sheets.extend(keys.tables("sheet").into_iter().filter_map(|keys| whole(keys, &unnamed)));
    }
    let mut taken = HashSet::new();
    for sheet in &mut sheets {
        sheet.id = free_id(sheet, &taken);
        taken.insert(sheet.id.clone());
    }
    (sheets, source.into_problems())
}

/// An id by the sheet's name that none of `taken` is.
fn free_id(sheet: &Sheet, taken: &HashSet<SheetId>) -> SheetId {
    let plain = SheetId::from_name(&sheet.name()).unwrap_or_else(SheetId::unnamed);
    let numbered = (2..).map_while(|number: u32| SheetId::new(&format!("{plain}-{number}")).ok());
    let mut ids = std::iter::once(plain.clone()).chain(numbered);
    ids.find(|id| !taken.contains(id)).unwrap_or(plain)
}
