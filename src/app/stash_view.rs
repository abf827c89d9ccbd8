//! The stash's view: its sheets in order, the chosen one, and the letters being counted.
//!
//! Must not know how it is drawn.

use crate::letter::Character;
use crate::stash::{HalfCounted, Sheet, SheetId, Stash};

use super::counting::Counting;
use super::lists::step;

/// What is chosen in the stash's view.
#[derive(Debug, Clone, Default)]
pub struct StashView {
    /// The sheets that are shown, by their places in the stash.
    pub places: Vec<usize>,
    /// The chosen one, by its place in that list.
    pub chosen: usize,
    /// The first that is drawn.
    pub top: usize,
    /// What a sheet that is shown has: words of what is told of it, or a letter.
    pub find: String,
    /// The sheet being counted or told anew.
    pub counting: Option<Box<Counting>>,
    /// What is kept of it.
    pub kept: Option<Box<HalfCounted>>,
    /// A sheet that was being counted when the program ended, and that waits for a word whether to go on.
    pub(super) offered: Option<Box<Counting>>,
}

impl StashView {
    /// Lists the sheets anew: by their tags, those set aside after the rest, the spent ones last. The chosen one stays chosen
    /// where it is still there.
    pub fn list(&mut self, stash: &Stash, kept: Option<&SheetId>) {
        let sheets = stash.sheets();
        self.places = (0..sheets.len()).filter(|&place| finds(&sheets[place], &self.find)).collect();
        self.places.sort_by_cached_key(|&place| order(&sheets[place]));
        let place = kept.and_then(|id| self.places.iter().position(|&place| sheets[place].id == *id));
        self.chosen = place.unwrap_or_else(|| self.chosen.min(self.places.len().saturating_sub(1)));
    }

    /// The chosen sheet's place in the stash.
    #[must_use]
    pub fn place(&self) -> Option<usize> {
        self.places.get(self.chosen).copied()
    }

    /// Goes `by` sheets on, or back.
    pub(super) fn walk(&mut self, by: isize) {
        self.chosen = step(self.chosen, by, self.places.len());
    }

    /// Moves the list so that the chosen sheet is seen among `rows`.
    pub(super) fn scroll(&mut self, rows: usize) {
        let lowest = (self.chosen + 1).saturating_sub(rows);
        let last = self.places.len().saturating_sub(rows);
        self.top = self.top.clamp(lowest, self.chosen.max(lowest)).min(last.max(lowest));
    }
}

/// Where a sheet stands in the list: spent ones last, before them those set aside; by tag, numbers first; by name.
fn order(sheet: &Sheet) -> (bool, bool, bool, u32, String, SheetId) {
    let tag = sheet.label.tag.clone().unwrap_or_default();
    let number = tag.parse::<u32>().unwrap_or(u32::MAX);
    (sheet.left() == 0, sheet.label.aside, tag.is_empty(), number, tag, sheet.id.clone())
}

/// Whether all that is looked for is told of a sheet: each word somewhere, a single letter among those left.
fn finds(sheet: &Sheet, find: &str) -> bool {
    let told = || {
        let colours = sheet.paint.colours.iter().map(|tint| tint.name().into_owned());
        let note = sheet.label.note.clone().unwrap_or_default();
        let words = [sheet.told(), sheet.id.to_string(), sheet.make.form.to_string(), note];
        let mut words: Vec<String> = words.into_iter().chain(colours).collect();
        words.push(sheet.make.finish.to_string());
        words.join(" ").to_lowercase()
    };
    find.split_whitespace().all(|word| match Character::new(word) {
        Ok(wanted) if sheet.label.tag.as_deref() != Some(word) => {
            sheet.letters.iter().any(|letter| letter.left > 0 && letter.character == wanted)
        }
        Ok(_) => true,
        Err(_) => told().contains(&word.to_lowercase()),
    })
}
