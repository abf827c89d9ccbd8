//! The stash's folder: where it is, which files are in it, and the text of each.
//!
//! Must not know what the files hold.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

use super::disk::{Disk, Onlooker, sweep};
use super::error::FilesError;
use super::lock::{Access, is_held, last_came};
use super::problem::{Level, Problem, escaped};
use super::source::place_in;

/// A stash's folder; it need not be there yet.
#[derive(Debug, Clone)]
pub struct StashFolder {
    path: PathBuf,
    pub(super) disk: Disk,
}

impl StashFolder {
    /// The stash in the folder at `path`.
    #[must_use]
    pub fn at(path: impl Into<PathBuf>) -> Self {
        Self { path: path.into(), disk: Disk::default() }
    }

    /// The same, with someone who looks on at every step of a change.
    #[must_use]
    pub fn watched(self, onlooker: Arc<dyn Onlooker>) -> Self {
        Self { disk: Disk::watched(onlooker), ..self }
    }

    /// The stash in the platform's folder for data.
    ///
    /// # Errors
    /// When the platform tells none.
    pub fn usual() -> Result<Self, FilesError> {
        let folders = directories::ProjectDirs::from("", "", "oddment").ok_or(FilesError::NoUsualPlace)?;
        Ok(Self::at(folders.data_dir().join("stash")))
    }

    /// The folder.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Whether it holds neither sheets nor plans; so does a folder that is not there.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        ["sheets", "pages"].iter().all(|name| self.listed(name).is_ok_and(|files| files.is_empty()))
    }

    /// Asks for the right to write; makes the folder where there is none. Who gets it takes away what a writer that was
    /// killed left behind.
    ///
    /// # Errors
    /// When the folder cannot be made, or the lock fails in a way that tells nothing of another program.
    pub fn ask_to_write(&self) -> Result<Access, FilesError> {
        let access = self.ask_to_mend()?;
        if access.may_write() {
            for within in ["", "sheets", "pages", "trials"] {
                sweep(&self.path.join(within));
            }
        }
        Ok(access)
    }

    /// When a program last got the right to write, as far as can be told: while that changes, others come and go.
    #[must_use]
    pub fn last_writer_came(&self) -> Option<SystemTime> {
        last_came(&self.path)
    }

    /// The same, but what a writer that was killed left behind stays, so that it can be told.
    ///
    /// # Errors
    /// As for [`StashFolder::ask_to_write`].
    pub fn ask_to_mend(&self) -> Result<Access, FilesError> {
        fs::create_dir_all(&self.path).map_err(FilesError::write(&self.path))?;
        Access::ask(&self.path)
    }

    /// Whether another program holds the right to write.
    #[must_use]
    pub fn is_held(&self) -> bool {
        is_held(&self.path)
    }

    /// The `.toml` files of a folder within, by name; hidden ones, which editors and systems leave about, are left out.
    pub(super) fn listed(&self, name: &str) -> Result<Vec<PathBuf>, FilesError> {
        let folder = self.path.join(name);
        let listing = match fs::read_dir(&folder) {
            Ok(listing) => listing,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(FilesError::read(&folder)(error)),
        };
        let mut files = Vec::new();
        for entry in listing {
            let path = entry.map_err(FilesError::read(&folder))?.path();
            let hidden = path.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"."));
            if !hidden && path.extension().is_some_and(|extension| extension == "toml") {
                files.push(path);
            }
        }
        files.sort_unstable();
        Ok(files)
    }

    /// A file as seen from the stash's folder, or its whole path where it lies elsewhere.
    pub(super) fn called(&self, path: &Path) -> String {
        path.strip_prefix(&self.path).unwrap_or(path).display().to_string()
    }
}

/// A problem with a file as a whole.
pub(super) fn of_file(file: &str, message: &str) -> Problem {
    let message = escaped(message);
    Problem { file: escaped(file), line: 1, column: 1, level: Level::Error, key: String::new(), message }
}

/// The text of a file; `file` is how a problem calls it.
pub(super) fn read_text(path: &Path, file: &str) -> Result<String, Problem> {
    read_bytes(fs::read(path), file)
}

pub(super) fn read_bytes(read: io::Result<Vec<u8>>, file: &str) -> Result<String, Problem> {
    let bytes = read.map_err(|error| of_file(file, &format!("it cannot be read: {error}")))?;
    String::from_utf8(bytes).map_err(|error| {
        let sound = error.utf8_error().valid_up_to();
        let text = String::from_utf8_lossy(&error.as_bytes()[..sound]);
        let (line, column) = place_in(&text, sound);
        let message = "here is a byte that is no UTF-8; save the file as UTF-8";
        Problem { line, column, ..of_file(file, message) }
    })
}
