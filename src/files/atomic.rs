//! Replaces a file's content so that a crash at any moment leaves the old content or the new, never a part of either.
//!
//! Must not know what the content means.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::error::FilesError;

/// How the names of temporary files start and end; the dot hides them from everything that lists a stash.
const PREFIX: &str = ".writing-";
const SUFFIX: &str = ".part";

/// Writes `content` to `path` through a temporary file in the same folder: write, sync, rename, sync the folder. The old
/// file's mode is kept; a symbolic link is followed and stays; missing folders are made.
///
/// # Errors
/// When a file or its folder may not be written, or the disk is full; the old content is untouched then.
pub fn replace_file(path: &Path, content: &[u8]) -> Result<(), FilesError> {
    write(path, content).map_err(FilesError::write(path))
}

fn write(path: &Path, content: &[u8]) -> io::Result<()> {
    let path = behind_links(path)?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(folder)?;
    let old = match fs::metadata(&path) {
        Ok(old) => Some(old),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(error),
    };
    // A rename would go through where the owner forbade writing to the file itself.
    if old.as_ref().is_some_and(|old| old.permissions().readonly())
        || fs::metadata(folder)?.permissions().readonly()
    {
        return Err(io::ErrorKind::PermissionDenied.into());
    }
    if old.as_ref().is_some_and(fs::Metadata::is_dir) {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    let mut fresh = fresh_file(folder)?;
    fresh.write_all(content)?;
    if let Some(old) = old {
        fs::set_permissions(fresh.path(), old.permissions())?;
    }
    fresh.as_file().sync_all()?;
    fresh.persist(&path).map_err(|error| error.error)?;
    sync_folder(folder)
}

/// Takes away what a program that was killed while writing left in `folder`. Only for the one writer: another's file
/// would be one in the making. What cannot be taken away harms nobody and stays.
pub(super) fn sweep(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let name = name.as_encoded_bytes();
        if name.starts_with(PREFIX.as_bytes()) && name.ends_with(SUFFIX.as_bytes()) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// A temporary file with the mode that a new file gets here.
fn fresh_file(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(PREFIX).suffix(SUFFIX);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        builder.permissions(fs::Permissions::from_mode(0o666)).tempfile_in(folder)
    }
    #[cfg(not(unix))]
    builder.tempfile_in(folder)
}

/// The file that a path leads to through symbolic links, whether it is there or not.
fn behind_links(path: &Path) -> io::Result<PathBuf> {
    /// As many links as the kernel follows.
    const MOST_LINKS: usize = 40;
    let mut path = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&path) {
            Ok(target) => path = path.parent().unwrap_or(Path::new("")).join(target),
            Err(_) => return Ok(path),
        }
    }
    Err(io::Error::other("its symbolic links lead round in a circle"))
}

/// Makes a rename last; Windows has no such thing.
pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { fs::File::open(folder)?.sync_all() } else { Ok(()) }
}
