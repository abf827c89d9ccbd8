//! Every change that the program makes to the disk goes through here, step by step.
//!
//! So that a crash at any moment leaves a file's old content or its new, never a part of either; and so that whoever doubts
//! it can look on, and stop the program after any step. Must not know what the content means.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fmt;
use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use super::error::FilesError;
use super::seen::content;

/// How the names of temporary files start and end; the dot hides them from everything that lists a stash.
const PREFIX: &str = ".writing-";
const SUFFIX: &str = ".part";

/// One step of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// A temporary file is made.
    Make,
    /// A part of the content is written to it; asked twice a file, before each half.
    Write,
    /// What was written is made to last.
    Sync,
    /// The temporary file takes its name.
    Rename,
    /// The folder's new list of names is made to last.
    SyncFolder,
    /// A file is taken away.
    Remove,
}

/// Looks on at every step before it is taken, and may forbid it.
pub trait Onlooker: fmt::Debug + Send + Sync {
    /// A step is about to be taken.
    ///
    /// # Errors
    /// Where the step is not to be taken: it fails with this error.
    fn before(&self, step: Step, path: &Path) -> io::Result<()>;
}

/// What this program left in files: a number made of the content, or `None` where the file was taken away.
pub(super) type Written = BTreeMap<OsString, Option<u64>>;

/// The disk.
#[derive(Debug, Clone, Default)]
pub(super) struct Disk {
    onlooker: Option<Arc<dyn Onlooker>>,
    /// Shared by all copies, so that nobody takes for another's what one of them wrote.
    written: Arc<Mutex<Written>>,
}

/// Writes `content` to `path` through a temporary file in the same folder: write, sync, rename, sync the folder. The old
/// file's mode is kept; a symbolic link is followed and stays; missing folders are made.
///
/// # Errors
/// When a file or its folder may not be written, or the disk is full; the old content is untouched then.
pub fn replace_file(path: &Path, content: &[u8]) -> Result<(), FilesError> {
    Disk::default().replace(path, content)
}

impl Disk {
    /// The disk, with someone who looks on.
    pub(super) fn watched(onlooker: Arc<dyn Onlooker>) -> Self {
        Self { onlooker: Some(onlooker), ..Self::default() }
    }

    /// As [`replace_file`].
    pub(super) fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
        self.write(path, bytes).map_err(FilesError::write(path))?;
        self.left(path, Some(content(bytes)));
        Ok(())
    }

    /// What was written and taken away since this was last asked.
    pub(super) fn take_written(&self) -> Written {
        std::mem::take(&mut *self.written.lock().unwrap_or_else(PoisonError::into_inner))
    }

    fn left(&self, path: &Path, content: Option<u64>) {
        let mut written = self.written.lock().unwrap_or_else(PoisonError::into_inner);
        written.insert(path.as_os_str().to_owned(), content);
    }

    /// Gives a file another name in its folder; what has that name goes.
    pub(super) fn rename(&self, from: &Path, to: &Path) -> Result<(), FilesError> {
        let renamed = self
            .before(Step::Rename, to)
            .and_then(|()| fs::rename(from, to))
            .and_then(|()| self.sync_folder(to.parent().unwrap_or(Path::new("."))));
        renamed.map_err(FilesError::write(from))?;
        let moved = self.written.lock().unwrap_or_else(PoisonError::into_inner).remove(from.as_os_str());
        self.left(from, None);
        if let Some(content) = moved {
            self.left(to, content);
        }
        Ok(())
    }

    /// Takes a file away; nothing happens where there is none.
    pub(super) fn remove(&self, path: &Path) -> Result<(), FilesError> {
        let removed = self.before(Step::Remove, path).and_then(|()| fs::remove_file(path));
        match removed {
            Ok(()) => {
                self.left(path, None);
                let folder = path.parent().map_or(Ok(()), |folder| self.sync_folder(folder));
                folder.map_err(FilesError::write(path))
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            Err(error) => Err(FilesError::write(path)(error)),
        }
    }

    fn before(&self, step: Step, path: &Path) -> io::Result<()> {
        self.onlooker.as_ref().map_or(Ok(()), |onlooker| onlooker.before(step, path))
    }

    fn write(&self, path: &Path, content: &[u8]) -> io::Result<()> {
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
        // The rename would put a file in the place of a device.
        if old.as_ref().is_some_and(|old| !old.is_file()) {
            return Err(io::Error::other("it is no file but a device, a pipe or a socket; name another"));
        }
        self.before(Step::Make, &path)?;
        let mut fresh = fresh_file(folder)?;
        let (first, second) = content.split_at(content.len() / 2);
        for half in [first, second] {
            self.before(Step::Write, &path)?;
            fresh.write_all(half)?;
        }
        if let Some(old) = old {
            fs::set_permissions(fresh.path(), old.permissions())?;
        }
        self.before(Step::Sync, &path)?;
        fresh.as_file().sync_all()?;
        self.before(Step::Rename, &path)?;
        fresh.persist(&path).map_err(|error| error.error)?;
        self.sync_folder(folder)
    }

    /// Makes a rename last; Windows has no such thing.
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        self.before(Step::SyncFolder, folder)?;
        if cfg!(unix) { fs::File::open(folder)?.sync_all() } else { Ok(()) }
    }
}

/// Takes away what a program that was killed while writing left in `folder`. Only for the one writer: another's file
/// would be one in the making. What cannot be taken away harms nobody and stays.
pub(super) fn sweep(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.file_name().to_str().is_some_and(is_half_written) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Whether a name is one that files have while they are written.
pub(super) fn is_half_written(name: &str) -> bool {
    name.starts_with(PREFIX) && name.ends_with(SUFFIX)
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
///
/// # Errors
/// When the links lead round in a circle.
pub fn behind_links(path: &Path) -> io::Result<PathBuf> {
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
