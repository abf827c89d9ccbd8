//! The most wishes that can be made together, as far as that is known, and what each of them would take.
//!
//! Must not know which key asked.

use std::collections::BTreeSet;

use crate::supply::{Answer, Demand, Sharing, Supply, Together};
use crate::title::Wish;

/// The wishes that can be made together.
#[derive(Debug)]
pub struct WishSet {
    demands: Vec<Demand>,
    together: Together,
    sharing: Option<Sharing>,
    /// What each of them takes, once that is settled.
    shared: Vec<(usize, Answer)>,
    is_going: bool,
}

/// Steps of the search that are gone at once, a millisecond or two: most often it is over by then.
const AT_ONCE: u64 = 1_000;

impl WishSet {
    /// Asks which of `wishes` can be made together, with those that `must` be.
    pub(super) fn new(supply: &Supply, wishes: &[Wish], must: &BTreeSet<String>) -> Self {
        let demands: Vec<Demand> = wishes.iter().map(|wish| supply.demand(&wish.wording)).collect();
        let is_must = |place: &usize| must.contains(wishes[*place].wording.text());
        let must: Vec<usize> = (0..wishes.len()).filter(is_must).collect();
        let mut together = Together::new(supply, &demands, &must);
        together.advance(AT_ONCE);
        Self { demands, together, sharing: None, shared: Vec::new(), is_going: !wishes.is_empty() }
    }

    /// Whether it is taken on whenever no key waits.
    #[must_use]
    pub const fn is_going(&self) -> bool {
        self.is_going
    }

    /// Takes it on by about so many steps: to the most wishes, then to the sizes in which they take the fewest stand-ins.
    pub(super) fn work(&mut self, supply: &Supply, steps: u64) {
        if !self.is_going || !self.together.advance(steps) {
            return;
        }
        self.share(supply);
    }

    /// Stops it; what was found stays.
    pub(super) fn stop(&mut self, supply: &Supply) {
        self.share(supply);
        self.is_going = false;
    }

    fn share(&mut self, supply: &Supply) {
        let Self { demands, together, sharing, .. } = self;
        let sharing = sharing.get_or_insert_with(|| Sharing::new(supply, demands, together.best()));
        if sharing.improve(supply, demands) {
            self.is_going = false;
        }
        self.shared = sharing.answers(supply, demands);
    }

    /// How many can be made, as far as that is known; no more than the second can.
    #[must_use]
    pub fn counts(&self) -> (usize, usize) {
        (self.together.best().len(), self.together.bound())
    }

    /// Whether no more can be made than were found.
    #[must_use]
    pub fn is_proven(&self) -> bool {
        self.together.is_proven()
    }

    /// Whether the wish at `place` is among them.
    #[must_use]
    pub fn holds(&self, place: usize) -> bool {
        self.together.best().iter().any(|made| made.wish == place)
    }

    /// What the wish at `place` takes when all of them are made, once that is known.
    #[must_use]
    pub fn share_of(&self, place: usize) -> Option<&Answer> {
        self.shared.iter().find(|(wish, _)| *wish == place).map(|(_, answer)| answer)
    }

    /// The wishes that must be made and cannot be, by their places.
    #[must_use]
    pub fn refused(&self) -> &[usize] {
        self.together.refused()
    }

    /// Whether the wish at `place` must be made and cannot be.
    #[must_use]
    pub fn refuses(&self, place: usize) -> bool {
        self.together.refused().contains(&place)
    }
}
