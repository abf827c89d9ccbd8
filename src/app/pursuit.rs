//! A search that is taken on between keys: how far it is, and what is proved by then.
//!
//! Must not know what is searched for, or any clock.

use crate::measure::Points;
use crate::suggest::{Outcome, Problem, Search, Standing};

/// Whether a search goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Run {
    /// It is taken on whenever no key waits.
    Going,
    /// It was stopped by a key; it can go on from where it was.
    Stopped,
    /// It was stopped as it took long; it can go on from where it was.
    OutOfTime,
    /// There is nothing left to do.
    Done,
}

impl Run {
    /// Stops, if it goes.
    pub(super) fn stop(&mut self, why: Self) {
        if *self == Self::Going {
            *self = why;
        }
    }

    /// Goes on from where it was; `false` where nothing is left to do.
    pub(super) fn go_on(&mut self) -> bool {
        if *self != Self::Done {
            *self = Self::Going;
        }
        *self == Self::Going
    }
}

/// A search and what came of it so far.
#[derive(Debug)]
pub struct Pursuit {
    search: Search,
    outcome: Outcome,
    run: Run,
}

impl Pursuit {
    /// Begins to look for the `count` best that differ.
    #[must_use]
    pub fn new(problem: Problem, count: usize) -> Self {
        let search = Search::new(problem, count);
        let outcome = search.outcome();
        Self { search, outcome, run: Run::Going }
    }

    /// What came of it so far.
    #[must_use]
    pub const fn outcome(&self) -> &Outcome {
        &self.outcome
    }

    /// Whether it goes on.
    #[must_use]
    pub const fn run(&self) -> Run {
        self.run
    }

    /// Whether it is taken on whenever no key waits.
    #[must_use]
    pub fn is_going(&self) -> bool {
        self.run == Run::Going
    }

    /// The score of the best so far.
    #[must_use]
    pub fn best(&self) -> Option<Points> {
        self.outcome.suggestions.first().map(|best| best.score)
    }

    /// Whether it is proved that nothing scores less than the best so far.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.outcome.standing == Standing::Best || self.best().is_some_and(|best| best <= self.outcome.bound)
    }

    /// Takes it on by about `steps` steps.
    pub fn work(&mut self, steps: u64) {
        if self.is_going() {
            if self.search.run(steps) {
                self.run = Run::Done;
            }
            self.outcome = self.search.outcome();
        }
    }

    /// Stops it, if it goes.
    pub fn stop(&mut self, why: Run) {
        self.run.stop(why);
    }

    /// Lets it go on from where it was; `false` where nothing is left to do.
    pub fn go_on(&mut self) -> bool {
        self.run.go_on()
    }

    /// How many steps it has taken: `120,000`.
    #[must_use]
    pub fn steps(&self) -> String {
        grouped(self.outcome.explored)
    }

    /// How far it is: `120,000 steps; best so far 18.0, none below 15.2 (gap 2.8)`.
    #[must_use]
    pub fn progress(&self) -> String {
        format!("{} steps; {}", self.steps(), self.claim(0))
    }

    /// What is proved of the suggestion at `place`.
    #[must_use]
    pub fn claim(&self, place: usize) -> String {
        let Some(best) = self.best() else { return "nothing found so far".into() };
        match (place, self.outcome.standing, self.is_proved()) {
            (0, Standing::Best, _) => format!("{best} is the best there is"),
            (0, _, true) => format!("nothing scores less than {best}"),
            (_, _, true) => "the next best that differs".into(),
            (_, _, false) => {
                let bound = self.outcome.bound;
                format!("best so far {best}, none below {bound} (gap {})", best - bound)
            }
        }
    }
}

/// A number with a comma after every three figures from the right.
fn grouped(number: u64) -> String {
    let figures = number.to_string();
    let mut text = String::new();
    for (place, figure) in figures.chars().enumerate() {
        if place > 0 && (figures.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(figure);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::grouped;

    #[test]
    fn figures_are_parted_by_threes() {
        let told: Vec<String> = [0, 999, 1000, 1_234_567].map(grouped).to_vec();
        assert_eq!(told, ["0", "999", "1,000", "1,234,567"]);
    }
}
