//! `oddment mend`: looks a stash's whole folder over, tells what is wrong, and sets right what can be set right.
//!
//! Nothing that mending changes is lost: the old files are copied first. A count that a sheet has is never changed on a
//! guess. The ledger is written before the sheets and the plans, so that a crash leaves what a second mending finishes.
//! Must not know who asked.

mod ailment;
mod book;
mod kept_aside;
mod leftovers;
mod mended_ledger;
mod plans;
mod sheets;

use std::fs;
use std::path::{Path, PathBuf};

use crate::stash::{Ledger, Stash};

pub use ailment::{Ailment, Cure};

use super::error::FilesError;
use super::folder::{StashFolder, read_text};
use super::ledger::LEDGER;
use super::load::Loaded;
use super::lock::StashLock;
use super::plan::read_plan;
use super::problem::Problem;

/// What mending did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mended {
    /// All that was wrong; what only the owner can set right still is.
    pub found: Vec<Ailment>,
    /// Whether anything was written.
    pub is_written: bool,
    /// The folder with the files as they were; `None` where none was changed.
    pub kept: Option<PathBuf>,
}

/// A change of one file.
#[derive(Debug)]
enum Change {
    /// It gets this text.
    Write(PathBuf, String),
    /// It gets this name, which nothing has.
    Rename(PathBuf, PathBuf),
    /// It goes; a copy is kept.
    Remove(PathBuf),
    /// It goes; it was never whole.
    Sweep(PathBuf),
}

/// All that was found, and the changes that set it right, in the order in which they are safe.
#[derive(Debug, Default)]
struct Look {
    ailments: Vec<Ailment>,
    changes: Vec<Change>,
}

/// A stash as it will be once mended, as far as it is known.
#[derive(Debug)]
struct Outlook {
    /// The entries that there were, put in order.
    ledger: Ledger,
    /// The same with those that mending adds.
    mended: Ledger,
    /// The sheets as their files have them.
    stash: Stash,
}

impl StashFolder {
    /// Looks all of the folder over and tells what is wrong, file by file. Changes nothing; `date`, as `2031-11-05`, is the
    /// day.
    ///
    /// # Errors
    /// When the folder, or a folder in it, cannot be read.
    pub fn ailments(&self, date: &str) -> Result<Vec<Ailment>, FilesError> {
        Ok(self.look(date, self.is_held())?.ailments)
    }

    /// Sets right what can be set right. Files that change are first copied to a folder of their own in `kept-aside`.
    ///
    /// # Errors
    /// When a file cannot be read or written: what is done by then is whole, and mending again does the rest.
    pub fn mend(&self, _: &StashLock, date: &str) -> Result<Mended, FilesError> {
        let Look { ailments, changes } = self.look(date, false)?;
        let kept = self.keep_aside(&changes, date)?;
        let is_written = !changes.is_empty();
        for change in changes {
            match change {
                Change::Write(path, text) => self.disk.replace(&path, text.as_bytes())?,
                Change::Rename(from, to) => self.disk.rename(&from, &to)?,
                Change::Remove(path) | Change::Sweep(path) => self.disk.remove(&path)?,
            }
        }
        Ok(Mended { found: ailments, is_written, kept })
    }

    /// Looks all of it over; with `is_busy`, files that a writer may be at work on are passed over.
    fn look(&self, date: &str, is_busy: bool) -> Result<Look, FilesError> {
        let loaded = self.load()?;
        let mut look = Look::default();
        let sheets = self.sheet_files(&loaded)?;
        let readable = sheets.iter().filter_map(|file| file.sheet.clone());
        let stash = Stash::new(readable.collect());
        let outlook = self.mend_ledger(&loaded, stash, date, &mut look);
        if !is_busy {
            self.mend_waiting(&outlook, &mut look)?;
        }
        sheets::mend(&sheets, &outlook, &loaded, &mut look);
        // A sheet that cannot be read is told before the plans that miss its letters.
        let is_mended = |file: &str| sheets.iter().any(|sheet| sheet.called == file && sheet.sheet.is_some());
        let is_early = |file: &str| !file.starts_with("pages/") && file != "wishes.toml";
        let (early, others): (Vec<&Problem>, Vec<&Problem>) = loaded
            .problems
            .errors()
            .filter(|problem| problem.file != LEDGER && !is_mended(&problem.file))
            .partition(|problem| is_early(&problem.file));
        look.ailments.extend(early.into_iter().map(Ailment::of));
        self.mend_plans(&loaded, &outlook, &mut look);
        look.ailments.extend(others.into_iter().map(Ailment::of));
        look.ailments.extend(self.on_sale(&loaded.colours).1.errors().map(Ailment::of));
        self.tell_faults_of_trials(&loaded, &mut look)?;
        if !is_busy {
            self.mend_leftovers(&mut look)?;
        }
        Ok(look)
    }

    /// What keeps trials from being used.
    fn tell_faults_of_trials(&self, loaded: &Loaded, look: &mut Look) -> Result<(), FilesError> {
        for path in self.listed("trials")? {
            let called = self.called(&path);
            match read_text(&path, &called) {
                Ok(text) => {
                    let (_, problems) = read_plan(&called, &text, &loaded.colours, None);
                    look.ailments.extend(problems.errors().map(Ailment::of));
                }
                Err(problem) => look.ailments.push(Ailment::of(&problem)),
            }
        }
        Ok(())
    }
}

/// The files in a folder whose names `fits`, by name; none where there is no such folder.
fn named(folder: &Path, fits: impl Fn(&str) -> bool) -> Result<Vec<PathBuf>, FilesError> {
    let listing = match fs::read_dir(folder) {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        listing => listing.map_err(FilesError::read(folder))?,
    };
    let mut paths = Vec::new();
    for entry in listing {
        let entry = entry.map_err(FilesError::read(folder))?;
        if entry.file_name().to_str().is_some_and(&fits) {
            paths.push(entry.path());
        }
    }
    paths.sort_unstable();
    Ok(paths)
}
