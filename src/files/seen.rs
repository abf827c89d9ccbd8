//! What the stash's files were when they were read, and what has changed since by another hand.
//!
//! A file is looked at by its length and times first; only where these differ, or are too young to be trusted, is it read and
//! its content compared. What the program writes itself is known from its [`Disk`](super::disk). Must not know what the
//! files mean, and keeps no clock but the one that the system gives to files.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs::{self, File, Metadata};
use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use super::error::FilesError;
use super::folder::StashFolder;
use super::page_plans::PlanFile;

/// Files right in the folder that are looked at, and what each is.
const NAMED: [(&str, Part); 5] = [
    ("taste.toml", Part::Taste),
    ("ledger.toml", Part::Ledger),
    ("wishes.toml", Part::Wishes),
    ("on-sale.toml", Part::OnSale),
    ("keys.toml", Part::Keys),
];

/// For how long after a change another one may bear the same time: the coarsest time that a file system in use keeps is two
/// seconds (FAT; from memory).
const YOUNG: Duration = Duration::from_secs(2);

/// What the files of a stash were when they were read, by their paths.
#[derive(Debug, Clone, Default)]
pub struct Seen(BTreeMap<OsString, Mark>);

/// What a file was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Mark {
    /// `None`: nothing is known but the content.
    stamp: Option<Stamp>,
    /// Whether the stamp is old enough for every later change to bear another.
    settled: bool,
    /// A number made of its content; `None`: it could not be read.
    content: Option<u64>,
}

/// What the system tells of a file without its being read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Stamp {
    length: u64,
    modified: Option<SystemTime>,
    /// Which file it is, and when anything of it changed, which no program can set back; on Unix only.
    unix: (u64, i64, i64),
}

/// A file that another hand has changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// Where it lies.
    pub path: PathBuf,
    /// The same as seen from the stash's folder, with nothing in it that would disturb a terminal.
    pub file: String,
    /// What it is.
    pub part: Part,
    /// What happened to it.
    pub how: How,
    content: Option<u64>,
}

/// What a file of the stash is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// A sheet.
    Sheet,
    /// The plan that is open.
    ThisPlan,
    /// Another plan.
    OtherPlan,
    /// `taste.toml`.
    Taste,
    /// The ledger.
    Ledger,
    /// The wishes.
    Wishes,
    /// `on-sale.toml`.
    OnSale,
    /// `keys.toml`.
    Keys,
}

/// What happened to a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// It was not there before.
    Appeared,
    /// It holds something else.
    Changed,
    /// It is not there any more.
    Gone,
}

impl StashFolder {
    /// What another hand has changed since the files were as `seen`, by path; `plan` is the plan that is open, wherever it
    /// lies. What this program wrote through this folder is no such change. `seen` itself stays as it was but for that, so
    /// that a change is told until the stash is loaded anew.
    ///
    /// # Errors
    /// [`FilesError::Gone`] when the folder is not there, or none of its files is any more; when it cannot be read.
    pub fn changes_since(&self, seen: &mut Seen, plan: &PlanFile) -> Result<Vec<Change>, FilesError> {
        if !self.path().is_dir() {
            return Err(FilesError::Gone(self.path().to_owned()));
        }
        for (path, content) in self.disk.take_written() {
            if self.part(Path::new(&path), plan).is_some() {
                seen.note(path, content);
            }
        }
        let now = seen.now(self.looked_at(plan)?);
        if now.is_empty() && !seen.0.is_empty() {
            return Err(FilesError::Gone(self.path().to_owned()));
        }
        let mut changes = Vec::new();
        for (path, mark) in &now {
            match seen.0.get(path).map(|was| was.content) {
                Some(was) if was == mark.content => {
                    // Only its time is another, or is old enough by now.
                    seen.0.insert(path.clone(), *mark);
                }
                Some(_) => changes.push(self.change(path, How::Changed, mark.content, plan)),
                None => changes.push(self.change(path, How::Appeared, mark.content, plan)),
            }
        }
        let gone = seen.0.keys().filter(|path| !now.contains_key(*path));
        changes.extend(gone.map(|path| self.change(path, How::Gone, None, plan)));
        changes.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(changes)
    }

    /// The files that are looked at, as far as they are listed; those with a fixed name whether they are there or not.
    fn looked_at(&self, plan: &PlanFile) -> Result<Vec<PathBuf>, FilesError> {
        let mut paths = self.listed("sheets")?;
        paths.extend(self.listed("pages")?);
        paths.extend(NAMED.iter().map(|(name, _)| self.path().join(name)));
        paths.push(plan.path().to_owned());
        Ok(paths)
    }

    fn change(&self, path: &OsString, how: How, content: Option<u64>, plan: &PlanFile) -> Change {
        let path = PathBuf::from(path);
        let part = self.part(&path, plan).unwrap_or(Part::OtherPlan);
        Change { file: super::problem::escaped(&self.called(&path)), path, part, how, content }
    }

    /// What the file at `path` is; `None`: nothing that is looked at.
    fn part(&self, path: &Path, plan: &PlanFile) -> Option<Part> {
        if path == plan.path() {
            return Some(Part::ThisPlan);
        }
        let within = path.strip_prefix(self.path()).ok()?;
        let (folder, name) = (within.parent()?.to_str()?, within.file_name()?.to_str()?);
        match folder {
            // A sheet that waits for its entry is hidden.
            _ if name.starts_with('.') => None,
            "sheets" => Some(Part::Sheet),
            "pages" => Some(Part::OtherPlan),
            "" => NAMED.iter().find(|(one, _)| *one == name).map(|(_, part)| *part),
            _ => None,
        }
    }
}

impl Seen {
    /// Sees the file of a plan as it is now, where the stash's own folder does not hold it.
    pub fn add_plan(&mut self, plan: &PlanFile) {
        let path = plan.path().as_os_str();
        if !self.0.contains_key(path)
            && let (_, Some(mark)) = read(plan.path())
        {
            self.0.insert(path.to_owned(), mark);
        }
    }

    /// Sees the file at `path` as it was when it was read.
    pub(super) fn mark(&mut self, path: &Path, mark: Option<Mark>) {
        if let Some(mark) = mark {
            self.0.insert(path.as_os_str().to_owned(), mark);
        }
    }

    /// Knows that the file at `path` holds `content` now, or is gone.
    fn note(&mut self, path: OsString, content: Option<u64>) {
        match content {
            Some(_) => self.0.insert(path, Mark { stamp: None, settled: false, content }),
            None => self.0.remove(&path),
        };
    }

    /// What these files are now.
    fn now(&self, paths: Vec<PathBuf>) -> BTreeMap<OsString, Mark> {
        let look = |path: PathBuf| {
            let was = self.0.get(path.as_os_str());
            let mark = match fs::metadata(&path) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => return None,
                Err(_) => Mark { stamp: None, settled: false, content: None },
                Ok(there) => match was {
                    Some(was) if was.settled && was.stamp == Some(Stamp::of(&there)) => *was,
                    // Gone between two looks is gone.
                    _ => read(&path).1?,
                },
            };
            Some((path.into_os_string(), mark))
        };
        paths.into_iter().filter_map(look).collect()
    }
}

/// The content of a file, and what it was by then; no mark where there is none.
pub(super) fn read(path: &Path) -> (io::Result<Vec<u8>>, Option<Mark>) {
    let mut stamped = None;
    let read = File::open(path).and_then(|mut file| {
        // The stamp is taken first: what changes while it is read bears a later one.
        let there = file.metadata()?;
        stamped = Some((Stamp::of(&there), is_settled(&there)));
        let mut bytes = Vec::with_capacity(usize::try_from(there.len()).unwrap_or(0));
        file.read_to_end(&mut bytes).map(|_| bytes)
    });
    let mark = match &read {
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        read => Some(Mark {
            stamp: stamped.map(|(stamp, _)| stamp),
            settled: stamped.is_some_and(|(_, settled)| settled),
            content: read.as_ref().ok().map(|bytes| content(bytes)),
        }),
    };
    (read, mark)
}

/// A number that differs where the content does, but for one chance in 2 to the 64.
pub(super) fn content(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    bytes.hash(&mut hasher);
    hasher.finish()
}

impl Stamp {
    fn of(there: &Metadata) -> Self {
        #[cfg(unix)]
        let unix = {
            use std::os::unix::fs::MetadataExt as _;
            (there.ino(), there.ctime(), there.ctime_nsec())
        };
        #[cfg(not(unix))]
        let unix = (0, 0, 0);
        Self { length: there.len(), modified: there.modified().ok(), unix }
    }
}

/// Whether it was last changed so long ago that every later change bears another time.
fn is_settled(there: &Metadata) -> bool {
    #[cfg(unix)]
    let last = {
        use std::os::unix::fs::MetadataExt as _;
        u64::try_from(there.ctime()).ok().map(|seconds| SystemTime::UNIX_EPOCH + Duration::from_secs(seconds))
    };
    #[cfg(not(unix))]
    let last = there.modified().ok();
    // A time to come is not to be trusted either.
    last.and_then(|last| SystemTime::now().duration_since(last).ok()).is_some_and(|age| age > YOUNG)
}
