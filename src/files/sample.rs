//! The sample stash that the program carries: a harbour town's lantern walk.
//!
//! Must not know what its files hold.

use std::fs;
use std::path::Path;

use include_dir::{Dir, include_dir};

use super::disk::replace_file;
use super::error::FilesError;

static SAMPLE: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/sample-stash");

/// Writes the sample stash into the folder `to`, which is empty or not there yet.
///
/// # Errors
/// When something is there, or the folder cannot be written.
pub fn unpack_sample(to: &Path) -> Result<(), FilesError> {
    match fs::read_dir(to) {
        Ok(mut there) => {
            if there.next().is_some() {
                return Err(FilesError::InTheWay(to.to_owned()));
            }
        }
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
        Err(error) => return Err(FilesError::read(to)(error)),
    }
    fs::create_dir_all(to).map_err(FilesError::write(to))?;
    for (path, content) in sample_files() {
        replace_file(&to.join(path), content)?;
    }
    Ok(())
}

/// The files of the sample with their paths in the stash's folder, those whose names start with a dot left out.
pub fn sample_files() -> impl Iterator<Item = (&'static Path, &'static [u8])> {
    let mut files = Vec::new();
    collect(&SAMPLE, &mut files);
    files.into_iter()
}

fn collect(folder: &'static Dir<'static>, files: &mut Vec<(&'static Path, &'static [u8])>) {
    let hidden = |path: &Path| path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
    files.extend(
        folder.files().filter(|file| !hidden(file.path())).map(|file| (file.path(), file.contents())),
    );
    for inner in folder.dirs() {
        collect(inner, files);
    }
}
