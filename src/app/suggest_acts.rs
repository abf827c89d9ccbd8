//! What can be asked of the searches: suggestions, why not this one, one more letter; and how they are taken on.
//!
//! Must not know which key asked, or any clock.

use crate::plan::PlanEdit;
use crate::suggest::Standing;

use super::action::Action;
use super::lists::step;
use super::one_more::OneMore;
use super::over::Over;
use super::pursuit::Run;
use super::state::State;
use super::suggesting::{SUGGESTIONS, Suggesting, SuggestionView, told_hindrance};
use super::view::View;
use super::why_not::WhyNot;

impl State {
    /// Whether there is work to be taken on between keys.
    #[must_use]
    pub fn is_working(&self) -> bool {
        self.work.is_going() || self.works_on_wordings()
    }

    /// Takes the work on by about `steps` steps, of which a thousand take a few milliseconds.
    pub fn work_on(&mut self, steps: u64) {
        if self.works_on_wordings() {
            self.work_on_wordings(steps);
        } else if let Some(one_more) = self.work.one_more.as_mut().filter(|one| one.is_going()) {
            one_more.work(&self.shelf, steps);
        } else if let Some(why) = self.work.why_not.as_mut().filter(|why| why.pursuit.is_going()) {
            why.pursuit.work(steps);
        } else if let Some(seeking) = self.work.resting.as_mut().filter(|one| one.is_going()) {
            // A step of this search is about a hundred of the others'.
            seeking.work(u32::try_from(steps / 100).unwrap_or(1).max(1));
            self.after_resting();
        } else if let Some(suggesting) = &mut self.work.suggesting {
            if suggesting.is_for(self.trial.plan()) {
                suggesting.pursuit.work(steps);
                self.after_a_slice();
            } else {
                // What it has found so far is about another plan.
                let awaited = suggesting.awaited;
                self.begin_suggesting(awaited);
            }
        }
    }

    /// The work takes longer than a tenth of a second.
    pub const fn work_takes_long(&mut self) {
        self.work.is_long = true;
    }

    /// The time for the work is used up: it stops by itself.
    pub fn work_is_out_of_time(&mut self) {
        let rests = self.work.resting.as_ref().is_some_and(super::seeking::Seeking::is_going);
        self.work.stop(Run::OutOfTime);
        if self.works_on_wordings() {
            self.stop_wordings();
        }
        self.after_a_slice();
        if rests {
            self.after_resting();
        }
    }

    /// Whether an action would do anything here and now: what stops a search does so where one goes on.
    #[must_use]
    pub fn is_of_use(&self, action: Action) -> bool {
        match action {
            Action::StopSuggesting | Action::StopOneMore => self.is_working(),
            Action::LiftOne => self.strip().is_down(self.bench.slot),
            Action::LiftAll => self.is_any_down(),
            Action::PaperNext => self.order.count() > 1,
            Action::PaperNear => self.order.count() > 0,
            Action::NextPaper => self.order.form != crate::order::Form::Text,
            Action::Down => !matches!(self.over, Over::Compare(_) | Over::OneMore),
            Action::ToFields => self.focus() != super::focus::Focus::Fields,
            Action::Help => !matches!(self.over, Over::Help(..)),
            Action::DropWish | Action::MustWish => !self.shelf.wishes.is_empty(),
            Action::WordingUp | Action::WordingDown => self.wordings_listed() > 0,
            Action::AddWish | Action::UseWording | Action::ExplainWording => {
                !self.wording_looked_at().trim().is_empty()
            }
            Action::Back => !matches!(&self.over, Over::Question(question) if !question.can_wait()),
            _ => true,
        }
    }

    /// How far the search in hand is, where it takes long and nothing lies over the view.
    #[must_use]
    pub fn progress(&self) -> Option<String> {
        if let Some(seeking) = self.work.resting.as_ref().filter(|one| one.is_going()) {
            let far = seeking.progress();
            return self.work.is_long.then(|| format!("looking for resting places (esc stops): {far}"));
        }
        if self.work.is_long && matches!(self.over, Over::Nothing) && self.works_on_wordings() {
            return self.wordings_progress();
        }
        let suggesting = self.work.suggesting.as_ref()?;
        let is_told =
            self.work.is_long && suggesting.pursuit.is_going() && matches!(self.over, Over::Nothing);
        is_told.then(|| format!("looking (esc stops): {}", suggesting.pursuit.progress()))
    }

    /// Looks for suggestions, goes on looking, or shows what is found.
    pub(super) fn suggest(&mut self) {
        if self.trial.plan().strips().iter().all(crate::title::Strip::is_empty) {
            return self.say("there is no slot yet; type a wording first (w)");
        }
        match &mut self.work.suggesting {
            Some(suggesting) if suggesting.is_for(self.trial.plan()) => {
                let (was_going, goes) = (suggesting.pursuit.is_going(), suggesting.pursuit.go_on());
                suggesting.awaited = true;
                match (was_going, goes) {
                    (true, _) | (_, false) => self.show_suggestions(0),
                    (false, true) => self.work.begin(),
                }
            }
            _ => self.begin_suggesting(true),
        }
    }

    fn begin_suggesting(&mut self, awaited: bool) {
        let mut suggesting = Suggesting::new(self.trial.plan(), &self.shelf);
        suggesting.awaited = awaited;
        self.work.suggesting = Some(suggesting);
        self.work.begin();
    }

    /// Stops the search for suggestions; what it has found is shown, if it was not yet.
    pub(super) fn stop_suggesting(&mut self) {
        if !self.is_working() {
            return self.say("nothing is being looked for");
        }
        self.work.stop(Run::Stopped);
        let Some(suggesting) = &mut self.work.suggesting else { return };
        if suggesting.seen {
            let steps = suggesting.pursuit.steps();
            return self.say(format!("stopped at {steps} steps; n goes on from there"));
        }
        suggesting.awaited = true;
        self.after_a_slice();
    }

    /// Other keys than the one that asked are pressed: what is found does not come up by itself under them.
    pub(super) const fn turn_to_the_bench(&mut self) {
        if let Some(seeking) = &mut self.work.resting {
            seeking.awaited = false;
        }
        if let Some(suggesting) = &mut self.work.suggesting {
            suggesting.awaited = false;
        }
    }

    /// What nobody looks at any more is not worked on, nor what is about another plan.
    pub(super) fn drop_what_is_closed(&mut self) {
        let asked = self.work.why_not.as_ref().map(|why| why.chosen);
        if !matches!(self.over.beneath(), Over::Alternates(list) if Some(list.chosen) == asked) {
            self.work.why_not = None;
        }
        if !matches!(self.over.beneath(), Over::OneMore) {
            self.work.one_more = None;
        }
        let (plan, strip) = (self.trial.plan(), self.bench.strip);
        if self.work.resting.as_ref().is_some_and(|one| one.is_going() && !one.is_for(plan, strip)) {
            self.work.resting = None;
        }
    }

    /// Shows what a slice has brought: the first suggestion once it is proved, what there is once the search stops.
    fn after_a_slice(&mut self) {
        let Some(suggesting) = &mut self.work.suggesting else { return };
        let pursuit = &suggesting.pursuit;
        let (run, found) = (pursuit.run(), pursuit.outcome().suggestions.len());
        if let Over::Suggestions(view) = &self.over {
            let (place, chosen) = (view.place, view.chosen);
            if suggesting.awaited && found > place + 1 {
                suggesting.awaited = false;
                self.notice = None;
                return self.show_suggestions(place + 1);
            }
            let changed = pursuit.outcome().suggestions.get(place) != Some(&view.suggestion);
            if changed || run != Run::Going {
                self.look_at_suggestion(place, Some(chosen));
            }
            if run == Run::Done && self.work.suggesting.as_ref().is_some_and(|one| one.awaited) {
                self.turn_to_the_bench();
                self.say("no other differs enough from those before");
            }
        } else if run != Run::Going || (suggesting.awaited && pursuit.is_proved()) {
            let shown = suggesting.awaited && matches!(self.over, Over::Nothing);
            suggesting.awaited = false;
            if shown {
                self.show_suggestions(0);
            } else if matches!(self.over, Over::Nothing) {
                let s = if found == 1 { "" } else { "s" };
                let how =
                    if self.look.view == View::Bench { "n shows them" } else { "1, then n, shows them" };
                self.say(format!("{found} suggestion{s} found ({how})"));
            }
        }
    }

    /// Shows the suggestion at `place`, or why there is none.
    fn show_suggestions(&mut self, place: usize) {
        let Some(suggesting) = &mut self.work.suggesting else { return };
        (suggesting.awaited, suggesting.seen) = (false, true);
        if let Standing::Impossible(hindrance) = suggesting.pursuit.outcome().standing {
            self.over = Over::Nothing;
            let why = told_hindrance(hindrance, self.trial.plan(), &self.shelf);
            return self.complain(why);
        }
        self.look_at_suggestion(place, None);
    }

    pub(super) fn look_at_suggestion(&mut self, place: usize, row: Option<usize>) {
        let Some(suggesting) = &self.work.suggesting else { return };
        match SuggestionView::new(&self.trial, &self.shelf, &suggesting.pursuit, place, row) {
            Some(view) => self.over = Over::Suggestions(Box::new(view)),
            None => self.say("nothing is found yet"),
        }
    }

    pub(super) fn act_on_suggestions(&mut self, action: Action) {
        let Over::Suggestions(view) = &self.over else { return };
        let (place, chosen) = (view.place, view.chosen);
        match action {
            Action::SuggestNext => self.next_suggestion(place),
            Action::SuggestBefore if place == 0 => self.say("this is the first suggestion"),
            Action::SuggestBefore => self.look_at_suggestion(place - 1, Some(chosen)),
            Action::TakeSuggestion => self.take_suggestion(),
            Action::StopSuggesting => {
                let Some(suggesting) = &mut self.work.suggesting else { return };
                if suggesting.pursuit.is_going() {
                    suggesting.pursuit.stop(Run::Stopped);
                    self.say("stopped; s or n goes on from here");
                } else if suggesting.pursuit.go_on() {
                    self.work.begin();
                } else {
                    self.say("the search is over: all is found");
                }
            }
            _ => {}
        }
    }

    /// Goes to the suggestion after `place`, or looks for it.
    fn next_suggestion(&mut self, place: usize) {
        let Some(suggesting) = &mut self.work.suggesting else { return };
        let found = suggesting.pursuit.outcome().suggestions.len();
        if place + 1 < found {
            return self.look_at_suggestion(place + 1, None);
        }
        let was_going = suggesting.pursuit.is_going();
        if suggesting.pursuit.go_on() {
            suggesting.awaited = true;
            if !was_going {
                self.work.begin();
            }
            self.say("looking for the next that differs; s stops");
        } else {
            let s = if found == 1 { "is the only suggestion" } else { "is the last suggestion" };
            let few = found < SUGGESTIONS;
            let why = if few { "no other differs enough" } else { "no more are looked for" };
            self.say(format!("this {s}: {why}"));
        }
    }

    /// Takes the suggestion that is looked at: one step of history.
    fn take_suggestion(&mut self) {
        let Over::Suggestions(view) = std::mem::replace(&mut self.over, Over::Nothing) else { return };
        self.work.stop(Run::Stopped);
        let changed = view.changed();
        if view.plan == *self.trial.plan() {
            return self.say("it is what stands there already");
        }
        self.trial.close_step();
        self.trial.change(PlanEdit::Whole(Box::new(view.plan)), &mut self.shelf);
        self.trial.close_step();
        self.bench.marked = None;
        self.choose_slot(self.bench.slot);
        self.say(format!("suggestion taken: {changed} slots changed; undo takes it back (u)"));
    }

    /// Chooses another row of the suggestion.
    pub(super) fn walk_suggestion(&mut self, by: isize) {
        if let (Over::Suggestions(view), Some(suggesting)) = (&mut self.over, &self.work.suggesting) {
            let row = step(view.chosen, by, view.changes.len());
            view.choose(row, &self.shelf, &suggesting.pursuit);
        }
    }

    /// Asks why not the chosen alternate.
    pub(super) fn ask_why_not(&mut self) {
        let Over::Alternates(list) = &self.over else { return };
        let Some(alternate) = list.alternates.get(list.chosen) else { return };
        let at = (self.bench.strip, self.bench.slot);
        self.work.why_not = Some(WhyNot::new(&self.trial, &self.shelf, at, list.chosen, alternate));
        self.work.begin();
    }

    /// Asks what one more of the chosen slot's letter would do.
    pub(super) fn ask_one_more(&mut self) {
        let Some(asked) = self.strip().wording().slots().get(self.bench.slot) else {
            return self.say("there is no slot yet; type a wording first (w)");
        };
        let wanted = self.strip().rules.wanted(&asked.character);
        self.work.one_more = Some(OneMore::new(self.trial.plan(), &wanted, &self.shelf));
        self.work.begin();
        self.over = Over::OneMore;
    }

    /// Stops looking for what one more letter would do, or goes on.
    pub(super) fn stop_one_more(&mut self) {
        let Some(one_more) = &mut self.work.one_more else { return };
        if one_more.is_going() {
            one_more.stop(Run::Stopped);
        } else if one_more.go_on() {
            self.work.begin();
        }
    }
}
