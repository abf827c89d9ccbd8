//! Finishing what a crash left half done.
//!
//! Must not know how a deed is recorded, only in which order.

use std::fs;
use std::path::PathBuf;

use crate::stash::{Ledger, SheetId};

use super::error::FilesError;
use super::folder::StashFolder;
use super::load::{Behind, Loaded};
use super::lock::StashLock;
use super::stick::brought_up;

impl StashFolder {
    /// Finishes what a crash left half done: new sheets that wait, counts that are behind the ledger, plans that do not
    /// know yet that they are stuck down. Gives back what was finished, in words. A sheet that was changed by hand over
    /// entries that wait is left alone, see [`Behind::question`]. Nothing happens where the ledger is damaged.
    ///
    /// # Errors
    /// When a file cannot be read or written.
    pub fn complete(&self, _: &StashLock, loaded: &Loaded) -> Result<Vec<String>, FilesError> {
        let mut done = Vec::new();
        if loaded.is_ledger_damaged {
            return Ok(done);
        }
        for (path, id, number) in self.waiting() {
            if !comes_with(&loaded.ledger, &id, number) {
                self.disk.remove(&path)?;
            } else if !self.sheet_path(&id).exists() {
                self.disk.rename(&path, &self.sheet_path(&id))?;
                done.push(format!("the new sheet {id} was taken in"));
            }
            // Beside one of its name, made by hand meanwhile, it waits: mending keeps a copy of it.
        }
        for Behind { sheet: id, .. } in loaded.behind.iter().filter(|behind| behind.question.is_none()) {
            self.write_counts(id, &loaded.ledger, None, &loaded.colours)?;
            done.push(format!("the counts of {id} were brought up to the ledger"));
        }
        for entry in &loaded.plans {
            let Some(plan) = &entry.plan else { continue };
            let page = entry.file.slug().as_str();
            if let Some(plan) = brought_up(plan, page, &loaded.ledger, &loaded.stash) {
                self.put(entry.file.path(), &plan, &loaded.colours)?;
                done.push(format!("{page} was brought up to the ledger"));
            }
        }
        Ok(done)
    }

    /// New sheets that wait for their entry: file, id and the entry's number.
    pub(super) fn waiting(&self) -> Vec<(PathBuf, SheetId, u32)> {
        let listing = fs::read_dir(self.path().join("sheets")).into_iter().flatten().flatten();
        let waits = |entry: fs::DirEntry| {
            let name = entry.file_name().into_string().ok()?;
            let (number, id) = name.strip_prefix(".waiting-")?.split_once('-')?;
            Some((entry.path(), SheetId::new(id).ok()?, number.parse().ok()?))
        };
        let mut waiting: Vec<_> = listing.filter_map(waits).collect();
        waiting.sort();
        waiting
    }
}

/// Whether a new sheet that waits for the entry `number` came with it. An entry of that number that does not speak of the
/// sheet was written after the sheet could not be taken in.
pub(super) fn comes_with(ledger: &Ledger, id: &SheetId, number: u32) -> bool {
    ledger.entry(number).is_some_and(|entry| entry.deed.sheets().any(|sheet| sheet == id))
}
