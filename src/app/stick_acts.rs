//! Sticking down and lifting, as far as it is asked for here.
//!
//! Must not know how it is recorded.

use crate::checks::{nothing_to_stick, obstacle};
use crate::title::{Edit, Stood, Strip};

use super::action::Action;
use super::asking::Question;
use super::effect::Effect;
use super::over::Over;
use super::state::State;

impl State {
    /// Asks whether the letters are stuck down, unless something keeps them from it.
    pub(super) fn ask_to_stick(&mut self) {
        if let Some(why) = self.file.read_only {
            return self.complain(why.told());
        }
        let plan = self.trial.plan();
        let open: Vec<usize> =
            (0..plan.strips().len()).filter(|&place| is_open(&plan.strips()[place])).collect();
        if open.is_empty() {
            return self.say(nothing_to_stick(plan));
        }
        if self.file.slug.is_none() {
            let (bench, save) = (self.key_told(Action::ToBench), self.key_told(Action::Save));
            return self.say(format!(
                "save the plan first ({bench}, then {save}): what is stuck down goes by its name"
            ));
        }
        match obstacle(plan, self.trial.verdict(), &open) {
            Some(why) => self.say(why),
            None => self.over = Over::Question(Question::StickDown),
        }
    }

    /// Asks whether the letters came off, where any are stuck down.
    pub(super) fn ask_to_lift(&mut self) {
        if let Some(why) = self.file.read_only {
            return self.complain(why.told());
        }
        if self.is_any_down() {
            self.over = Over::Question(Question::LiftAll);
        } else {
            self.say("nothing of it is stuck down");
        }
    }

    /// Whether any letter of the plan is stuck down.
    pub(super) fn is_any_down(&self) -> bool {
        let strips = self.trial.plan().strips();
        strips.iter().any(|strip| (0..strip.len()).any(|slot| strip.is_down(slot)))
    }

    /// Asks in which state the letter in hand came off, where it is stuck down.
    pub(super) fn ask_to_lift_one(&mut self) {
        if !self.strip().is_down(self.bench.slot) {
            return self.say("nothing that is stuck down stands here");
        }
        if let Some(why) = self.file.read_only {
            return self.complain(why.told());
        }
        self.over = Over::Question(Question::LiftOne);
    }

    /// That the letter in hand came off is to be recorded.
    pub(super) fn lift_one(&self, torn: bool) -> Vec<Effect> {
        vec![Effect::LiftOne { strip: self.bench.strip, slot: self.bench.slot, torn }]
    }

    /// Says that the strip in hand is stuck down, and what would do.
    pub(super) fn say_it_is_down(&mut self) {
        let key = |action| self.look.keys.told(action).map_or_else(String::new, |key| key.to_string());
        let (one, order, all) = (key(Action::LiftOne), key(Action::ShowOrder), key(Action::LiftAll));
        let role = self.strip().role();
        self.say(format!(
            "the {role} is stuck down; lift this letter ({one}) or all of them ({order}, then {all}) first"
        ));
    }

    /// Goes to a slot of a strip, as far as they are there.
    pub fn go_to_slot(&mut self, strip: usize, slot: usize) {
        self.bench.strip = strip.min(self.trial.plan().strips().len() - 1);
        self.choose_slot(slot);
    }

    /// An edit of the strip in hand as it may be made: of one that is stuck down only what is not down yet changes, and
    /// what is stood there anew is loose. `None` where it would change what is on the page.
    pub(super) fn allowed(&self, edit: Edit) -> Option<Edit> {
        let strip = self.strip();
        if strip.stuck.is_none() {
            return Some(edit);
        }
        match edit {
            Edit::Letter { slot, stood } if !strip.is_down(slot) => {
                Some(Edit::Letter { slot, stood: stood.map(|stood| Stood { loose: true, ..stood }) })
            }
            Edit::Accept(..) => Some(edit),
            _ => None,
        }
    }
}

/// Whether there is a letter on it, or one missing, that is not stuck down.
fn is_open(strip: &Strip) -> bool {
    strip.stuck.is_none() && !strip.is_empty()
        || (0..strip.len()).any(|slot| strip.letter(slot).is_some() && !strip.is_down(slot))
}
