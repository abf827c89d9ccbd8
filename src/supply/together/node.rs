//! What is settled so far on one branch of the search: which wishes are in, out or open, and in which bands they may yet be.
//!
//! Must not know prices.

use super::table::Table;

/// Whether a wish is to be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// Not settled.
    Open,
    /// It is.
    In,
    /// It is not.
    Out,
}

/// What is settled on one branch.
#[derive(Debug, Clone)]
pub(super) struct Node {
    /// Wish by wish.
    pub(super) states: Vec<State>,
    /// For each wish the bands that it may be in, by their places among its options.
    pub(super) options: Vec<Vec<u16>>,
    /// No more wishes than this can be made here.
    pub(super) bound: usize,
}

impl Node {
    /// Everything open, as far as it can be made alone; wishes are made or not as `states` says.
    pub(super) fn root(table: &Table, mut states: Vec<State>) -> Self {
        let all = |options: &Vec<u16>| (0u16..).take(options.len()).collect();
        let options: Vec<Vec<u16>> = table.wishes.iter().map(|wish| all(&wish.options)).collect();
        for (state, options) in states.iter_mut().zip(&options) {
            if options.is_empty() {
                *state = State::Out;
            }
        }
        let bound = states.iter().filter(|&&state| state != State::Out).count();
        Self { states, options, bound }
    }

    /// The wishes that are in this state.
    pub(super) fn all(&self, state: State) -> impl Iterator<Item = usize> + '_ {
        self.states.iter().enumerate().filter(move |(_, one)| **one == state).map(|(wish, _)| wish)
    }

    /// The wishes that may be made.
    pub(super) fn living(&self) -> impl Iterator<Item = usize> + '_ {
        self.states.iter().enumerate().filter(|(_, one)| **one != State::Out).map(|(wish, _)| wish)
    }

    /// The bands from the first to the last that a wish may be in.
    pub(super) fn span(&self, table: &Table, wish: usize) -> Option<(u16, u16)> {
        let option = |place: Option<&u16>| place.map(|&place| table.wishes[wish].options[usize::from(place)]);
        Some((option(self.options[wish].first())?, option(self.options[wish].last())?))
    }
}
