//! What can be asked of the search for resting places, and what is said of one.
//!
//! Must not know which key asked, or any clock.

use crate::checks::tell_touch;
use crate::page::Rest;
use crate::title::Place;

use super::pursuit::Run;
use super::seeking::Seeking;
use super::state::State;

impl State {
    /// Sends the strip in hand to its next resting place, or the one before; looks for them first where they are not known.
    pub(super) fn rest(&mut self, on: bool) {
        self.page.element = None;
        let (strip, role) = (self.bench.strip, self.strip().role().clone());
        if self.strip().stuck.is_some() {
            return self.refuse_stuck();
        }
        let known = self.work.resting.as_mut().filter(|seeking| seeking.is_for(self.trial.plan(), strip));
        if let Some(seeking) = known {
            if seeking.is_going() {
                seeking.awaited = true;
            } else if seeking.places().is_empty() && seeking.go_on() {
                seeking.awaited = true;
                self.work.begin();
            } else if seeking.places().is_empty() {
                self.say_no_room();
            } else {
                self.take_next_rest(on);
            }
        } else if self.trial.plan().page.size.is_none() {
            self.say("the page has no size yet: P chooses one");
        } else if self.strip().letters().iter().all(Option::is_none) {
            self.say(format!(
                "no letter stands on the {role} yet: 1 goes to the bench, n there suggests some"
            ));
        } else if let Some(seeking) = Seeking::new(self.trial.plan(), strip, &self.shelf) {
            self.work.resting = Some(seeking);
            self.work.begin();
        } else {
            self.say_no_room();
        }
    }

    fn say_no_room(&mut self) {
        let role = self.strip().role().clone();
        self.say(format!(
            "the {role} finds no room on the page as it is turned; turn it, or make it shorter"
        ));
    }

    fn say_none_settled(&mut self) {
        self.say("stopped before any place was settled; n goes on from there");
    }

    /// What a slice of the search has brought: once it is over the first place is taken, if it is still waited for.
    pub(super) fn after_resting(&mut self) {
        let Some(seeking) = self.work.resting.as_mut().filter(|seeking| !seeking.is_going()) else { return };
        let (awaited, count) = (std::mem::take(&mut seeking.awaited), seeking.places().len());
        match (awaited, count) {
            (true, 0) => self.say_none_settled(),
            (true, _) => self.take_next_rest(true),
            (false, _) => self.say(format!("{} found (n goes to them)", counted(count))),
        }
    }

    /// Stops the search for resting places; the best so far is taken.
    pub(super) fn stop_resting(&mut self) {
        let Some(seeking) = &mut self.work.resting else { return };
        seeking.stop(Run::Stopped);
        seeking.awaited = false;
        if seeking.places().is_empty() {
            return self.say_none_settled();
        }
        self.take_next_rest(true);
    }

    fn take_next_rest(&mut self, on: bool) {
        let Some(seeking) = &mut self.work.resting else { return };
        let count = seeking.places().len();
        let place = self.trial.plan().strips()[self.bench.strip].place;
        let is_there = |rest: &Rest| Some(rest.at) == place.at && rest.turn == place.turn;
        let now = seeking.taken.filter(|&taken| is_there(&seeking.places()[taken]));
        let next = match (now, on) {
            (None, true) => 0,
            (None, false) => count - 1,
            (Some(now), true) => (now + 1) % count,
            (Some(now), false) => (now + count - 1) % count,
        };
        seeking.taken = Some(next);
        let (rest, done) = (seeking.places()[next].clone(), seeking.is_done());
        self.trial.close_step();
        self.move_strip(Place { at: Some(rest.at), turn: rest.turn });
        self.trial.close_step();
        let touched: Vec<String> =
            rest.touches.iter().map(|touch| tell_touch(self.trial.plan(), touch)).collect();
        let touched = if touched.is_empty() { "nothing".into() } else { touched.join(", ") };
        let trapped = match rest.trapped {
            0 => String::new(),
            mm2 => format!(", {mm2} mm2 trapped"),
        };
        let so_far = if done { "" } else { " so far" };
        self.say(format!(
            "resting place {} of {count}{so_far}: {}{trapped}; touches {touched}",
            next + 1,
            rest.points
        ));
    }
}

fn counted(count: usize) -> String {
    match count {
        0 => "no resting place".into(),
        1 => "1 resting place".into(),
        more => format!("{more} resting places"),
    }
}
