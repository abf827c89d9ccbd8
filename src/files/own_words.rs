//! Reads `words.txt`: words and wordings of the user's own, to take ideas from.
//!
//! Must not know what can be spelled.

use std::io;

use super::error::FilesError;
use super::folder::{StashFolder, read_bytes};
use super::problem::Problems;

/// The file's name.
const WORDS: &str = "words.txt";

impl StashFolder {
    /// The text of `words.txt`, one word or wording a line; `None` where there is none.
    ///
    /// # Errors
    /// When it cannot be read, or is no UTF-8.
    pub fn own_words(&self) -> Result<Option<String>, FilesError> {
        match std::fs::read(self.path().join(WORDS)) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            read => read_bytes(read, WORDS)
                .map(Some)
                .map_err(|problem| FilesError::BadWords(Problems::from(problem))),
        }
    }
}
