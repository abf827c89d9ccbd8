//! A scratch copy of the sample stash.
//!
//! Must not know what is done with it.

use crate::files::{FilesError, StashFolder, unpack_sample};

/// The plan that the sample opens with: its title is still to be made.
pub(super) const PLAN: &str = "lantern-walk";

/// Unpacks the sample into a new folder for scratch files, which stays after the program.
pub(super) fn sample() -> Result<StashFolder, FilesError> {
    let place = std::env::temp_dir();
    let made = tempfile::Builder::new().prefix("oddment-sample-").tempdir_in(&place);
    let path = made.map_err(|source| FilesError::Write { path: place, source })?.keep();
    unpack_sample(&path)?;
    Ok(StashFolder::at(path))
}
