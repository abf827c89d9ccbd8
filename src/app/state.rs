//! The whole state of the program, and what it asks the world to do.
//!
//! Must not know how it is drawn or who does what it asks.

use crate::measure::Unit;
use crate::plan::Plan;
use crate::title::Strip;

use super::action::Action;
use super::asking::Question;
use super::bench::Bench;
use super::colours::Colours;
use super::focus::Focus;
use super::grid::cell_width;
use super::keys::Keys;
use super::lists::{PlanList, Scroll};
use super::order_view::OrderView;
use super::over::Over;
use super::page_view::PageView;
use super::panes::{Panes, panes};
use super::shelf::Shelf;
use super::stash_view::StashView;
use super::trial::Trial;
use super::typing::What;
use super::view::View;
use super::wordings::{WordingList, Wordings};
use super::work::Work;

/// Everything that the program is about at one moment.
#[derive(Debug)]
pub struct State {
    /// What the trial is made from and judged against.
    pub shelf: Shelf,
    /// The plan on trial.
    pub trial: Trial,
    /// What is chosen on the bench.
    pub bench: Bench,
    /// What is chosen on the page.
    pub page: PageView,
    /// What is chosen in the stash's view.
    pub sheets: StashView,
    /// What is chosen in the wording's view.
    pub wordings: Wordings,
    /// The placement order, as it is looked at.
    pub order: OrderView,
    /// What lies over the view.
    pub over: Over,
    /// The plan's file.
    pub file: PlanFile,
    /// How it is looked at.
    pub look: Look,
    /// What was said last.
    pub notice: Option<Notice>,
    /// What is worked on between keys.
    pub work: Work,
}

/// The plan's file.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PlanFile {
    /// Its stem; `None`: never saved.
    pub slug: Option<String>,
    /// The trial's version when it was saved.
    pub saved: u64,
    /// The trial's version when it was last kept beside its plan.
    pub kept: u64,
    /// Why nothing can be saved, if it cannot.
    pub read_only: Option<ReadOnly>,
}

/// Why a stash is only looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadOnly {
    /// Another program holds it.
    Held,
    /// Its folder takes no changes.
    Folder,
}

impl ReadOnly {
    /// In words.
    #[must_use]
    pub const fn told(self) -> &'static str {
        match self {
            Self::Held => "another oddment holds this stash; here it is read-only",
            Self::Folder => "the folder of this stash takes no changes: it is read-only",
        }
    }
}

/// How the state is looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Look {
    /// Columns of the screen.
    pub columns: u16,
    /// Rows of the screen.
    pub rows: u16,
    /// The view.
    pub view: View,
    /// How many colours there are to draw with.
    pub colours: Colours,
    /// The keys that work.
    pub keys: Keys,
}

/// Something said to the user.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// The sentence.
    pub text: String,
    /// Whether it tells of a fault.
    pub fault: bool,
}

impl State {
    /// Begins on `plan`.
    #[must_use]
    pub fn new(mut shelf: Shelf, plan: Plan, file: PlanFile, colours: Colours, keys: Keys) -> Self {
        shelf.look_at(&plan.page);
        let trial = Trial::new(plan, &shelf);
        let look = Look { columns: 80, rows: 24, view: View::Bench, colours, keys };
        let mut state = Self {
            shelf,
            trial,
            bench: Bench::default(),
            page: PageView::default(),
            sheets: StashView::default(),
            wordings: Wordings::default(),
            order: OrderView::default(),
            over: Over::Nothing,
            file,
            look,
            notice: None,
            work: Work::default(),
        };
        state.list_grid();
        state.list_sheets();
        state.choose_slot(state.strip().first_empty().unwrap_or(0));
        if state.shelf.stash.is_empty() {
            state.over = Over::Question(Question::TrySample);
        }
        state
    }

    /// The chosen strip.
    #[must_use]
    pub fn strip(&self) -> &Strip {
        self.trial.strip(self.bench.strip)
    }

    /// The strip that is drawn, and its chosen slot: that of a suggestion while one is looked at.
    #[must_use]
    pub fn strip_shown(&self) -> (&Strip, usize) {
        if let Over::Suggestions(view) = self.over.beneath() {
            let (strip, slot) = view.at();
            return (&view.plan.strips()[strip], slot);
        }
        (self.strip(), self.bench.slot)
    }

    /// Where keys go.
    #[must_use]
    pub fn focus(&self) -> Focus {
        let of_view = match self.look.view {
            View::Bench => self.bench.pane.focus(),
            View::Page => Focus::OnPage,
            View::Stash => self.focus_on_sheets(),
            View::Order => Focus::Order,
            View::Wording => match self.wordings.list {
                WordingList::Wishes => Focus::Wishes,
                WordingList::Ideas => Focus::Ideas,
            },
        };
        self.over.focus().unwrap_or(of_view)
    }

    /// Where the panes lie.
    #[must_use]
    pub fn panes(&self) -> Panes {
        panes(self.look.columns, self.look.rows)
    }

    /// The unit in which lengths are told.
    #[must_use]
    pub const fn unit(&self) -> Unit {
        self.shelf.unit()
    }

    /// Whether the trial differs from the saved plan.
    #[must_use]
    pub const fn is_unsaved(&self) -> bool {
        self.trial.version() != self.file.saved
    }

    /// Whether the trial differs from what is kept of it.
    #[must_use]
    pub const fn is_unkept(&self) -> bool {
        self.is_unsaved() && self.trial.version() != self.file.kept
    }

    /// Says something.
    pub fn say(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice { text: text.into(), fault: false });
    }

    /// Tells of a fault.
    pub fn complain(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice { text: text.into(), fault: true });
    }

    /// The plan was saved under `slug`.
    pub fn was_saved(&mut self, slug: String) {
        self.file.saved = self.trial.version();
        self.say(format!("saved as {slug}"));
        self.file.slug = Some(slug);
    }

    /// The trial was kept beside its plan.
    pub const fn was_kept(&mut self) {
        self.file.kept = self.trial.version();
    }

    /// Goes on with another plan of the same stash.
    pub fn take_plan(&mut self, plan: Plan, file: PlanFile) {
        self.shelf.look_at(&plan.page);
        self.trial = Trial::new(plan, &self.shelf);
        let grid = std::mem::take(&mut self.bench.grid);
        self.bench = Bench { grid, ..Bench::default() };
        self.page = PageView::default();
        self.wordings.forget();
        self.order.made_from = None;
        self.file = file;
        self.over = Over::Nothing;
        self.work = Work::default();
        self.list_grid();
        self.choose_slot(self.strip().first_empty().unwrap_or(0));
        self.judge_wordings();
    }

    /// Goes on with the stash as it is now; the trial, its history and what is looked at stay. `unit` stays too.
    pub fn take_shelf(&mut self, mut shelf: Shelf) {
        shelf.scene.unit = self.unit();
        shelf.look_at(&self.trial.plan().page);
        self.shelf = shelf;
        self.trial.judge_anew(true, &mut self.shelf);
        // Whatever names chips by their places names others now.
        self.bench.ranked = None;
        self.work = Work { turn: self.work.turn + 1, ..Work::default() };
        if matches!(self.over.beneath(), Over::Alternates(_) | Over::Suggestions(_) | Over::OneMore) {
            self.over = Over::Nothing;
        }
        self.wordings.forget();
        self.order.made_from = None;
        self.scroll_wordings();
        self.bench.grid.forget();
        self.list_grid();
        self.list_sheets();
        self.judge_wordings();
    }

    /// Goes on with the trial that was kept: it differs from the saved plan.
    pub fn take_trial(&mut self, plan: Plan) {
        let file = PlanFile { saved: u64::MAX, ..self.file.clone() };
        self.take_plan(plan, file);
        self.say("gone on with the kept trial; it is not saved yet");
    }

    /// Asks whether to go on with a trial that was kept.
    pub fn offer_trial(&mut self) {
        self.over = Over::Question(Question::GoOnWithTrial);
    }

    /// Shows a page of text over the bench.
    pub fn show_page(&mut self, heading: &str, text: &str) {
        let width = usize::from(self.look.columns);
        let lines = text
            .lines()
            .flat_map(|line| textwrap::wrap(line, textwrap::Options::new(width).subsequent_indent("  ")));
        let lines = lines.map(Into::into).collect();
        self.over = Over::Page(heading.to_owned(), Scroll { lines, top: 0 });
    }

    /// The key by which an action is told, in words.
    #[must_use]
    pub fn key_told(&self, action: Action) -> String {
        self.look.keys.told(action).map_or_else(String::new, |key| key.to_string())
    }

    /// Begins to type the wording of a new plan's title, and says how to get at all else first.
    pub fn begin_wording(&mut self) {
        let key = |action| self.look.keys.told(action).map(|key| key.to_string());
        let places =
            [(Action::ToStash, "the stash"), (Action::OpenPlan, "the plans"), (Action::Help, "all keys")];
        let places = places.map(|(action, place)| key(action).map(|key| format!("{key}: {place}")));
        let leave = key(Action::Abandon).unwrap_or_default();
        let then: Vec<String> = places.into_iter().flatten().collect();
        self.type_in(What::FirstWording(format!("{leave}: not now; then {}", then.join("   "))), "");
    }

    /// Shows which plans there are.
    pub fn show_plans(&mut self, slugs: Vec<String>) {
        let chosen = slugs.iter().position(|slug| Some(slug) == self.file.slug.as_ref()).unwrap_or(0);
        self.over = Over::Plans(PlanList { slugs, chosen });
    }

    /// Lists the chips anew.
    pub(super) fn list_grid(&mut self) {
        let strip = self.trial.strip(self.bench.strip);
        self.bench.grid.list(&self.shelf.stash, Some((strip, self.bench.slot)));
        self.scroll_grid();
    }

    /// How many chips stand in a row of the grid.
    #[must_use]
    pub fn chips_per_row(&self) -> usize {
        let width = self.panes().grid.width.saturating_sub(1);
        usize::from((width / cell_width(self.look.colours)).max(1))
    }

    /// Moves the grid so that the chosen chip is seen.
    pub(super) fn scroll_grid(&mut self) {
        let (per_row, height) = (self.chips_per_row(), self.panes().grid.height.saturating_sub(1));
        self.bench.grid.scroll(per_row, height);
    }
}
