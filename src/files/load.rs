//! Reads the whole of a stash's folder at once, with every problem of every file.
//!
//! Must not know what is done with it.

use std::fs;
use std::io;
use std::path::Path;

use crate::checks::Taste;
use crate::plan::Plan;
use crate::stash::{Ledger, Sheet, SheetId, Stash};

use super::error::FilesError;
use super::folder::{StashFolder, of_file, read_bytes, read_text};
use super::ledger::{LEDGER, read_ledger};
use super::page_plans::PlanFile;
use super::parallel;
use super::plan::read_plan;
use super::problem::{Level, Problem, Problems};
use super::question::question;
use super::sheet::read_sheet;
use super::taste::read_taste;
use super::wishes::{Wish, read_wishes};
use crate::measure::ColourNames;

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
    pub colours: ColourNames,
    /// The owner's thresholds and weights.
    pub taste: Taste,
    /// What happened to the stash. What is left includes all of it.
    pub ledger: Ledger,
    /// Whether the ledger has errors: nothing can be recorded.
    pub is_ledger_damaged: bool,
    /// Sheets whose files do not include all of the ledger.
    pub behind: Vec<Behind>,
    /// All that is wrong, file by file.
    pub problems: Problems,
}

/// A sheet whose file does not include all of the ledger.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Behind {
    /// The sheet.
    pub sheet: SheetId,
    /// Where it was changed by hand over entries that wait, what the owner is asked. Nothing is applied to it then: what
    /// is left is what its file says.
    pub question: Option<Problem>,
}

/// A page plan of the folder.
#[derive(Debug, Clone)]
pub struct PlanEntry {
    /// Its file.
    pub file: PlanFile,
    /// What it holds; `None` where it has errors.
    pub plan: Option<Plan>,
    /// Whether a trial of it waits that was not saved into it.
    pub has_trial: bool,
}

impl Loaded {
    /// The plans besides that of `file`, each by the name of its page, or else of its file; they are no longer here.
    #[must_use]
    pub fn take_others(&mut self, file: &PlanFile) -> Vec<(String, Plan)> {
        let others = std::mem::take(&mut self.plans).into_iter().filter(|one| one.file.path() != file.path());
        let named = |entry: PlanEntry| {
            let plan = entry.plan?;
            Some((plan.name.clone().unwrap_or_else(|| entry.file.slug().to_string()), plan))
        };
        others.filter_map(named).collect()
    }
}

impl StashFolder {
    /// Reads all of it. What is wrong in one file hides no other: see [`Loaded::problems`].
    ///
    /// # Errors
    /// When the folder, or a folder in it, cannot be read. A folder that is not there is an empty stash.
    pub fn load(&self) -> Result<Loaded, FilesError> {
        if self.path().exists() && !self.path().is_dir() {
            return Err(FilesError::NoFolder(self.path().to_owned()));
        }
        let mut loaded = Loaded::default();
        if let Some(text) = self.read_named("taste.toml", &mut loaded.problems) {
            let problems;
            (loaded.colours, loaded.taste, problems) = read_taste("taste.toml", &text);
            loaded.problems.append(problems);
        }
        if let Some(text) = self.read_named(LEDGER, &mut loaded.problems) {
            let (ledger, problems) = read_ledger(LEDGER, &text);
            loaded.is_ledger_damaged = problems.has_errors();
            loaded.ledger = ledger;
            loaded.problems.append(problems);
        } else {
            loaded.is_ledger_damaged = loaded.problems.errors().any(|problem| problem.file == LEDGER);
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
        for sheet in &mut sheets {
            if !loaded.ledger.is_behind(sheet) {
                continue;
            }
            let question = question(&loaded.ledger, sheet);
            loaded.behind.push(Behind { sheet: sheet.id.clone(), question: question.clone() });
            if let Some(question) = question {
                loaded.problems.push(question);
                continue;
            }
            for chip in loaded.ledger.settle(sheet) {
                let message =
                    format!("more of {chip} was used than there was; it is counted as 0: count it anew");
                let file = format!("sheets/{}.toml", sheet.id);
                loaded.problems.push(Problem { level: Level::Warning, ..of_file(&file, &message) });
            }
        }
        loaded.stash = Stash::new(sheets);
        Ok(())
    }

    fn load_sheet(&self, path: &Path, colours: &ColourNames) -> (Option<Sheet>, Problems) {
        let file = self.called(path);
        let mut problems = Problems::new();
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let id = SheetId::new(&stem)
            .map_err(|error| problems.push(of_file(&file, &format!("{error}; rename the file"))));
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

    /// The text of a file right in the folder; `None` where there is none or it cannot be read, which is told.
    fn read_named(&self, name: &str, problems: &mut Problems) -> Option<String> {
        let path = self.path().join(name);
        // One look less than asking first: a missing file is the usual case.
        match fs::read(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            read => read_bytes(read, name).map_err(|problem| problems.push(problem)).ok(),
        }
    }
}
