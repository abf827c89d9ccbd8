//! Page plans as files: found by name or path, opened, saved, made anew, and their trials kept beside them.
//!
//! Must not know what a plan holds.

use std::fmt;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::plan::Plan;
use crate::stash::{SheetId, SlugError, Stash};

use super::error::FilesError;
use super::folder::{StashFolder, read_text};
use super::plan::read_plan;
use super::problem::Problems;
use super::save::{new_plan_text, write_plan};
use crate::measure::ColourNames;
use crate::words::nearest;

/// The name of a page plan: one or more of `a-z`, `0-9` and `-`.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PlanSlug(String);

/// The file of a page plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanFile {
    slug: PlanSlug,
    path: PathBuf,
}

/// A page plan that was opened.
#[derive(Debug)]
pub struct OpenPlan {
    /// What it holds.
    pub plan: Plan,
    /// What it is warned of: unknown keys, chips that the stash lacks, a wording changed by hand.
    pub warnings: Problems,
}

impl PlanSlug {
    /// Checks that `text` is a name.
    ///
    /// # Errors
    /// When it is empty or holds anything but `a-z`, `0-9` and `-`.
    pub fn new(text: &str) -> Result<Self, SlugError> {
        SheetId::new(text).map(|id| Self(id.as_str().to_owned()))
    }

    /// The name that goes with a title, as [`SheetId::from_name`] makes an id; `page` where nothing is left.
    #[must_use]
    pub fn from_title(title: &str) -> Self {
        Self(SheetId::from_name(title).map_or_else(|| "page".into(), |id| id.as_str().to_owned()))
    }

    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for PlanSlug {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl PlanFile {
    /// The plan's name.
    #[must_use]
    pub const fn slug(&self) -> &PlanSlug {
        &self.slug
    }

    /// Where it lies.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }
}

impl StashFolder {
    /// The page plans of the folder, by name.
    ///
    /// # Errors
    /// When the folder `pages` cannot be read.
    pub fn plan_files(&self) -> Result<Vec<PlanFile>, FilesError> {
        Ok(self.listed("pages")?.into_iter().map(plan_file).collect())
    }

    /// The plan called `name`: a name in `pages`, or the path of a file, which ends in `.toml`.
    ///
    /// # Errors
    /// When there is no such plan.
    pub fn find_plan(&self, name: &str) -> Result<PlanFile, FilesError> {
        let path = Path::new(name);
        let is_path = path.extension().is_some_and(|extension| extension == "toml");
        if is_path && path.is_file() {
            return Ok(plan_file(self.own(path).unwrap_or_else(|| path.to_owned())));
        }
        let files = self.plan_files()?;
        let stem = if is_path { path.file_stem().unwrap_or_default().to_string_lossy() } else { name.into() };
        let alone = !is_path || path.file_name() == Some(path.as_os_str());
        if let Some(found) =
            files.iter().find(|file| alone && (stem_of(&file.path) == stem || file.slug.as_str() == stem))
        {
            return Ok(found.clone());
        }
        let near = nearest(&stem, files.iter().map(|file| file.slug.as_str())).map(str::to_owned);
        Err(FilesError::NoPlan { name: name.into(), near, folder: self.path().join("pages") })
    }

    /// A file in `pages`, however its path is spelled, as the stash calls it; `None` where it lies elsewhere.
    fn own(&self, path: &Path) -> Option<PathBuf> {
        let pages = self.path().join("pages");
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let is_own = folder.canonicalize().ok()? == pages.canonicalize().ok()?;
        is_own.then(|| Some(pages.join(path.file_name()?))).flatten()
    }

    /// What the ledger and the trials call a plan: its name, and where it does not lie in `pages`, where a plan of its name
    /// may be, its whole path as a number.
    #[must_use]
    pub fn page_name(&self, file: &PlanFile) -> String {
        if file.path.parent() == Some(&self.path().join("pages")) {
            file.slug.0.clone()
        } else {
            format!("{}-elsewhere-{:016x}", file.slug, fingerprint(&file.path))
        }
    }

    /// Opens a plan.
    ///
    /// # Errors
    /// When its file cannot be read, or has errors.
    pub fn open_plan(
        &self,
        file: &PlanFile,
        colours: &ColourNames,
        stash: &Stash,
    ) -> Result<OpenPlan, FilesError> {
        self.open(&file.path, colours, stash)
    }

    fn open(&self, path: &Path, colours: &ColourNames, stash: &Stash) -> Result<OpenPlan, FilesError> {
        let called = self.called(path);
        let text =
            read_text(path, &called).map_err(|problem| FilesError::BadPlan(Problems::from(problem)))?;
        match read_plan(&called, &text, colours, Some(stash)) {
            (Some(plan), warnings) => Ok(OpenPlan { plan, warnings }),
            (None, problems) => Err(FilesError::BadPlan(problems)),
        }
    }

    /// Saves `plan` into its file, which may be gone, and lets go of its trial. Only what changed is written: comments,
    /// order and unknown keys stay, also those that were written into the file since it was opened.
    ///
    /// # Errors
    /// When the file now has errors, or cannot be written; it is untouched then. [`FilesError::Gone`] where the stash's
    /// folder is not there: it is not made anew for one plan.
    pub fn save_plan(&self, file: &PlanFile, plan: &Plan, colours: &ColourNames) -> Result<(), FilesError> {
        self.is_still_there(&file.path)?;
        self.put(&file.path, plan, colours)?;
        self.drop_trial(file)
    }

    pub(super) fn put(&self, path: &Path, plan: &Plan, colours: &ColourNames) -> Result<(), FilesError> {
        let old = match fs::read_to_string(path) {
            Ok(old) => old,
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                return self.disk.replace(path, new_plan_text(plan, colours).as_bytes());
            }
            Err(error) => return Err(FilesError::read(path)(error)),
        };
        let new = write_plan(&old, plan, colours)
            .map_err(|problems| FilesError::BadPlan(problems.in_file(&self.called(path))))?;
        if new == old { Ok(()) } else { self.disk.replace(path, new.as_bytes()) }
    }

    /// Makes a new plan in `pages`.
    ///
    /// # Errors
    /// When there is one of that name, or it cannot be written.
    pub fn new_plan(
        &self,
        slug: &PlanSlug,
        plan: &Plan,
        colours: &ColourNames,
    ) -> Result<PlanFile, FilesError> {
        let file = self.plan_called(slug);
        if file.path.exists() {
            return Err(FilesError::PlanThere(slug.0.clone()));
        }
        self.disk.replace(&file.path, new_plan_text(plan, colours).as_bytes())?;
        Ok(file)
    }

    /// The file that a plan called `slug` has or would have.
    #[must_use]
    pub fn plan_called(&self, slug: &PlanSlug) -> PlanFile {
        PlanFile { slug: slug.clone(), path: self.path().join("pages").join(format!("{slug}.toml")) }
    }

    /// A name that no plan has yet: `wanted`, or `wanted-2` and so on.
    #[must_use]
    pub fn free_slug(&self, wanted: &PlanSlug) -> PlanSlug {
        let numbered = (2..).map(|number: u32| PlanSlug(format!("{wanted}-{number}")));
        let mut names = std::iter::once(wanted.clone()).chain(numbered);
        names.find(|slug| !self.plan_called(slug).path.exists()).unwrap_or_else(|| wanted.clone())
    }

    /// Keeps `plan` as the trial of `file`, to be offered after a crash. The plan's own file is untouched.
    ///
    /// # Errors
    /// When it cannot be written. [`FilesError::Gone`] where the stash's folder is not there: it is not made anew for one
    /// trial.
    pub fn keep_trial(&self, file: &PlanFile, plan: &Plan, colours: &ColourNames) -> Result<(), FilesError> {
        let path = self.trial_path(file);
        self.is_still_there(&path)?;
        self.disk.replace(&path, new_plan_text(plan, colours).as_bytes())
    }

    pub(super) fn is_still_there(&self, path: &Path) -> Result<(), FilesError> {
        let is_lost = path.starts_with(self.path()) && !self.path().is_dir();
        if is_lost { Err(FilesError::Gone(self.path().to_owned())) } else { Ok(()) }
    }

    /// The trial of `file` that was kept and neither saved nor let go; `None` where there is none.
    ///
    /// # Errors
    /// When there is one that cannot be read.
    pub fn trial(
        &self,
        file: &PlanFile,
        colours: &ColourNames,
        stash: &Stash,
    ) -> Result<Option<OpenPlan>, FilesError> {
        let path = self.trial_path(file);
        if path.exists() { self.open(&path, colours, stash).map(Some) } else { Ok(None) }
    }

    /// Lets go of the trial of `file`; nothing happens where there is none.
    ///
    /// # Errors
    /// When it cannot be taken away.
    pub fn drop_trial(&self, file: &PlanFile) -> Result<(), FilesError> {
        self.disk.remove(&self.trial_path(file))
    }

    /// Renames the trial of `file`, so that nothing writes over it, and says to what.
    ///
    /// # Errors
    /// When it cannot be renamed.
    pub fn set_trial_aside(&self, file: &PlanFile) -> Result<PathBuf, FilesError> {
        self.set_aside(&self.trial_path(file))
    }

    /// Plans that have a trial waiting, also those whose own file is not there yet.
    ///
    /// # Errors
    /// When the folder `trials` cannot be read.
    pub fn trials(&self) -> Result<Vec<PlanFile>, FilesError> {
        let waiting = self.listed("trials")?;
        Ok(waiting.iter().map(|path| self.plan_called(&slug_of(path))).collect())
    }

    /// Where the trial of `file` is kept.
    #[must_use]
    pub fn trial_path(&self, file: &PlanFile) -> PathBuf {
        self.path().join("trials").join(self.page_name(file) + ".toml")
    }
}

/// The same number for the same path on every machine (FNV-1a, 64 bits; Fowler, Noll and Vo).
fn fingerprint(path: &Path) -> u64 {
    let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let mix = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    path.as_os_str().as_encoded_bytes().iter().fold(0xcbf2_9ce4_8422_2325, mix)
}

fn plan_file(path: PathBuf) -> PlanFile {
    PlanFile { slug: slug_of(&path), path }
}

fn slug_of(path: &Path) -> PlanSlug {
    let stem = stem_of(path);
    PlanSlug::new(&stem).unwrap_or_else(|_| PlanSlug::from_title(&stem))
}

fn stem_of(path: &Path) -> std::borrow::Cow<'_, str> {
    path.file_stem().unwrap_or_default().to_string_lossy()
}
