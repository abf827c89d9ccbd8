//! One writer at a time: an advisory lock on a file of the stash's folder.
//!
//! Must not know what is written.

use std::fs::{File, OpenOptions, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::error::FilesError;

/// The file that is locked; it holds nothing. It was changed last when a program got the right to write.
const LOCK_FILE: &str = ".lock";

/// Whether this program may write to the stash.
#[derive(Debug)]
pub enum Access {
    /// It may, for as long as this is kept.
    Writer(StashLock),
    /// Another program has the stash open: look, but do not write.
    OtherWriter,
    /// The folder takes no changes.
    ReadOnly,
}

/// The right to write; let go when dropped, and by the system when the program ends in any way.
#[derive(Debug)]
pub struct StashLock {
    file: File,
    path: PathBuf,
}

impl StashLock {
    /// Whether it still locks the stash: the folder, or the file in it that is locked, may have gone, or another may lie
    /// there now. On systems that cannot tell one file from another, whether there is a file.
    #[must_use]
    pub fn holds(&self) -> bool {
        let Ok(there) = std::fs::metadata(&self.path) else { return false };
        #[cfg(unix)]
        {
            use std::os::unix::fs::MetadataExt as _;
            let mine = self.file.metadata();
            mine.is_ok_and(|mine| (mine.dev(), mine.ino()) == (there.dev(), there.ino()))
        }
        #[cfg(not(unix))]
        there.is_file()
    }
}

impl Access {
    /// Whether this program may write.
    #[must_use]
    pub const fn may_write(&self) -> bool {
        matches!(self, Self::Writer(_))
    }

    /// Asks for the right to write to the stash in `folder`, which must be there.
    pub(super) fn ask(folder: &Path) -> Result<Self, FilesError> {
        let path = folder.join(LOCK_FILE);
        let read_only = std::fs::metadata(folder).map_err(FilesError::read(folder))?.permissions().readonly();
        if read_only {
            return Ok(Self::ReadOnly);
        }
        let file = match OpenOptions::new().create(true).truncate(false).write(true).open(&path) {
            Ok(file) => file,
            Err(error) if takes_no_changes(&error) => return Ok(Self::ReadOnly),
            Err(error) => return Err(FilesError::write(&path)(error)),
        };
        match file.try_lock() {
            Ok(()) => {
                // Only who waits looks at it, and waits no less where it cannot be told.
                let _ = file.set_modified(SystemTime::now());
                Ok(Self::Writer(StashLock { file, path }))
            }
            Err(TryLockError::WouldBlock) => Ok(Self::OtherWriter),
            Err(TryLockError::Error(error)) => Err(FilesError::write(&path)(error)),
        }
    }
}

/// When a program last got the right to write to the stash in `folder`, as far as can be told.
pub(super) fn last_came(folder: &Path) -> Option<SystemTime> {
    std::fs::metadata(folder.join(LOCK_FILE)).and_then(|file| file.modified()).ok()
}

/// Whether another program holds the right to write to the stash in `folder`, as far as one can see without a change there.
pub(super) fn is_held(folder: &Path) -> bool {
    let file = File::open(folder.join(LOCK_FILE));
    file.is_ok_and(|file| matches!(file.try_lock_shared(), Err(TryLockError::WouldBlock)))
}

fn takes_no_changes(error: &io::Error) -> bool {
    matches!(error.kind(), io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem)
}
