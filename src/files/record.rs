//! Recording what happens to the stash, so that nothing is ever lost.
//!
//! The ledger is written first: with it the deed is done. Each sheet follows, then the plan. A crash between any two leaves a
//! state that [`StashFolder::complete`] finishes at the next start. Must not know who asked.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::PathBuf;

use crate::measure::ColourNames;
use crate::stash::{Deed, Entry, Kind, Ledger, OfStrip, Refusal, Sheet, SheetId};

use super::error::FilesError;
use super::folder::{StashFolder, read_text};
use super::ledger::{HIGHEST, LEDGER, with_entry};
use super::load::Loaded;
use super::lock::StashLock;
use super::problem::Problems;
use super::save_sheet::{new_sheet_text, write_sheet};
use super::sheet::read_sheet;

/// Why a deed was not recorded.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// The stash says no: too few letters, no such sheet.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// A file cannot be read or written, and nothing was recorded.
    #[error(transparent)]
    Files(#[from] FilesError),
    /// It is recorded as that entry, and all that follows from it could not be written.
    #[error(
        "{1}\nIt is entry {0} of the ledger all the same, and the next start finishes it: do not do it again"
    )]
    Unfinished(u32, #[source] FilesError),
}

impl StashFolder {
    /// Records `deed` on the day `date`: an entry in the ledger, then the counts of each sheet. Gives back the entry's
    /// number. Only who holds the right to write can do it.
    ///
    /// # Errors
    /// When the stash has not what it takes, which changes nothing; or when a file cannot be read or written: what is done
    /// by then is whole, and the rest is finished at the next start.
    pub fn record(&self, lock: &StashLock, deed: Deed, date: &str) -> Result<u32, RecordError> {
        self.record_on(lock, self.load()?, (&[], deed), date)
    }

    /// Makes new sheets with their letters, all of them or none, as one entry of the ledger. Gives back its number.
    ///
    /// # Errors
    /// When there is a sheet of that name, or a file cannot be written.
    pub fn take_in(
        &self,
        lock: &StashLock,
        sheets: &[Sheet],
        more: Deed,
        date: &str,
    ) -> Result<u32, RecordError> {
        self.record_on(lock, self.load()?, (sheets, more), date)
    }

    /// Records a deed, and new sheets with it, on a stash that was just read.
    pub(super) fn record_on(
        &self,
        _: &StashLock,
        loaded: Loaded,
        (sheets, deed): (&[Sheet], Deed),
        date: &str,
    ) -> Result<u32, RecordError> {
        if loaded.is_ledger_damaged {
            return Err(FilesError::BadLedger(loaded.problems.of_file(LEDGER)).into());
        }
        let text = self.ledger_text()?;
        self.are_free(sheets, &loaded)?;
        let mut deed = Deed { chips: loaded.stash.by_present_names(&deed.chips), ..deed };
        let known: Vec<SheetId> = deed.sheets().cloned().collect();
        ask_first(&loaded, &known)?;
        if sheets.is_empty() || !deed.chips.is_empty() {
            deed.check(&loaded.stash)?;
        }
        // A plan that came with a ledger of its own, or outlived one, may speak of a higher one than the sheets.
        let number = loaded.ledger.next_number(&loaded.stash).max(loaded.last_stuck().saturating_add(1));
        if number > HIGHEST {
            return Err(FilesError::NoNumber.into());
        }
        let had = loaded.stash.counts(&deed.chips);
        // Counts without a number are the owner's own. They get one first: else a start after a crash between the ledger
        // and the sheet would take the new entry for one that they include.
        for id in &known {
            self.write_counts(id, &loaded.ledger, Some(number - 1), &loaded.colours)?;
        }
        // New sheets wait under a hidden name that tells the entry they come with.
        for sheet in sheets {
            let mut whole = sheet.clone();
            whole.record.as_of = Some(number);
            let text = new_sheet_text(&whole, &loaded.colours);
            self.disk.replace(&self.waiting_path(&sheet.id, number), text.as_bytes())?;
            deed.chips.extend(Deed::as_it_is(sheet).chips);
        }
        let entry = Entry { number, date: date.to_owned(), deed, had };
        self.write_entry(&text, &entry)?;
        let mut ledger = loaded.ledger;
        ledger.push(entry);
        let unfinished = |error| RecordError::Unfinished(number, error);
        for sheet in sheets {
            let (waiting, own) = (self.waiting_path(&sheet.id, number), self.sheet_path(&sheet.id));
            self.disk.rename(&waiting, &own).map_err(unfinished)?;
        }
        for id in &known {
            self.write_counts(id, &ledger, None, &loaded.colours).map_err(unfinished)?;
        }
        Ok(number)
    }

    /// Whether no sheet has, or had, the name of any of these: what the ledger tells of an earlier name is told of the
    /// sheet that had it.
    fn are_free(&self, sheets: &[Sheet], loaded: &Loaded) -> Result<(), FilesError> {
        for Sheet { id, .. } in sheets {
            if self.sheet_path(id).exists() {
                return Err(FilesError::SheetThere(id.to_string()));
            }
            if let Some(other) = loaded.stash.sheet(id) {
                return Err(FilesError::SheetWas(other.id.to_string(), id.to_string()));
            }
            if loaded.ledger.speaks_of(id) {
                return Err(FilesError::SheetGone(id.to_string()));
            }
        }
        Ok(())
    }

    /// Adds an entry to the ledger, whose text is `old`.
    fn write_entry(&self, old: &str, entry: &Entry) -> Result<(), RecordError> {
        let new = with_entry(old, entry);
        self.disk.replace(&self.path().join(LEDGER), new.as_bytes()).map_err(|error| {
            // The last step is to make the name last. Where that alone fails, the entry is there.
            match self.ledger_text() {
                Ok(there) if there == new => RecordError::Unfinished(entry.number, error),
                _ => error.into(),
            }
        })
    }

    /// Writes the fields of a sheet that is there; its counts and its number stay as the file has them.
    ///
    /// # Errors
    /// When its file has errors or cannot be written.
    pub fn save_sheet(&self, _: &StashLock, sheet: &Sheet, colours: &ColourNames) -> Result<(), FilesError> {
        self.change_sheet(&sheet.id, colours, |old| {
            let mut new = sheet.clone();
            new.record = old.record.clone();
            for letter in &mut new.letters {
                let same = |one: &&crate::stash::Letter| {
                    one.character == letter.character && one.mark == letter.mark
                };
                letter.left = old.letters.iter().find(same).map_or(0, |one| one.left);
            }
            new
        })
    }

    /// The text of the ledger; empty where there is none.
    pub(super) fn ledger_text(&self) -> Result<String, FilesError> {
        let path = self.path().join(LEDGER);
        match fs::read_to_string(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(String::new()),
            read => read.map_err(FilesError::read(&path)),
        }
    }

    /// Brings the counts of a sheet up to `ledger`. With `stamp`, only gives counts without a number that one.
    pub(super) fn write_counts(
        &self,
        id: &SheetId,
        ledger: &Ledger,
        stamp: Option<u32>,
        colours: &ColourNames,
    ) -> Result<(), FilesError> {
        self.change_sheet(id, colours, |old| {
            let mut new = old.clone();
            match stamp {
                Some(number) => new.record.as_of = new.record.as_of.or(Some(number)),
                // Changed by hand since: the owner is asked first.
                None if !ledger.edited_over(old).is_empty() => {}
                None => {
                    ledger.settle(&mut new);
                }
            }
            new
        })
    }

    /// Changes what the file of a sheet holds now; one that is not changed is not written.
    fn change_sheet(
        &self,
        id: &SheetId,
        colours: &ColourNames,
        change: impl FnOnce(&Sheet) -> Sheet,
    ) -> Result<(), FilesError> {
        let path = self.sheet_path(id);
        let called = self.called(&path);
        let text =
            read_text(&path, &called).map_err(|problem| FilesError::BadSheet(Problems::from(problem)))?;
        let (sheet, problems) = read_sheet(&called, id, &text, colours);
        let sheet = sheet.ok_or(FilesError::BadSheet(problems))?;
        let new = write_sheet(&text, &change(&sheet), colours).map_err(FilesError::BadSheet)?;
        if new == text { Ok(()) } else { self.disk.replace(&path, new.as_bytes()) }
    }

    /// Where the file of a sheet is.
    pub(super) fn sheet_path(&self, id: &SheetId) -> PathBuf {
        self.path().join("sheets").join(format!("{id}.toml"))
    }

    fn waiting_path(&self, id: &SheetId, number: u32) -> PathBuf {
        self.path().join("sheets").join(format!(".waiting-{number}-{id}"))
    }
}

/// Nothing is recorded of a sheet of which the owner has to be asked something first.
fn ask_first(loaded: &Loaded, sheets: &[SheetId]) -> Result<(), FilesError> {
    let mut asked = loaded.behind.iter().filter(|behind| sheets.contains(&behind.sheet));
    let question = asked.find_map(|behind| behind.question.clone());
    question.map_or(Ok(()), |question| Err(FilesError::AskFirst(question)))
}

/// A deed that sticks letters down or takes them off.
pub(super) fn deed_of(
    kind: Kind,
    page: &str,
    role: &str,
    slots: &[usize],
    chips: BTreeMap<crate::stash::ChipId, i32>,
) -> Deed {
    let slots = slots.iter().filter_map(|slot| u32::try_from(slot + 1).ok()).collect();
    Deed { kind, of: Some(OfStrip { page: page.to_owned(), role: role.to_owned(), slots }), chips }
}
