//! The search for the most wishes: a first answer, exchanges, then branches cut off by their bounds, depth first.
//!
//! Must not know the stash, nor which wishes were asked for above others.

use std::sync::Arc;

use super::matching::Matching;
use super::node::{Node, State};
use super::prices::Prices;
use super::table::Table;

/// How often prices are moved at the root, and on a branch.
const ROUNDS: (u32, u32) = (400, 30);
/// Without a better value for so many rounds, prices are moved half as far.
const PATIENCE: u32 = 12;
/// So often a round at the root is followed by a try to make wishes by the prices.
const TRY_EVERY: u32 = 20;
/// What a reckoning of prices counts, in steps.
const RECKONING: u64 = 20;

/// A wish, and the band that it is made in, by its number in the table.
pub(super) type Made = (usize, u16);

/// A search that can be gone on with.
#[derive(Debug, Clone)]
pub(super) struct Search {
    matching: Matching,
    prices: Prices,
    best: Vec<Made>,
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

/// A branch that is looked at.
#[derive(Debug, Clone)]
struct Pricing {
    node: Node,
    is_root: bool,
    round: u32,
    /// The least value so far, and the round it is from.
    value: (f64, u32),
    reach: f64,
    prices: Vec<f64>,
    /// How often each option was the cheapest of a wish that was made, of late.
    shares: Vec<Vec<f64>>,
}

impl Search {
    /// The most wishes, with these made or not; `best` is known already.
    pub(super) fn new(table: &Table, states: Vec<State>, best: Vec<Made>) -> Self {
        let root = Node::root(table, states);
        Self {
            matching: Matching::new(table),
            prices: Prices::new(table),
            best,
            stage: Stage::First(root),
            branches: Vec::new(),
            steps: 0,
        }
    }

    /// The most wishes found so far.
    pub(super) fn best(&self) -> &[Made] {
        &self.best
    }

    /// No more than so many can be made.
    pub(super) fn bound(&self) -> usize {
        let now = match &self.stage {
            Stage::First(node) | Stage::Exchange(node, _) => node.bound,
            Stage::Pricing(pricing) => pricing.node.bound,
            Stage::Next => 0,
        };
        let later = self.branches.iter().map(|branch| branch.node.bound).max();
        now.max(later.unwrap_or(0)).max(self.best.len())
    }

    /// Whether nothing is left to be looked at.
    pub(super) fn is_done(&self) -> bool {
        self.bound() == self.best.len()
    }

    /// How many steps were made.
    pub(super) const fn steps(&self) -> u64 {
        self.steps + self.matching.looks
    }

    /// One thing more.
    pub(super) fn go_on(&mut self, table: &Table) {
        self.steps += 1;
        self.stage = match std::mem::replace(&mut self.stage, Stage::Next) {
            Stage::First(mut node) => {
                self.steps += RECKONING;
                // For the costs alone: it settles nothing that holds for more than was found so far.
                let told = self.prices.reckon(table, &mut node.clone(), 0);
                node.bound = told.bound.min(node.bound);
                self.try_by_prices(table, &node);
                Stage::Exchange(node, 0)
            }
            Stage::Exchange(node, place) if place < self.best.len() => {
                let is_better = self.exchange(table, &node, place);
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
        let Some(branch) = self.branches.pop() else { return Stage::Next };
        if branch.node.bound <= self.best.len() || !self.holds(table, &branch.node) {
            return Stage::Next;
        }
        self.prices.set(&branch.prices);
        Stage::Pricing(Box::new(Pricing::new(table, branch.node, false, branch.prices.to_vec())))
    }

    /// Whether the wishes that are in could be made if each could take letters from any band that it may be in.
    fn holds(&mut self, table: &Table, node: &Node) -> bool {
        self.matching.clear();
        node.all(State::In)
            .all(|wish| node.span(table, wish).is_some_and(|span| self.matching.add(table, wish, span)))
    }

    fn price(&mut self, table: &Table, mut pricing: Box<Pricing>) -> Stage {
        self.steps += RECKONING;
        let told = self.prices.reckon(table, &mut pricing.node, self.best.len());
        if told.bound <= self.best.len() {
            return Stage::Next;
        }
        pricing.note(&self.prices, told.value);
        if pricing.is_root && pricing.round.is_multiple_of(TRY_EVERY) {
            self.try_by_prices(table, &pricing.node);
        }
        let rounds = if pricing.is_root { ROUNDS.0 } else { ROUNDS.1 };
        if pricing.round < rounds && pricing.reach > 0.01 {
            #[expect(clippy::cast_precision_loss, reason = "wishes are few")]
            let target = self.best.len() as f64 + 0.5;
            self.prices.move_on(table, &pricing.node, told.value, target, pricing.reach);
            return Stage::Pricing(pricing);
        }
        self.try_by_prices(table, &pricing.node);
        self.part(table, *pricing);
        Stage::Next
    }

    /// Parts a branch in two that hold all of it between them.
    fn part(&mut self, table: &Table, pricing: Pricing) {
        if pricing.node.bound <= self.best.len() {
            return;
        }
        let prices: Arc<[f64]> = pricing.prices.into();
        let mut push = |node: Node| self.branches.push(Branch { node, prices: Arc::clone(&prices) });
        let shares = &pricing.shares;
        let node = pricing.node;
        let made = |wish: usize| shares[wish].iter().sum::<f64>();
        // A wish that is made here and there: the bands in two halves, alike in weight.
        let halves =
            node.all(State::In).filter_map(|wish| Some((wish, cut(&node.options[wish], &shares[wish])?)));
        let split = halves.max_by(|a, b| a.1.1.total_cmp(&b.1.1));
        let open =
            node.all(State::Open).min_by(|&a, &b| (made(a) - 0.55).abs().total_cmp(&(made(b) - 0.55).abs()));
        match (split, open) {
            (Some((wish, (at, least))), open) if least > 0.15 || open.is_none() => {
                let mut low = node.clone();
                let mut high = node;
                high.options[wish] = low.options[wish].split_off(at);
                let weight = |node: &Node| {
                    node.options[wish].iter().map(|&option| shares[wish][usize::from(option)]).sum::<f64>()
                };
                if weight(&low) > weight(&high) {
                    std::mem::swap(&mut low, &mut high);
                }
                push(low);
                push(high);
            }
            (_, Some(wish)) => {
                let mut without = node.clone();
                without.states[wish] = State::Out;
                without.bound = without.bound.min(without.living().count());
                let mut with = node;
                with.states[wish] = State::In;
                push(without);
                push(with);
            }
            // All is settled: if it can be made, it was made by the prices just now.
            (_, None) => {}
        }
    }

    fn keep_if_better(&mut self, made: Vec<Made>) {
        if made.len() > self.best.len() {
            self.best = made;
        }
    }

    /// Makes wishes one after the other, the cheapest first, each in the cheapest band that there is room in.
    fn try_by_prices(&mut self, table: &Table, node: &Node) {
        self.matching.clear();
        let mut made = Vec::new();
        for wish in node.all(State::In) {
            let Some(option) = self.fit(table, node, wish) else { return };
            made.push((wish, option));
        }
        let mut open: Vec<usize> = node.all(State::Open).collect();
        open.sort_by_key(|&wish| (self.prices.cheapest[wish].0, wish));
        for wish in open {
            made.extend(self.fit(table, node, wish).map(|option| (wish, option)));
        }
        self.keep_if_better(made);
    }

    /// Makes `wish` in the cheapest band that there is room in.
    fn fit(&mut self, table: &Table, node: &Node, wish: usize) -> Option<u16> {
        let mut options: Vec<(i64, u16)> = node.options[wish]
            .iter()
            .map(|&place| {
                (self.prices.costs[wish][usize::from(place)], table.wishes[wish].options[usize::from(place)])
            })
            .collect();
        options.sort_unstable();
        options
            .into_iter()
            .map(|(_, option)| option)
            .find(|&option| self.matching.add(table, wish, (option, option)))
    }

    /// Gives up the made wish at `place` if two others can be made then.
    fn exchange(&mut self, table: &Table, node: &Node, place: usize) -> bool {
        let (given, _) = self.best[place];
        if node.states[given] == State::In {
            return false;
        }
        self.matching.clear();
        let mut made: Vec<Made> = self.best.iter().copied().filter(|one| one.0 != given).collect();
        for &(wish, option) in &made {
            self.matching.add(table, wish, (option, option));
        }
        let others = node.all(State::Open).filter(|wish| !self.best.iter().any(|one| one.0 == *wish));
        for wish in others.collect::<Vec<_>>() {
            made.extend(self.fit(table, node, wish).map(|option| (wish, option)));
        }
        let is_better = made.len() > self.best.len();
        self.keep_if_better(made);
        is_better
    }
}

impl Pricing {
    fn new(table: &Table, node: Node, is_root: bool, prices: Vec<f64>) -> Self {
        let shares = table.wishes.iter().map(|wish| vec![0.0; wish.options.len()]).collect();
        Self {
            node,
            is_root,
            round: 0,
            value: (f64::INFINITY, 0),
            reach: if is_root { 1.0 } else { 0.6 },
            prices,
            shares,
        }
    }

    /// Keeps the prices if they are the best so far, and which options they choose.
    fn note(&mut self, prices: &Prices, value: f64) {
        self.round += 1;
        if value < self.value.0 - 1e-4 {
            self.value = (value, self.round);
            self.prices.copy_from_slice(prices.get());
        } else if self.round - self.value.1 > PATIENCE {
            self.reach *= 0.5;
            self.value.1 = self.round;
        }
        let fresh = 1.0 / f64::from(self.round.min(15));
        for wish in self.node.living() {
            self.shares[wish].iter_mut().for_each(|share| *share *= 1.0 - fresh);
            let (cost, place) = prices.cheapest[wish];
            let is_made = self.node.states[wish] == State::In || cost < Prices::WORTH;
            if let Some(&option) = self.node.options[wish].get(place).filter(|_| is_made) {
                self.shares[wish][usize::from(option)] += fresh;
            }
        }
    }
}

/// Where `options` are cut in two, and how much of the share is in the lesser half; `None` where there is but one.
fn cut(options: &[u16], shares: &[f64]) -> Option<(usize, f64)> {
    if options.len() < 2 {
        return None;
    }
    let share = |place: usize| shares[usize::from(options[place])];
    let total: f64 = (0..options.len()).map(share).sum();
    let mut below = 0.0;
    let cuts = (1..options.len()).map(|at| {
        below += share(at - 1);
        (at, below.min(total - below))
    });
    let middle = options.len() / 2;
    cuts.max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.abs_diff(middle).cmp(&a.0.abs_diff(middle))))
}
