//! What each input does: the one way in which the state changes by the user's hand.
//!
//! Must not know how anything is drawn, saved or printed; it asks by effects.

use crate::checks::Finding;
use crate::measure::{Angle, Length, Unit};
use crate::title::{CaseRule, Edit, FormRule, LineUp, Mix, Rules, Setting, Spacing};

use super::action::{ACTIONS, Action};
use super::effect::{Effect, Then};
use super::focus::{Focus, Reach};
use super::grid::Grid;
use super::input::Input;
use super::key::Key;
use super::lists::{Scroll, step};
use super::over::Over;
use super::page_told::is_of_place;
use super::page_view::Thing;
use super::panes::SMALLEST;
use super::state::State;
use super::strip_acts::Move;
use super::typing::{Typing, What};
use super::view::View;

/// How far one key nudges or raises a letter, and how far the larger one does: what can be read off a ruler.
const fn steps(unit: Unit) -> (Length, Length) {
    match unit {
        Unit::Millimetre => (Length::from_nm(500_000), Length::from_mm(5)),
        Unit::Inch => (Length::from_nm(1_587_500), Length::from_nm(6_350_000)),
    }
}

/// How far one key tilts a letter: 1 degree.
const TILT: Angle = Angle::from_thousandths(1000);

/// Takes one input and gives back what is to be done in the world.
pub fn update(state: &mut State, input: Input) -> Vec<Effect> {
    let mut effects = take(state, input);
    let findings = state.trial.verdict().findings.len();
    state.bench.finding = state.bench.finding.min(findings.saturating_sub(1));
    state.drop_what_is_closed();
    state.judge_wordings();
    effects.extend(state.ask_for_order());
    effects
}

fn take(state: &mut State, input: Input) -> Vec<Effect> {
    // On a screen too small to show anything nobody sees what a key would do.
    let is_blind = state.look.columns < SMALLEST.0 || state.look.rows < SMALLEST.1;
    match input {
        Input::Key(_) if is_blind && state.holds_letters() => Vec::new(),
        Input::Key(key) if is_blind && state.look.keys.action(key, Focus::Strip) == Some(Action::Quit) => {
            vec![Effect::Leave]
        }
        Input::Key(_) | Input::Paste(_) | Input::Mouse(_) if is_blind => Vec::new(),
        Input::Key(key) => state.key(key),
        Input::Paste(text) => {
            if let Over::Typing(typing) = &mut state.over {
                typing.paste(&text);
            } else if matches!(state.focus(), Focus::Letters | Focus::Swatches) {
                state.paste_on_sheet(&text);
            } else {
                state.say("a paste is text; begin to type first (w for the wording)");
            }
            Vec::new()
        }
        Input::Mouse(mouse) => {
            state.mouse(mouse);
            Vec::new()
        }
        Input::Resize { columns, rows } => {
            (state.look.columns, state.look.rows) = (columns, rows);
            state.scroll_grid();
            state.scroll_sheets();
            state.scroll_wordings();
            state.scroll_order();
            Vec::new()
        }
    }
}

impl State {
    fn key(&mut self, key: Key) -> Vec<Effect> {
        let mut action = self.look.keys.action(key, self.focus());
        if let (Over::Question(question), Some(does)) = (&self.over, action)
            && !question.is_answered_by(key, does, &self.look.keys)
        {
            action = None;
        }
        if !matches!(self.over, Over::Typing(_)) {
            self.notice = None;
        }
        self.let_go();
        let asks = matches!(action, Some(Action::Suggest | Action::RestNext | Action::RestBefore));
        if matches!(self.over, Over::Nothing) && !asks {
            self.turn_to_the_bench();
        }
        if action.is_none() && self.types_on_sheet(key) {
            return Vec::new();
        }
        match (action, &mut self.over) {
            (Some(action), _) => self.act(action),
            (None, Over::Typing(typing)) => {
                typing.key(key);
                Vec::new()
            }
            (None, over) => {
                let hint = match over {
                    Over::Question(question) => question.answers(&self.look.keys),
                    _ => "? lists the keys that work".into(),
                };
                self.say(format!("{key} does nothing here; {hint}"));
                Vec::new()
            }
        }
    }

    /// Does one action.
    pub fn act(&mut self, action: Action) -> Vec<Effect> {
        match ACTIONS.iter().find(|row| row.action == action).map(|row| row.reach) {
            Some(Reach::In(Focus::Strip)) => self.act_on_strip(action),
            Some(Reach::In(Focus::Grid)) => self.act_on_grid(action),
            Some(Reach::In(Focus::Checks)) => self.act_on_checks(action),
            Some(Reach::In(Focus::OnPage)) => self.act_on_page(action),
            Some(Reach::Bench) => self.act_on_bench(action),
            Some(
                Reach::In(Focus::Sheets | Focus::Fields | Focus::Swatches | Focus::Letters) | Reach::Sheet,
            ) => return self.act_on_sheets(action),
            Some(Reach::Wordings | Reach::In(Focus::Wishes | Focus::Ideas)) => {
                return self.act_on_wordings(action);
            }
            Some(Reach::In(Focus::Order)) => return self.act_on_order(action),
            Some(Reach::Trial | Reach::Views | Reach::Both) => {
                return self.act_on_views(action);
            }
            _ => return self.act_over(action),
        }
        Vec::new()
    }

    fn act_on_strip(&mut self, action: Action) {
        let slot = self.bench.slot;
        let (little, far) = steps(self.unit());
        let by = |nudge, raise, tilt| Move { nudge, raise, tilt };
        let nudge = |nudge| by(nudge, Length::ZERO, Angle::ZERO);
        let raise = |raise| by(Length::ZERO, raise, Angle::ZERO);
        let tilt = |tilt| by(Length::ZERO, Length::ZERO, tilt);
        match action {
            Action::SlotLeft => self.choose_slot(slot.saturating_sub(1)),
            Action::SlotRight => self.choose_slot(slot + 1),
            Action::SlotFirst => self.choose_slot(0),
            Action::SlotLast => self.choose_slot(usize::MAX),
            Action::SwapBetter => self.swap(false),
            Action::SwapNext => self.swap(true),
            Action::ListAlternates => self.list_alternates(None),
            Action::TakeOff => self.take_off(),
            Action::Exchange => self.exchange(),
            Action::NudgeLeft => self.shift(nudge(-little)),
            Action::NudgeRight => self.shift(nudge(little)),
            Action::NudgeFarLeft => self.shift(nudge(-far)),
            Action::NudgeFarRight => self.shift(nudge(far)),
            Action::Raise => self.shift(raise(little)),
            Action::Lower => self.shift(raise(-little)),
            Action::TiltLeft => self.shift(tilt(-TILT)),
            Action::TiltRight => self.shift(tilt(TILT)),
            Action::Straighten => self.straighten(),
            Action::Pin => self.pin(),
            Action::OneMore => self.ask_one_more(),
            Action::LiftOne => self.ask_to_lift_one(),
            Action::ByHand if self.strip().is_empty() => {
                self.say("there is no slot yet; type a wording first (w)");
            }
            Action::ByHand => self.type_in(What::ByHand, ""),
            _ => {}
        }
    }

    fn act_on_grid(&mut self, action: Action) {
        let page = isize::try_from(self.panes().grid.height).unwrap_or(10) - 2;
        let per_row = self.chips_per_row();
        let grid: &mut Grid = &mut self.bench.grid;
        match action {
            Action::ChipLeft => grid.walk(-1),
            Action::ChipRight => grid.walk(1),
            Action::ChipUp => grid.walk_rows(-1, per_row),
            Action::ChipDown => grid.walk_rows(1, per_row),
            Action::ChipPageUp => grid.walk_rows(-page, per_row),
            Action::ChipPageDown => grid.walk_rows(page, per_row),
            Action::ChipFirst => grid.choose(0),
            Action::ChipLast => grid.choose(usize::MAX),
            Action::Group => {
                grid.grouping = grid.grouping.next();
                self.list_grid();
            }
            Action::Stand => match grid.chosen_chip() {
                Some(chip) => self.stand_chip(chip),
                None => self.say("no chip is shown; change the filter (/)"),
            },
            _ => {}
        }
        self.scroll_grid();
    }

    fn act_on_checks(&mut self, action: Action) {
        let count = self.trial.verdict().findings.len();
        match action {
            Action::FindingUp => self.bench.finding = step(self.bench.finding, -1, count),
            Action::FindingDown => self.bench.finding = step(self.bench.finding, 1, count),
            Action::FindingFirst => self.bench.finding = 0,
            Action::FindingLast => self.bench.finding = count.saturating_sub(1),
            Action::Cure => self.cure(),
            Action::Accept => self.accept(),
            _ => {}
        }
    }

    /// Goes to the slot that the chosen finding means and lists what would cure it; of a place: to the page.
    fn cure(&mut self) {
        let Some(finding) = self.findings().get(self.bench.finding).copied().cloned() else { return };
        if is_of_place(&finding) {
            self.choose_thing(Thing::Strip(finding.strip));
            return self.go_to(View::Page);
        }
        self.bench.strip = finding.strip;
        self.bench.marked = None;
        self.choose_slot(finding.slots.first().copied().unwrap_or(self.bench.slot));
        self.bench.pane = super::bench::Pane::Strip;
        match finding.id {
            "missing" | "twice" | "wrong" | "promised" => self.list_alternates(None),
            "room" | "small" | "three" => self.show_page(finding.id, &finding.message),
            id => self.list_alternates(Some(id)),
        }
    }

    /// Is content with the chosen finding's kind on its strip, or no longer.
    fn accept(&mut self) {
        let Some(finding) = self.findings().get(self.bench.finding).copied().cloned() else { return };
        if finding.level == crate::checks::Level::Stop {
            return self.say("this keeps the title from being stuck down; it cannot be accepted");
        }
        if finding.id == "missing" && !finding.accepted {
            return self
                .say("an empty slot cannot be accepted; stand a letter there, or a thing by hand (b)");
        }
        let edit = Edit::Accept(finding.id.to_owned(), !finding.accepted);
        self.trial.change_strip(finding.strip, edit, &mut self.shelf);
        let same = |other: &&Finding| {
            (other.id, other.strip, &other.slots) == (finding.id, finding.strip, &finding.slots)
        };
        let place = self.findings().iter().position(same);
        self.bench.finding = place.unwrap_or(self.bench.finding);
        let role = self.trial.strip(finding.strip).role().to_string();
        let verb = if finding.accepted { "counts again" } else { "accepted" };
        self.say(format!("{} {verb} on the {role}", finding.id));
    }

    fn act_on_bench(&mut self, action: Action) {
        match action {
            Action::PaneNext => self.bench.pane = self.bench.pane.next(),
            Action::PaneBefore => self.bench.pane = self.bench.pane.next().next(),
            Action::Suggest => self.suggest(),
            Action::Filter => {
                let text = self.bench.grid.filter.text.clone();
                self.type_in(What::Filter, &text);
            }
            Action::Fits => {
                self.bench.grid.fits = !self.bench.grid.fits;
                self.list_grid();
                self.choose_slot(self.bench.slot);
            }
            Action::Keep => {
                self.bench.kept = Some(self.trial.plan().clone());
                self.say("this trial is kept; change what you like, then compare (c)");
            }
            Action::CompareKept => self.compare(),
            _ => self.set_strip(action),
        }
    }

    /// Changes how the chosen strip is set, or what it asks for.
    fn set_strip(&mut self, action: Action) {
        let (rules, setting) = (self.strip().rules.clone(), self.strip().setting);
        let edit = match action {
            Action::EvenGaps => return self.even_gaps(),
            Action::Spacing => {
                Edit::Setting(Setting { spacing: after(Spacing::ALL, setting.spacing), ..setting })
            }
            Action::LineUp => {
                Edit::Setting(Setting { line_up: after(LineUp::ALL, setting.line_up), ..setting })
            }
            Action::Mix => Edit::Rules(Rules { mix: after(Mix::ALL, rules.mix), ..rules }),
            Action::Forms => Edit::Rules(Rules { forms: after(FormRule::ALL, rules.forms), ..rules }),
            Action::Case => Edit::Rules(Rules { case: after(CaseRule::ALL, rules.case), ..rules }),
            _ => return,
        };
        if self.strip().stuck.is_some() {
            return self.say_it_is_down();
        }
        self.change(edit);
        if self.bench.grid.fits {
            self.list_grid();
        }
        let (rules, setting) = (&self.strip().rules, self.strip().setting);
        let text = format!(
            "mix {}, forms {}, case {}, spacing {}, lined up by {}",
            rules.mix, rules.forms, rules.case, setting.spacing, setting.line_up
        );
        self.say(text);
    }

    /// Asks for the plan to be saved, and for its name first where it has none.
    pub(super) fn save(&mut self, then: Then) -> Vec<Effect> {
        if let Some(why) = self.file.read_only {
            self.complain(why.told());
            return Vec::new();
        }
        if let Some(slug) = self.file.slug.clone() {
            return vec![Effect::Save(slug, then)];
        }
        let wording = self.trial.plan().strips()[0].wording().text().to_lowercase();
        let words = wording.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
        let text = words.collect::<Vec<_>>().join("-");
        self.type_in(What::PlanName(then), &text);
        Vec::new()
    }

    pub(super) fn type_in(&mut self, what: What, text: &str) {
        self.over = Over::Typing(Typing::new(what, text));
    }

    /// Every key that works in the pane that has the keys, from the table that runs them.
    #[must_use]
    pub fn help(&self) -> Scroll {
        let lines = self.look.keys.working(self.focus()).flat_map(|(row, keys)| {
            let keys = keys.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
            let text = format!("{keys:<18} {}", row.help);
            let options = textwrap::Options::new(usize::from(self.look.columns))
                .subsequent_indent("                   ");
            textwrap::wrap(&text, options).into_iter().map(Into::into).collect::<Vec<String>>()
        });
        Scroll { lines: lines.collect(), top: 0 }
    }
}

/// The one after `now`; after the last the first.
pub(super) fn after<T: Copy + PartialEq>(all: &[T], now: T) -> T {
    let place = all.iter().position(|&one| one == now).unwrap_or(0);
    all[(place + 1) % all.len()]
}
