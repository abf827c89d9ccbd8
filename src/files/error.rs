//! Why the stash's folder cannot be read or written: which file, what happened, what would do.
//!
//! Must not know what the files hold.

use std::io;
use std::path::{Path, PathBuf};

use super::problem::{Problem, Problems, escaped};

/// Why a file or folder does not serve.
#[derive(Debug, thiserror::Error)]
pub enum FilesError {
    /// A file or folder cannot be read.
    #[error("cannot read {}: {}", shown(path), told(source))]
    Read {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// A file cannot be written; what it held before is untouched.
    #[error("cannot write {}: {}; what it held is untouched", shown(path), told(source))]
    Write {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// The platform tells no place for data.
    #[error("this system tells no folder for data; name one with --stash DIR or ODDMENT_STASH")]
    NoUsualPlace,
    /// The stash's folder is a file.
    #[error("{} is no folder; a stash is a folder with sheets in it", shown(.0))]
    NoFolder(PathBuf),
    /// The stash's folder, or all that was in it, is not there any more.
    #[error("the stash's folder {} is gone, or empty; put it back where it was", shown(.0))]
    Gone(PathBuf),
    /// No page plan has that name.
    #[error("there is no page plan {name:?}{}", also(near.as_deref(), folder))]
    NoPlan {
        /// The name.
        name: String,
        /// A plan of nearly that name.
        near: Option<String>,
        /// Where it was looked for.
        folder: PathBuf,
    },
    /// A new plan would take the place of another.
    #[error("there is a page plan {0:?} already; open it, or take another name")]
    PlanThere(String),
    /// A sheet of an order would take the place of another plan's order.
    #[error(
        "{0:?} is another plan's name, and a sheet of this order would write over that plan's; save it as pdf"
    )]
    OrderThere(String),
    /// A sheet of an order would take the place of something else.
    #[error(
        "{} is no sheet of an order, and a sheet of this one would write over it; move it away, or save it as pdf",
        shown(.0)
    )]
    NoSheetThere(PathBuf),
    /// A page plan cannot be used before its errors are cured.
    #[error("{0}")]
    BadPlan(Problems),
    /// A sheet cannot be used before its errors are cured.
    #[error("{0}")]
    BadSheet(Problems),
    /// Nothing is wished for, or no longer, before the list's errors are cured.
    #[error("{0}\nno wish is added or dropped before that is set right")]
    BadWishes(Problems),
    /// The list of the user's own words cannot be read.
    #[error("{0}")]
    BadWords(Problems),
    /// A wish that asks for no letter.
    #[error("a wish has to say something; write what the title is to say")]
    EmptyWish,
    /// A title is wished for already.
    #[error("{0:?} is wished for already")]
    WishThere(String),
    /// No such title is wished for.
    #[error("{wording:?} is not wished for{}", meant(near.as_deref()))]
    NoWish {
        /// What was asked for.
        wording: String,
        /// A wish of nearly that wording.
        near: Option<String>,
    },
    /// The ledger cannot be used before its errors are cured.
    #[error(
        "{0}\nnothing is counted or stuck down before that is mended; `oddment mend` tells what it can do"
    )]
    BadLedger(Problems),
    /// A sheet was changed by hand over entries that wait; the owner is asked first.
    #[error("{}: {}", .0.file, .0.message)]
    AskFirst(Problem),
    /// A sheet's counts speak of an entry after which none can come.
    #[error(
        "no number is left for another entry of the ledger: as_of in a sheet is far too high; `oddment mend` tells where"
    )]
    NoNumber,
    /// A new sheet would take the place of another.
    #[error("there is a sheet {0:?} already; take another name")]
    SheetThere(String),
    /// A new sheet would take an earlier name of another: which has it, and the name.
    #[error("the sheet {0:?} was called {1:?} once, and the ledger speaks of it so; take another name")]
    SheetWas(String, String),
    /// A new sheet would take the name of one whose file is gone.
    #[error("the ledger speaks of a sheet {0:?} whose file is gone; put the file back, or take another name")]
    SheetGone(String),
    /// Something is in the way of the sample stash.
    #[error("{} is there already; unpack the sample into a folder that is empty or not there yet", shown(.0))]
    InTheWay(PathBuf),
}

impl FilesError {
    /// Whether what was asked for is at fault, not the system: a wrong name, a file with errors.
    #[must_use]
    pub const fn is_input(&self) -> bool {
        !matches!(self, Self::Read { .. } | Self::Write { .. } | Self::Gone(_))
    }

    pub(super) fn read(path: &Path) -> impl FnOnce(io::Error) -> Self + use<> {
        let path = path.to_owned();
        move |source| Self::Read { path, source }
    }

    pub(super) fn write(path: &Path) -> impl FnOnce(io::Error) -> Self + use<> {
        let path = path.to_owned();
        move |source| Self::Write { path, source }
    }
}

/// A path as a message bears it.
pub(super) fn shown(path: &Path) -> String {
    escaped(&path.display().to_string())
}

/// What was probably meant, in quotes.
fn meant(near: Option<&str>) -> String {
    near.map_or_else(String::new, |near| format!("; did you mean {near:?}?"))
}

fn also(near: Option<&str>, folder: &Path) -> String {
    match near {
        Some(near) => format!("; did you mean {near}?"),
        None => format!("; the plans are the files in {}", escaped(&folder.display().to_string())),
    }
}

/// What the system says, and what would do.
fn told(error: &io::Error) -> String {
    use io::ErrorKind::{
        AlreadyExists, InvalidData, IsADirectory, NotADirectory, NotFound, PermissionDenied, QuotaExceeded,
        ReadOnlyFilesystem, StorageFull,
    };
    let advice = match error.kind() {
        PermissionDenied => "you may not; see who may read and write there",
        ReadOnlyFilesystem => "the disk takes no changes; copy the stash to one that does",
        StorageFull | QuotaExceeded => "the disk is full; make room and save again",
        NotFound => "it is not there; look at the path",
        IsADirectory => "it is a folder where a file should be; move it away",
        NotADirectory | AlreadyExists => {
            "a part of the path is a file where a folder should be; look at the path"
        }
        InvalidData => "it is no UTF-8 text; save it as UTF-8",
        _ => return escaped(&error.to_string()),
    };
    advice.into()
}
