//! Reads the whole of a stash's folder at once, with every problem of every file.
//!
//! Must not know what is done with it.

use std::io;
use std::path::{Path, PathBuf};

use crate::checks::Taste;
use crate::plan::Plan;
use crate::stash::{Ledger, Sheet, SheetId, Stash};

use super::error::FilesError;
use super::folder::{StashFolder, of_file, read_bytes};
use super::ledger::{HIGHEST, LEDGER, read_ledger};
use super::on_sale::ON_SALE;
use super::page_plans::PlanFile;
use super::parallel;
use super::plan::read_plan;
use super::problem::{Level, Problem, Problems};
use super::question::question;
use super::seen::{Mark, Seen, read};
use super::sheet::read_sheet;
use super::taste::read_taste;
use super::wishes::{WISHES, read_wishes};
use crate::measure::ColourNames;
use crate::title::Wish;

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
    /// Whether the ledger has errors, or is gone: nothing can be recorded.
    pub is_ledger_damaged: bool,
    /// Sheets whose files do not include all of the ledger.
    pub behind: Vec<Behind>,
    /// All that is wrong, file by file.
    pub problems: Problems,
    /// What the files were when they were read.
    pub seen: Seen,
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

/// What is read without the ledger.
struct Read {
    stash: Stash,
    in_sheets: Problems,
    marks: Vec<(PathBuf, Option<Mark>)>,
    plans: Vec<ReadPlan>,
}

/// A plan that was read, what is wrong with it, and what its file was.
type ReadPlan = (PlanEntry, Problems, Option<Mark>);

impl Loaded {
    fn take_ledger(&mut self, path: &Path, (ledger, problems, mark): (Ledger, Problems, Option<Mark>)) {
        (self.ledger, self.is_ledger_damaged) = (ledger, problems.has_errors());
        self.problems.append(problems);
        self.seen.mark(path, mark);
    }

    /// Whether the list of wishes has errors: it may hold more than could be read.
    #[must_use]
    pub fn are_wishes_amiss(&self) -> bool {
        self.problems.errors().any(|problem| problem.file == WISHES)
    }

    /// Tells that the ledger is gone, or empty, though sheets or plans speak of its entries: a new one would give their
    /// numbers once more.
    fn miss_ledger(&mut self) {
        let Some(speaks) = self.speaks_of_entries() else { return };
        let message = format!(
            "it is gone, or empty, though {speaks}; put the file back, or, if it is lost for good, `oddment mend --write` begins a \
             new one: all counts stay as they are"
        );
        self.problems.push(of_file(LEDGER, &message));
        self.is_ledger_damaged = true;
    }

    /// The first of the sheets and plans that speaks of an entry of the ledger, in words.
    pub(super) fn speaks_of_entries(&self) -> Option<String> {
        let sheets = self.stash.sheets().iter().map(|sheet| (sheet, sheet.record.as_of.unwrap_or(0)));
        let mut counted = sheets.filter(|(_, as_of)| *as_of > 0);
        let mut stuck = self.stuck().filter(|(_, number)| *number > 0);
        let sheet =
            counted.next().map(|(sheet, as_of)| format!("sheets/{}.toml has as_of = {as_of}", sheet.id));
        sheet.or_else(|| {
            let (file, number) = stuck.next()?;
            Some(format!("the plan {} has stuck = {number}", file.slug()))
        })
    }

    /// The highest entry by which a plan says that it is stuck down; 0 where none is.
    pub(super) fn last_stuck(&self) -> u32 {
        // What no entry can have is of no ledger.
        self.stuck().map(|(_, number)| number).filter(|&number| number < HIGHEST).max().unwrap_or(0)
    }

    fn stuck(&self) -> impl Iterator<Item = (&PlanFile, u32)> {
        let strips = |entry: &PlanEntry| {
            let strips = entry.plan.as_ref().map_or(&[][..], Plan::strips);
            strips.iter().filter_map(|strip| strip.stuck).collect::<Vec<_>>()
        };
        self.plans.iter().flat_map(move |entry| strips(entry).into_iter().map(|number| (&entry.file, number)))
    }

    /// Applies the ledger to the sheets that are behind it; whether any is.
    fn bring_up(&mut self) -> bool {
        if !self.stash.sheets().iter().any(|sheet| self.ledger.is_behind(sheet)) {
            return false;
        }
        let mut sheets = self.stash.sheets().to_vec();
        for sheet in sheets.iter_mut().filter(|sheet| self.ledger.is_behind(sheet)) {
            let question = question(&self.ledger, sheet);
            self.behind.push(Behind { sheet: sheet.id.clone(), question: question.clone() });
            if let Some(question) = question {
                self.problems.push(question);
                continue;
            }
            for chip in self.ledger.settle(sheet) {
                let message =
                    format!("more of {chip} was used than there was; it is counted as 0: count it anew");
                let file = format!("sheets/{}.toml", sheet.id);
                self.problems.push(Problem { level: Level::Warning, ..of_file(&file, &message) });
            }
        }
        self.stash = Stash::new(sheets);
        true
    }

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
        if let Some(text) = self.read_named("taste.toml", &mut loaded) {
            let problems;
            (loaded.colours, loaded.taste, problems) = read_taste("taste.toml", &text);
            loaded.problems.append(problems);
        }
        // The ledger may be the largest file of all. Nothing that is read beside it needs it, but to know what is left.
        let colours = &loaded.colours;
        let (found, ledger) = parallel::both(|| self.read_files(colours), || self.load_ledger());
        let (found, (ledger, is_blank)) = (found?, ledger);
        loaded.take_ledger(&self.path().join(LEDGER), ledger);
        for (path, mark) in found.marks {
            loaded.seen.mark(&path, mark);
        }
        loaded.problems.append(found.in_sheets);
        loaded.stash = found.stash;
        let plans =
            if loaded.bring_up() { self.load_plans(&loaded.colours, &loaded.stash)? } else { found.plans };
        for (entry, problems, mark) in plans {
            loaded.seen.mark(entry.file.path(), mark);
            loaded.plans.push(entry);
            loaded.problems.append(problems);
        }
        if is_blank {
            loaded.miss_ledger();
        }
        if let Some(text) = self.read_named(WISHES, &mut loaded) {
            let problems;
            (loaded.wishes, problems) = read_wishes(WISHES, &text);
            loaded.problems.append(problems);
        }
        // Whoever reads these tells what is wrong with them.
        for path in ["keys.toml", ON_SALE].map(|name| self.path().join(name)) {
            loaded.seen.mark(&path, read(&path).1);
        }
        Ok(loaded)
    }

    /// Sheets with the counts of their files, and plans.
    fn read_files(&self, colours: &ColourNames) -> Result<Read, FilesError> {
        let files = self.listed("sheets")?;
        let (mut sheets, mut in_sheets) = (Vec::with_capacity(files.len()), Problems::new());
        let mut marks = Vec::with_capacity(files.len());
        let each = parallel::map(&files, |path| self.load_sheet(path, colours));
        for (path, (sheet, problems, mark)) in files.into_iter().zip(each) {
            sheets.extend(sheet);
            in_sheets.append(problems);
            marks.push((path, mark));
        }
        let stash = Stash::new(sheets);
        let plans = self.load_plans(colours, &stash)?;
        Ok(Read { stash, in_sheets, marks, plans })
    }

    /// The ledger, and whether nothing at all is written there.
    fn load_ledger(&self) -> ((Ledger, Problems, Option<Mark>), bool) {
        let (bytes, mark) = read(&self.path().join(LEDGER));
        let nothing = (Ledger::default(), Problems::new());
        let ((ledger, problems), is_blank) = match bytes {
            Err(error) if error.kind() == io::ErrorKind::NotFound => (nothing, true),
            bytes => match read_bytes(bytes, LEDGER) {
                Ok(text) => (read_ledger(LEDGER, &text), text.trim().is_empty()),
                Err(problem) => ((Ledger::default(), Problems::from(problem)), false),
            },
        };
        ((ledger, problems, mark), is_blank)
    }

    fn load_sheet(&self, path: &Path, colours: &ColourNames) -> (Option<Sheet>, Problems, Option<Mark>) {
        let file = self.called(path);
        let mut problems = Problems::new();
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let id = SheetId::new(&stem)
            .map_err(|error| problems.push(of_file(&file, &format!("{error}; rename the file"))));
        let (bytes, mark) = read(path);
        let text = read_bytes(bytes, &file).map_err(|problem| problems.push(problem));
        let (sheet, problems) = match (id, text) {
            (Ok(id), Ok(text)) => read_sheet(&file, &id, &text, colours),
            _ => (None, problems),
        };
        (sheet, problems, mark)
    }

    fn load_plans(&self, colours: &ColourNames, stash: &Stash) -> Result<Vec<ReadPlan>, FilesError> {
        let files = self.plan_files()?;
        let each = parallel::map(&files, |file| {
            let called = self.called(file.path());
            let (bytes, mark) = read(file.path());
            let (plan, problems) = match read_bytes(bytes, &called) {
                Ok(text) => read_plan(&called, &text, colours, Some(stash)),
                Err(problem) => (None, Problems::from(problem)),
            };
            (plan, problems, mark)
        });
        let entries = files.into_iter().zip(each).map(|(file, (plan, problems, mark))| {
            let has_trial = self.trial_path(&file).exists();
            (PlanEntry { file, plan, has_trial }, problems, mark)
        });
        Ok(entries.collect())
    }

    /// The text of a file right in the folder; `None` where there is none or it cannot be read, which is told.
    fn read_named(&self, name: &str, loaded: &mut Loaded) -> Option<String> {
        let path = self.path().join(name);
        // One look less than asking first: a missing file is the usual case.
        let (bytes, mark) = read(&path);
        loaded.seen.mark(&path, mark);
        match bytes {
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            bytes => read_bytes(bytes, name).map_err(|problem| loaded.problems.push(problem)).ok(),
        }
    }
}
