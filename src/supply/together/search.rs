//! The search for the most wishes: a first answer, exchanges, then branches cut off by their bounds, depth first.
//!
//! Must not know the stash, nor which wishes were asked for above others.

use std::sync::Arc;

use super::node::{Node, State};
use super::prices::Prices;
use super::pricing::Pricing;
use super::table::Table;
use super::tries::{Made, Tries};

/// How often prices are moved at the root, and on a branch.
const ROUNDS: (u32, u32) = (3_000, 400);
/// After so many rounds wishes are made as the rounds tell.
const TRY_EVERY: u32 = 20;
/// After so many rounds some wishes are given up at random, to make others: at the root, and on a branch.
const KICK_EVERY: (u32, u32) = (2, 4);

/// A search that can be gone on with.
#[derive(Debug, Clone)]
pub(super) struct Search {
    tries: Tries,
    prices: Prices,
    stage: Stage,
    branches: Vec<Branch>,
    /// Steps so far, without those that the matching counts itself.
    steps: u64,
}

/// What is to be done next.
#[derive(Debug, Clone)]
enum Stage {
    /// Wishes one after the other.
    First(Node),
    /// One made wish, by its place, against two others.
    Exchange(Node, usize),
    /// The next branch.
    Next,
    /// Better prices for a branch.
    Pricing(Box<Pricing>),
}

/// A branch that is still to be looked at, with the prices that it starts from.
#[derive(Debug, Clone)]
struct Branch {
    node: Node,
    prices: Arc<[f64]>,
}

impl Search {
    /// The most wishes, with these made or not; `best` is known already.
    pub(super) fn new(table: &Table, states: Vec<State>, best: Vec<Made>) -> Self {
        let root = Node::root(table, states);
        Self {
            tries: Tries::new(table, best),
            prices: Prices::new(table),
            stage: Stage::First(root),
            branches: Vec::new(),
            steps: 0,
        }
    }

    /// The most wishes found so far.
    pub(super) fn best(&self) -> &[Made] {
        self.tries.best()
    }

    /// No more than so many can be made.
    pub(super) fn bound(&self) -> usize {
        let now = match &self.stage {
            Stage::First(node) | Stage::Exchange(node, _) => node.bound,
            Stage::Pricing(pricing) => pricing.node.bound,
            Stage::Next => 0,
        };
        let later = self.branches.iter().map(|branch| branch.node.bound).max();
        now.max(later.unwrap_or(0)).max(self.best().len())
    }

    /// Whether nothing is left to be looked at.
    pub(super) fn is_done(&self) -> bool {
        self.bound() == self.best().len()
    }

    /// How many steps were made.
    pub(super) const fn steps(&self) -> u64 {
        self.steps + self.tries.matching.looks
    }

    /// One thing more.
    pub(super) fn go_on(&mut self, table: &Table) {
        self.steps += 1;
        self.stage = match std::mem::replace(&mut self.stage, Stage::Next) {
            Stage::First(mut node) => {
                self.steps += self.prices.work;
                // For the costs alone: it settles nothing that holds for more than was found so far.
                let told = self.prices.reckon(table, &mut node.clone(), 0);
                node.bound = told.bound.min(node.bound);
                self.tries.by_prices(table, &node, &self.prices);
                Stage::Exchange(node, 0)
            }
            Stage::Exchange(node, place) if place < self.best().len() => {
                let is_better = self.tries.exchange(table, &node, &self.prices, place);
                Stage::Exchange(node, if is_better { 0 } else { place + 1 })
            }
            Stage::Exchange(node, _) => {
                let prices = self.prices.get().to_vec();
                Stage::Pricing(Box::new(Pricing::new(table, node, true, prices)))
            }
            Stage::Next => self.next(table),
            Stage::Pricing(pricing) => self.price(table, pricing),
        };
    }

    fn next(&mut self, table: &Table) -> Stage {
        let Some(mut branch) = self.branches.pop() else { return Stage::Next };
        if branch.node.bound <= self.best().len() || !self.narrow(table, &mut branch.node) {
            return Stage::Next;
        }
        self.prices.set(&branch.prices);
        Stage::Pricing(Box::new(Pricing::new(table, branch.node, false, branch.prices.to_vec())))
    }

    /// Leaves out the bands that a wish cannot be in even if each wish that is in could take letters from any band that it may be in;
    /// `false` where that leaves too few wishes.
    fn narrow(&mut self, table: &Table, node: &mut Node) -> bool {
        self.tries.matching.clear();
        let fixed: Vec<usize> = node.all(State::In).collect();
        let mut add = |node: &Node, wish| {
            node.span(table, wish).is_some_and(|span| self.tries.matching.add(table, wish, span))
        };
        if !fixed.iter().all(|&wish| add(node, wish)) {
            return false;
        }
        let mut again = true;
        while std::mem::take(&mut again) {
            for &wish in &fixed {
                again |= self.probe(table, node, wish);
                let Some(span) = node.span(table, wish) else { return false };
                self.tries.matching.add(table, wish, span);
            }
        }
        for wish in node.all(State::Open).collect::<Vec<_>>() {
            self.probe(table, node, wish);
            self.tries.matching.remove(wish);
            if node.options[wish].is_empty() {
                node.states[wish] = State::Out;
            }
        }
        node.bound = node.bound.min(node.living().count());
        node.bound > self.best().len()
    }

    /// Leaves out the bands that `wish` cannot be in beside those that are made; whether there are any.
    fn probe(&mut self, table: &Table, node: &mut Node, wish: usize) -> bool {
        let options = &table.wishes[wish].options;
        let before = node.options[wish].len();
        node.options[wish].retain(|&place| {
            let option = options[usize::from(place)];
            before == 1 && node.states[wish] == State::In
                || self.tries.matching.add(table, wish, (option, option))
        });
        node.options[wish].len() < before
    }

    fn price(&mut self, table: &Table, mut pricing: Box<Pricing>) -> Stage {
        self.steps += self.prices.work;
        let told = self.prices.reckon(table, &mut pricing.node, self.best().len());
        if told.bound <= self.best().len() {
            return Stage::Next;
        }
        pricing.note(&self.prices, told.value);
        let (rounds, kick_every) =
            if pricing.is_root { (ROUNDS.0, KICK_EVERY.0) } else { (ROUNDS.1, KICK_EVERY.1) };
        if pricing.round.is_multiple_of(TRY_EVERY) {
            self.make(table, &pricing);
        }
        if pricing.round.is_multiple_of(kick_every) {
            self.tries.kick(table, &pricing.node, &self.prices);
        }
        if pricing.round < rounds && pricing.reach > 0.01 {
            // Just where no more could be made than were found.
            #[expect(clippy::cast_precision_loss, reason = "wishes are few")]
            let target = self.best().len() as f64 + 0.9;
            self.prices.move_on(table, &pricing.node, told.value, target, pricing.reach);
            return Stage::Pricing(pricing);
        }
        self.make(table, &pricing);
        if pricing.node.bound > self.best().len() {
            let prices: Arc<[f64]> = pricing.prices.as_slice().into();
            // Where all is settled and can be made, it was made just now.
            let parts = pricing.part().into_iter().flatten();
            self.branches.extend(parts.map(|node| Branch { node, prices: Arc::clone(&prices) }));
        }
        Stage::Next
    }

    /// Makes wishes by the prices, and by how often the rounds made them.
    fn make(&mut self, table: &Table, pricing: &Pricing) {
        if pricing.is_root {
            self.tries.by_prices(table, &pricing.node, &self.prices);
        }
        self.tries.by_shares(table, &pricing.node, &pricing.shares);
    }
}
