//! Copies of the files that mending changes, as they were.
//!
//! Must not know what is wrong with them.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::files::error::FilesError;
use crate::files::folder::StashFolder;

use super::Change;

/// The folder that holds the copies of every mending.
pub(super) const KEPT_ASIDE: &str = "kept-aside";

impl StashFolder {
    /// Copies what `changes` will change to a new folder `kept-aside/DATE-N`, under the same names. Gives back the folder;
    /// `None` where there was nothing to copy.
    pub(super) fn keep_aside(&self, changes: &[Change], date: &str) -> Result<Option<PathBuf>, FilesError> {
        let old: Vec<&Path> = changes.iter().filter_map(changed).collect();
        let mut kept = None;
        for path in old {
            let bytes = match fs::read(path) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
                read => read.map_err(FilesError::read(path))?,
            };
            let folder = kept.get_or_insert_with(|| self.free_folder(date));
            let within = path.strip_prefix(self.path()).unwrap_or(path);
            self.disk.replace(&folder.join(within), &bytes)?;
        }
        Ok(kept)
    }

    fn free_folder(&self, date: &str) -> PathBuf {
        let all = self.path().join(KEPT_ASIDE);
        let mut numbered = (1..).map(|number: u32| all.join(format!("{date}-{number}")));
        numbered.find(|folder| !folder.exists()).unwrap_or(all)
    }
}

/// The file of which a copy is kept.
fn changed(change: &Change) -> Option<&Path> {
    match change {
        Change::Write(path, _) | Change::Remove(path) => Some(path),
        Change::Rename(..) | Change::Sweep(_) => None,
    }
}
