//! The bench on a real stash: the state, its folder, and the effects that it asks for.
//!
//! Must not know how the terminal is set up.

use std::path::PathBuf;
use std::time::{Duration, Instant};

use ratatui::Frame;

use crate::app::{self, Colours, Effect, Input, Over, ReadOnly, Shelf, State, Then, View, update};
use crate::files::{Access, FilesError, Loaded, PlanFile, PlanSlug, StashFolder};
use crate::plan::Plan;
use crate::screen;
use crate::title::Wording;

use super::patience::patiently;
use super::program::{Flow, Program};
use super::round_look::Outside;
use super::stuck::{self, Act};
use super::{keys_file, scratch};

/// The bench on a stash.
#[derive(Debug)]
pub(super) struct Desk {
    pub(super) folder: StashFolder,
    pub(super) access: Access,
    /// The open plan's file; one that was never saved has a name all the same, for its trial.
    pub(super) file: PlanFile,
    pub(super) state: State,
    pub(super) outside: Outside,
    /// The time that the work in hand has taken, and its number.
    worked: (u64, Duration),
}

/// How long keys wait at most while work goes on.
const SLICE: Duration = Duration::from_millis(15);

/// From when on it is told that work goes on.
const LONG: Duration = Duration::from_millis(100);

/// After how long a search stops by itself; it can be gone on with.
const BUDGET: Duration = Duration::from_secs(10);

/// Steps between two looks at the clock: a few milliseconds of work.
const STEPS: u64 = 1000;

impl Desk {
    /// Opens the stash in `folder`, on the plan called `plan` or on a new one. A trial that was kept is offered.
    ///
    /// # Errors
    /// When the folder cannot be read, there is no such plan, or the plan has errors.
    pub(super) fn open(
        folder: StashFolder,
        plan: Option<&str>,
        colours: Colours,
    ) -> Result<Self, FilesError> {
        let access = patiently(|| folder.ask_to_write())?;
        let file = match plan {
            Some(name) => Some(folder.find_plan(name)?),
            None if access.may_write() => folder.trials()?.into_iter().next(),
            None => None,
        };
        Self::begin(folder, access, file, colours)
    }

    fn begin(
        folder: StashFolder,
        access: Access,
        file: Option<PlanFile>,
        colours: Colours,
    ) -> Result<Self, FilesError> {
        let mut loaded = folder.load()?;
        if let Access::Writer(lock) = &access
            && !folder.complete(lock, &loaded)?.is_empty()
        {
            loaded = folder.load()?;
        }
        if let Some(file) = &file {
            loaded.seen.add_plan(file);
        }
        let saved = file.as_ref().filter(|file| file.path().exists());
        let plan = match saved {
            Some(file) => folder.open_plan(file, &loaded.colours, &loaded.stash)?.plan,
            None => Plan::titled(Wording::default()),
        };
        let slug = saved.map(|file| file.slug().to_string());
        let file =
            file.unwrap_or_else(|| folder.plan_called(&folder.free_slug(&PlanSlug::from_title("untitled"))));
        let (keys, faults) = keys_file::read(folder.path());
        let problems = loaded.problems.all().iter().map(ToString::to_string);
        let told: Vec<String> = problems.chain(faults).collect();
        let shelf = shelf(&mut loaded, &file);
        let fresh = slug.is_none();
        let outside = Outside::of(&mut loaded, (!fresh).then(|| plan.clone()));
        let read_only = match access {
            Access::Writer(_) => None,
            Access::OtherWriter => Some(ReadOnly::Held),
            Access::ReadOnly => Some(ReadOnly::Folder),
        };
        let held = app::PlanFile { slug, read_only, ..app::PlanFile::default() };
        let mut state = State::new(shelf, plan, held, colours, keys);
        let trial = if access.may_write() {
            folder.trial(&file, &state.shelf.names, &state.shelf.stash)
        } else {
            Ok(None)
        };
        if let Err(error) = &trial {
            let kept = folder.set_trial_aside(&file)?;
            let text = format!("{error}\nIt is kept aside as {}.", kept.display().to_string().escape_debug());
            state.show_page("the trial that was kept cannot be read", &text);
        } else if trial.is_ok_and(|trial| trial.is_some()) {
            state.offer_trial();
        } else if !told.is_empty() {
            state.show_page("what is wrong in the stash's files", &told.join("\n"));
        } else if fresh && !state.shelf.stash.is_empty() {
            state.begin_wording();
        }
        let mut desk = Self { folder, access, file, state, outside, worked: (0, Duration::ZERO) };
        desk.offer_count();
        Ok(desk)
    }

    /// The folder of the stash that is open; it changes when the sample is taken.
    #[must_use]
    pub(super) const fn folder(&self) -> &StashFolder {
        &self.folder
    }

    fn save(&mut self, slug: &str) -> Result<(), String> {
        let plan = self.state.trial.plan();
        if self.state.file.slug.as_deref() == Some(slug) {
            self.folder
                .save_plan(&self.file, plan, &self.state.shelf.names)
                .map_err(|error| error.to_string())?;
            self.outside.was_saved(plan.clone());
            self.leave_refuge();
            return Ok(());
        }
        let slug = PlanSlug::new(slug).map_err(|error| error.to_string())?;
        let file =
            self.folder.new_plan(&slug, plan, &self.state.shelf.names).map_err(|error| error.to_string())?;
        self.outside.was_saved(plan.clone());
        self.drop_trial();
        self.file = file;
        Ok(())
    }

    fn save_then(&mut self, slug: &str, then: &Then) -> Flow {
        if !self.may_save(Some(then)) {
            return Flow::On;
        }
        let taken_in = self.state.notice.take();
        if let Err(error) = self.save(slug) {
            self.state.complain(error);
            return Flow::On;
        }
        self.state.was_saved(slug.to_owned());
        if let Some(taken_in) = taken_in {
            self.state.say(format!("saved as {slug}; {}", taken_in.text));
        }
        match then {
            Then::Leave => return Flow::End,
            Then::Open(other) => self.open_plan(other),
            Then::Stay => {}
        }
        Flow::On
    }

    fn drop_trial(&mut self) {
        if let Err(error) = self.folder.drop_trial(&self.file) {
            self.state.complain(error.to_string());
        }
        self.leave_refuge();
    }

    fn open_plan(&mut self, name: &str) {
        // What was let go a moment ago is not offered.
        self.keep_count();
        let (look, unit) = (self.state.look.clone(), self.state.unit());
        let opened = self.folder.find_plan(name).and_then(|file| {
            let access = std::mem::replace(&mut self.access, Access::ReadOnly);
            let opened = Self::begin(self.folder.clone(), access, Some(file), look.colours);
            if opened.is_err() {
                self.access = self.folder.ask_to_write()?;
            }
            opened
        });
        match opened {
            Ok(desk) => {
                // What is asked of the stash, and how orders are printed, is not the plan's.
                let wordings = std::mem::take(&mut self.state.wordings);
                let order = std::mem::take(&mut self.state.order);
                *self = desk;
                self.state.shelf.scene.unit = unit;
                self.state.take_wordings(wordings);
                self.state.take_order(&order);
                update(&mut self.state, Input::Resize { columns: look.columns, rows: look.rows });
            }
            Err(error) => self.state.show_page("this plan cannot be opened", &error.to_string()),
        }
    }

    fn take_trial(&mut self) {
        match self.folder.trial(&self.file, &self.state.shelf.names, &self.state.shelf.stash) {
            Ok(Some(trial)) => self.state.take_trial(trial.plan),
            Ok(None) => self.state.complain("the trial is gone"),
            Err(error) => self.state.show_page("the trial cannot be opened", &error.to_string()),
        }
    }

    fn take_sample(&mut self) {
        let look = self.state.look.clone();
        let opened =
            scratch::sample().and_then(|folder| Self::open(folder, Some(scratch::PLAN), look.colours));
        match opened {
            Ok(desk) => {
                *self = desk;
                update(&mut self.state, Input::Resize { columns: look.columns, rows: look.rows });
            }
            Err(error) => self.state.complain(error.to_string()),
        }
    }

    /// Saves the plan and sticks its letters down, or lifts them; then all is read anew.
    fn deed(&mut self, act: Act) {
        let Some(slug) = self.state.file.slug.clone() else { return };
        if !self.may_save(None) {
            return;
        }
        let told =
            match self.save(&slug).and_then(|()| stuck::deed(&self.folder, &self.access, &self.file, act)) {
                Ok(told) => told,
                Err(error) => return self.state.complain(error),
            };
        let view = self.state.look.view;
        self.open_plan(&slug);
        if view == View::Order && matches!(self.state.over, Over::Nothing) {
            self.state.look.view = view;
        }
        self.state.say(told);
    }
}

/// The stash and what it is judged by, for work on `file`: the other plans speak for their letters.
pub(super) fn shelf(loaded: &mut Loaded, file: &PlanFile) -> Shelf {
    let others = loaded.take_others(file);
    let (stash, taste) = (std::mem::take(&mut loaded.stash), std::mem::take(&mut loaded.taste));
    let mut shelf = Shelf::new(stash, taste, std::mem::take(&mut loaded.colours), &others);
    shelf.ledger = std::mem::take(&mut loaded.ledger);
    shelf.wishes = std::mem::take(&mut loaded.wishes);
    shelf.are_wishes_amiss = loaded.are_wishes_amiss();
    shelf
}

impl Program for Desk {
    type Effect = Effect;

    fn input(&mut self, input: Input) -> Vec<Effect> {
        update(&mut self.state, input)
    }

    fn effect(&mut self, effect: Effect) -> Flow {
        let flow = self.act(effect);
        self.show_order_if_due();
        flow
    }

    fn draw(&self, frame: &mut Frame<'_>) {
        screen::draw(&self.state, frame);
    }

    fn is_working(&self) -> bool {
        self.state.is_working()
    }

    fn work(&mut self) -> Vec<Effect> {
        let begun = Instant::now();
        while self.state.is_working() && begun.elapsed() < SLICE {
            self.state.work_on(STEPS);
        }
        if self.worked.0 != self.state.work.turn {
            self.worked = (self.state.work.turn, Duration::ZERO);
        }
        self.worked.1 += begun.elapsed();
        if self.worked.1 >= LONG {
            self.state.work_takes_long();
        }
        if self.worked.1 >= BUDGET {
            self.state.work_is_out_of_time();
        }
        Vec::new()
    }

    fn look_round(&mut self) -> bool {
        self.look()
    }

    fn is_unkept(&self) -> bool {
        self.access.may_write() && self.state.is_unkept() || self.is_count_unkept()
    }

    fn keep_trial(&mut self) -> Option<PathBuf> {
        let is_of_count_alone = self.is_count_unkept() && !self.state.is_unkept();
        let count = self.keep_count();
        // A trial that was let go on purpose is not kept for the sake of what is counted.
        if is_of_count_alone { count } else { self.keep_plan().or(count) }
    }
}

impl Desk {
    fn act(&mut self, effect: Effect) -> Flow {
        match effect {
            Effect::Leave => return Flow::End,
            Effect::Save(slug, then) => return self.save_then(&slug, &then),
            Effect::Open(slug) => self.open_plan(&slug),
            Effect::ListPlans => match self.folder.plan_files() {
                Ok(files) => {
                    self.state.show_plans(files.iter().map(|file| file.slug().to_string()).collect());
                }
                Err(error) => self.state.complain(error.to_string()),
            },
            Effect::ShowOrder => self.show_order(),
            Effect::WriteOrder => self.write_order(),
            Effect::StickDown => self.deed(Act::Stick),
            Effect::LiftAll => self.deed(Act::LiftAll),
            Effect::LiftOne { strip, slot, torn } => {
                self.deed(Act::LiftOne { strip, slot, torn });
                self.state.go_to_slot(strip, slot);
            }
            Effect::TakeIn(_) | Effect::SaveSheet(_) | Effect::Count(..) => self.keep_sheet(&effect),
            Effect::LookAhead | Effect::LookForIdeas | Effect::AddWish(_) | Effect::DropWish(_) => {
                self.for_wordings(effect);
            }
            Effect::DropTrial => {
                self.drop_trial();
                // What was let go is not kept once more on leaving.
                self.state.was_kept();
            }
            Effect::SetTrialAside => match self.folder.set_trial_aside(&self.file) {
                Ok(aside) => {
                    self.state.was_kept();
                    self.state
                        .say(format!("it is put aside as {}", aside.display().to_string().escape_debug()));
                    self.state.ask_to_go_on_counting();
                }
                Err(error) => self.state.complain(error.to_string()),
            },
            Effect::SetCountAside => self.put_count_aside(),
            Effect::TakeTrial => {
                self.take_trial();
                self.state.ask_to_go_on_counting();
            }
            Effect::TakeFile => self.take_file(),
            Effect::KeepMine(then) => return self.keep_mine(then),
            Effect::TakeSample => self.take_sample(),
        }
        Flow::On
    }

    fn keep_plan(&mut self) -> Option<PathBuf> {
        if !self.access.may_write() || !self.state.is_unsaved() {
            return None;
        }
        if self.is_homeless() {
            return self.keep_elsewhere();
        }
        match self.folder.keep_trial(&self.file, self.state.trial.plan(), &self.state.shelf.names) {
            Err(FilesError::Gone(_)) => self.keep_elsewhere(),
            Ok(()) => {
                self.leave_refuge();
                self.state.was_kept();
                Some(self.folder.trial_path(&self.file))
            }
            Err(error) => {
                self.state.complain(format!("the trial could not be kept: {error}"));
                None
            }
        }
    }
}
