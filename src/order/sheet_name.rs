//! What a sheet is called on paper, so that its owner finds it.
//!
//! Must not know what is taken off it.

use crate::stash::{Sheet, SheetId};

/// What a sheet is called on paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetName {
    /// What the owner wrote on it.
    pub tag: Option<String>,
    /// Its name, or else what can be seen of it.
    pub name: String,
    /// Its file's stem.
    pub id: SheetId,
    /// Whether another sheet of the order has the same tag and name, so that only the id tells them apart.
    pub alike: bool,
}

impl SheetName {
    pub(super) fn of(sheet: &Sheet) -> Self {
        Self { tag: sheet.label.tag.clone(), name: sheet.name(), id: sheet.id.clone(), alike: false }
    }

    /// By tag, figures by their value; sheets without one last; then by name and id.
    pub(super) fn rank(&self) -> impl Ord + use<> {
        let tag = self.tag.clone().unwrap_or_default();
        let figures: String = tag.chars().take_while(char::is_ascii_digit).collect();
        let number = figures.parse::<u64>().unwrap_or(u64::MAX);
        (self.tag.is_none(), number, tag, self.name.clone(), self.id.clone())
    }
}
