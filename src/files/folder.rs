//! The stash's folder: what is in it, read all at once with every problem of every file.
//!
//! Must not know what is done with it.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::checks::Taste;
use crate::stash::{Sheet, SheetId, Stash};

use super::colours::OwnColours;
use super::error::FilesError;
use super::lock::Access;
use super::page_plans::PlanFile;
use super::parallel;
use super::plan::read_plan;
use super::problem::{Level, Problem, Problems, escaped};
use super::sheet::read_sheet;
use super::source::place_in;
use super::taste::read_taste;
use super::wishes::{Wish, read_wishes};

/// A stash's folder; it need not be there yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StashFolder {
    path: PathBuf,
}

/// All that a stash's folder holds, as far as it can be used.
#[derive(Debug, Default)]
pub struct Loaded {
    /// The sheets without an error.
    pub stash: Stash,
    /// The page plans, by name.
    pub plans: Vec<PlanEntry>,
    /// Titles wished for.
    pub wishes: Vec<Wish>,
    /// The owner's names for colours.
    pub colours: OwnColours,
    /// The owner's thresholds and weights.
    pub taste: Taste,
    /// All that is wrong, file by file.
    pub problems: Problems,
}

/// A page plan of the folder.
#[derive(Debug, Clone)]
pub struct PlanEntry {
    /// Its file.
    pub file: PlanFile,
    /// What it holds; `None` where it has errors.
    pub plan: Option<crate::plan::Plan>,
    /// Whether a trial of it waits that was not saved into it.
    pub has_trial: bool,
}

impl StashFolder {
    /// The stash in the folder at `path`.
    #[must_use]
    pub fn at(path: impl Into<PathBuf>) -> Self {
        Self { path: path.into() }
    }

    /// The stash in the platform's folder for data.
    ///
    /// # Errors
    /// When the platform tells none.
    pub fn usual() -> Result<Self, FilesError> {
        let folders = directories::ProjectDirs::from("", "", "oddment").ok_or(FilesError::NoUsualPlace)?;
        Ok(Self::at(folders.data_dir().join("stash")))
    }

    /// The folder.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Whether it holds neither sheets nor plans; so does a folder that is not there.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        ["sheets", "pages"].iter().all(|name| self.listed(name).is_ok_and(|files| files.is_empty()))
    }

    /// Asks for the right to write; makes the folder where there is none.
    ///
    /// # Errors
    /// When the folder cannot be made, or the lock fails in a way that tells nothing of another program.
    pub fn ask_to_write(&self) -> Result<Access, FilesError> {
        fs::create_dir_all(&self.path).map_err(FilesError::write(&self.path))?;
        Access::ask(&self.path)
    }

    /// Reads all of it. What is wrong in one file hides no other: see [`Loaded::problems`].
    ///
    /// # Errors
    /// When the folder, or a folder in it, cannot be read. A folder that is not there is an empty stash.
    pub fn load(&self) -> Result<Loaded, FilesError> {
        if self.path.exists() && !self.path.is_dir() {
            return Err(FilesError::NoFolder(self.path.clone()));
        }
        let mut loaded = Loaded::default();
        if let Some(text) = self.read_named("taste.toml", &mut loaded.problems) {
            let problems;
            (loaded.colours, loaded.taste, problems) = read_taste("taste.toml", &text);
            loaded.problems.append(problems);
        }
        self.load_sheets(&mut loaded)?;
        self.load_plans(&mut loaded)?;
        if let Some(text) = self.read_named("wishes.toml", &mut loaded.problems) {
            let problems;
            (loaded.wishes, problems) = read_wishes("wishes.toml", &text);
            loaded.problems.append(problems);
        }
        Ok(loaded)
    }

    fn load_sheets(&self, loaded: &mut Loaded) -> Result<(), FilesError> {
        let files = self.listed("sheets")?;
        let colours = &loaded.colours;
        let read = parallel::map(&files, |path| self.load_sheet(path, colours));
        let mut sheets: Vec<Sheet> = Vec::with_capacity(read.len());
        for (sheet, problems) in read {
            sheets.extend(sheet);
            loaded.problems.append(problems);
        }
        loaded.stash = Stash::new(sheets);
        Ok(())
    }

    fn load_sheet(&self, path: &Path, colours: &OwnColours) -> (Option<Sheet>, Problems) {
        let file = self.called(path);
        let mut problems = Problems::new();
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let id = SheetId::new(&stem)
            .map_err(|error| problems.push(of_file(&file, format!("{error}; rename the file"))));
        let text = read_text(path, &file).map_err(|problem| problems.push(problem));
        match (id, text) {
            (Ok(id), Ok(text)) => read_sheet(&file, &id, &text, colours),
            _ => (None, problems),
        }
    }

    fn load_plans(&self, loaded: &mut Loaded) -> Result<(), FilesError> {
        let files = self.plan_files()?;
        let (colours, stash) = (&loaded.colours, &loaded.stash);
        let read = parallel::map(&files, |file| {
            let called = self.called(file.path());
            match read_text(file.path(), &called) {
                Ok(text) => read_plan(&called, &text, colours, Some(stash)),
                Err(problem) => (None, Problems::from(problem)),
            }
        });
        for (file, (plan, problems)) in files.into_iter().zip(read) {
            let has_trial = self.trial_path(&file).exists();
            loaded.plans.push(PlanEntry { file, plan, has_trial });
            loaded.problems.append(problems);
        }
        Ok(())
    }

    /// The `.toml` files of a folder within, by name; hidden ones, which editors and systems leave about, are left out.
    pub(super) fn listed(&self, name: &str) -> Result<Vec<PathBuf>, FilesError> {
        let folder = self.path.join(name);
        let listing = match fs::read_dir(&folder) {
            Ok(listing) => listing,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(FilesError::read(&folder)(error)),
        };
        let mut files = Vec::new();
        for entry in listing {
            let path = entry.map_err(FilesError::read(&folder))?.path();
            let hidden = path.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"."));
            if !hidden && path.extension().is_some_and(|extension| extension == "toml") {
                files.push(path);
            }
        }
        files.sort_unstable();
        Ok(files)
    }

    /// The text of a file right in the folder; `None` where there is none or it cannot be read, which is told.
    fn read_named(&self, name: &str, problems: &mut Problems) -> Option<String> {
        let path = self.path.join(name);
        // One look less than asking first: a missing file is the usual case.
        match fs::read(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            read => read_bytes(read, name).map_err(|problem| problems.push(problem)).ok(),
        }
    }

    /// A file as seen from the stash's folder, or its whole path where it lies elsewhere.
    pub(super) fn called(&self, path: &Path) -> String {
        path.strip_prefix(&self.path).unwrap_or(path).display().to_string()
    }
}

fn of_file(file: &str, message: String) -> Problem {
    let message = escaped(&message);
    Problem { file: escaped(file), line: 1, column: 1, level: Level::Error, key: String::new(), message }
}

/// The text of a file; `file` is how a problem calls it.
pub(super) fn read_text(path: &Path, file: &str) -> Result<String, Problem> {
    read_bytes(fs::read(path), file)
}

fn read_bytes(read: io::Result<Vec<u8>>, file: &str) -> Result<String, Problem> {
    let bytes = read.map_err(|error| of_file(file, format!("it cannot be read: {error}")))?;
    String::from_utf8(bytes).map_err(|error| {
        let sound = error.utf8_error().valid_up_to();
        let text = String::from_utf8_lossy(&error.as_bytes()[..sound]);
        let (line, column) = place_in(&text, sound);
        let message = "here is a byte that is no UTF-8; save the file as UTF-8";
        Problem { line, column, ..of_file(file, message.into()) }
    })
}
