//! What can be done in the lists and pages that lie over the bench, and how questions are answered.
//!
//! Must not know how they are drawn.

use crate::checks::judge;
use crate::plan::PlanEdit;

use super::action::Action;
use super::asking::Question;
use super::effect::{Effect, Then};
use super::lists::{Comparison, step};
use super::over::Over;
use super::state::State;
use super::view::View;

impl State {
    pub(super) fn act_over(&mut self, action: Action) -> Vec<Effect> {
        let page = isize::try_from(self.look.rows).unwrap_or(24) - 8;
        match action {
            Action::Up => self.walk_over(-1),
            Action::Down => self.walk_over(1),
            Action::PageUp => self.walk_over(-page),
            Action::PageDown => self.walk_over(page),
            Action::First => self.walk_over(isize::MIN / 2),
            Action::Last => self.walk_over(isize::MAX / 2),
            // Turning away would let the next change write over the trial that waits.
            Action::Back if matches!(self.over, Over::Question(Question::GoOnWithTrial)) => {
                self.say("answer y to go on with the kept trial, or n to put it aside");
            }
            Action::Back if matches!(self.over, Over::Question(Question::GoOnCounting(_))) => {
                self.say("answer y to go on counting, or n to put what was counted aside");
            }
            Action::Close | Action::Abandon | Action::Back => self.close(),
            Action::Take => self.take_alternate(),
            Action::TakeKept => self.take_kept(),
            Action::WhyNot => self.ask_why_not(),
            Action::StopOneMore => self.stop_one_more(),
            Action::TakePlan => return self.take_plan_chosen(),
            Action::Finish => return self.finish_typing(),
            Action::Yes => return self.answer(true),
            Action::No => return self.answer(false),
            _ => self.act_on_suggestions(action),
        }
        Vec::new()
    }

    /// Lists the keys that work, over what they work in.
    pub(super) fn show_help(&mut self) {
        if matches!(self.over, Over::Help(..)) {
            return self.say("these are the keys; esc goes back");
        }
        let keys = self.help();
        let under = std::mem::replace(&mut self.over, Over::Nothing);
        self.over = Over::Help(keys, Box::new(under));
    }

    /// Goes back to what lies under.
    fn close(&mut self) {
        if let Over::Help(_, under) = std::mem::replace(&mut self.over, Over::Nothing) {
            self.over = *under;
        }
        if let Over::Suggestions(view) = &self.over {
            // The search may have come further in the meantime.
            let (place, chosen) = (view.place, view.chosen);
            self.look_at_suggestion(place, Some(chosen));
        }
    }

    pub(super) fn walk_over(&mut self, by: isize) {
        let rows = self.panes().page_rows();
        match &mut self.over {
            Over::Alternates(list) => list.chosen = step(list.chosen, by, list.alternates.len()),
            Over::Suggestions(_) => self.walk_suggestion(by),
            Over::Plans(list) => list.chosen = step(list.chosen, by, list.slugs.len()),
            Over::Page(_, scroll) | Over::Help(scroll, _) => scroll.walk(by, rows),
            _ => {}
        }
    }

    fn take_alternate(&mut self) {
        let Over::Alternates(list) = std::mem::replace(&mut self.over, Over::Nothing) else { return };
        if let Some(alternate) = list.alternates.get(list.chosen) {
            self.trial.close_step();
            self.stand(alternate);
        }
    }

    fn take_plan_chosen(&mut self) -> Vec<Effect> {
        let Over::Plans(list) = std::mem::replace(&mut self.over, Over::Nothing) else { return Vec::new() };
        let Some(slug) = list.slugs.into_iter().nth(list.chosen) else { return Vec::new() };
        if self.is_unsaved() && self.file.read_only.is_none() {
            self.over = Over::Question(Question::SaveBeforeOpening(slug));
            return Vec::new();
        }
        vec![Effect::Open(slug)]
    }

    fn answer(&mut self, yes: bool) -> Vec<Effect> {
        let Over::Question(question) = std::mem::replace(&mut self.over, Over::Nothing) else {
            return Vec::new();
        };
        match (question, yes) {
            (Question::SaveBeforeLeaving, true) => self.save(Then::Leave),
            (Question::SaveBeforeLeaving, false) => vec![Effect::DropTrial, Effect::Leave],
            (Question::SaveBeforeOpening(slug), true) => self.save(Then::Open(slug)),
            (Question::SaveBeforeOpening(slug), false) => vec![Effect::DropTrial, Effect::Open(slug)],
            (Question::GoOnWithTrial, true) => vec![Effect::TakeTrial],
            (Question::GoOnWithTrial, false) => vec![Effect::SetTrialAside],
            (Question::GoOnCounting(_), true) => {
                self.go_on_counting();
                Vec::new()
            }
            (Question::GoOnCounting(_), false) => {
                self.let_the_offered_go();
                vec![Effect::SetCountAside]
            }
            (Question::TrySample, true) => vec![Effect::TakeSample],
            (Question::TrySample, false) => {
                self.go_to(View::Stash);
                self.count_in();
                Vec::new()
            }
            (Question::DropCount, true) => {
                self.sheets.counting = None;
                Vec::new()
            }
            (Question::NoneLeft, true) => self.count_done(true),
            (Question::TakeFile(_), true) => vec![Effect::TakeFile],
            (Question::TakeFile(then), false) => vec![Effect::KeepMine(then)],
            (Question::StickDown, true) => vec![Effect::StickDown],
            (Question::LiftAll, true) => vec![Effect::LiftAll],
            (Question::LiftOne, whole) => self.lift_one(!whole),
            (Question::DropWish(wording), true) => vec![Effect::DropWish(wording)],
            (
                Question::DropCount
                | Question::NoneLeft
                | Question::StickDown
                | Question::LiftAll
                | Question::DropWish(_),
                false,
            ) => Vec::new(),
        }
    }

    pub(super) fn compare(&mut self) {
        match &self.bench.kept {
            None => self.say("no trial is kept yet; keep this one (k), change it, then compare"),
            Some(kept) => {
                // The kept trial may lie on another page.
                self.shelf.look_at(&kept.page);
                let verdict = judge(kept, &self.shelf.stash, &self.shelf.scene);
                self.shelf.look_at(&self.trial.plan().page);
                self.over = Over::Compare(Comparison { kept: verdict });
            }
        }
    }

    /// Goes on with the kept trial as one step of history; this one is kept in its place.
    fn take_kept(&mut self) {
        self.over = Over::Nothing;
        let Some(kept) = self.bench.kept.take() else { return };
        self.bench.kept = Some(self.trial.plan().clone());
        self.trial.change(PlanEdit::Whole(Box::new(kept)), &mut self.shelf);
        self.bench.marked = None;
        self.bench.strip = self.bench.strip.min(self.trial.plan().strips().len() - 1);
        self.choose_slot(self.bench.slot);
        self.say("the kept trial is on the bench; the other is kept in its place");
    }
}
