//! Tries at making more wishes than before: by prices, by exchanges, and by luck.
//!
//! What they find can be made; that there is nothing better they cannot tell. Must not know bounds.

use super::matching::Matching;
use super::node::{Node, State};
use super::prices::Prices;
use super::table::Table;

/// A wish, and the band that it is made in, by its number in the table.
pub(super) type Made = (usize, u16);

/// The most wishes found so far, and what it takes to find more.
#[derive(Debug, Clone)]
pub(super) struct Tries {
    pub(super) matching: Matching,
    best: Vec<Made>,
    /// Wishes that are made where some were given up at random, as many as were the best then.
    kicked: Vec<Made>,
    luck: Luck,
}

impl Tries {
    /// `best` is known already.
    pub(super) fn new(table: &Table, best: Vec<Made>) -> Self {
        Self { matching: Matching::new(table), kicked: best.clone(), best, luck: Luck(1) }
    }

    /// The most wishes found so far.
    pub(super) fn best(&self) -> &[Made] {
        &self.best
    }

    /// Makes wishes one after the other, the cheapest first, each in the cheapest band that there is room in.
    pub(super) fn by_prices(&mut self, table: &Table, node: &Node, prices: &Prices) {
        self.matching.clear();
        let mut made = Vec::new();
        for wish in node.all(State::In) {
            let Some(option) = self.fit(table, node, prices, wish) else { return };
            made.push((wish, option));
        }
        let mut open: Vec<usize> = node.all(State::Open).collect();
        open.sort_by_key(|&wish| (prices.cheapest[wish].0, wish));
        for wish in open {
            made.extend(self.fit(table, node, prices, wish).map(|option| (wish, option)));
        }
        self.keep_if_better(made);
    }

    /// Makes wishes one after the other, those with the greatest share first, each in the band with the greatest that there is room in:
    /// `shares` are for each wish those of its options.
    pub(super) fn by_shares(&mut self, table: &Table, node: &Node, shares: &[Vec<f64>]) {
        self.matching.clear();
        let is_open = |wish: &usize| node.states[*wish] == State::Open;
        let share = |wish: &usize| shares[*wish].iter().sum::<f64>();
        let mut living: Vec<usize> = node.living().collect();
        living.sort_by(|a, b| is_open(a).cmp(&is_open(b)).then(share(b).total_cmp(&share(a))));
        let mut made = Vec::new();
        for wish in living {
            let mut places = node.options[wish].clone();
            let share = |place: u16| shares[wish][usize::from(place)];
            places.sort_by(|&a, &b| share(b).total_cmp(&share(a)));
            let mut options = places.into_iter().map(|place| table.wishes[wish].options[usize::from(place)]);
            match options.find(|&option| self.matching.add(table, wish, (option, option))) {
                Some(option) => made.push((wish, option)),
                None if is_open(&wish) => {}
                None => return,
            }
        }
        self.keep_if_better(made);
    }

    /// Makes `wish` in the cheapest band that there is room in.
    fn fit(&mut self, table: &Table, node: &Node, prices: &Prices, wish: usize) -> Option<u16> {
        self.fit_by(table, (node, prices), wish, |cost| cost)
    }

    fn fit_by(
        &mut self,
        table: &Table,
        (node, prices): (&Node, &Prices),
        wish: usize,
        mut seen: impl FnMut(i64) -> i64,
    ) -> Option<u16> {
        // Where letters of all its bands together do not suffice, those of none do.
        let span = node.span(table, wish)?;
        if !self.matching.add(table, wish, span) {
            return None;
        }
        let costs = &prices.costs[wish];
        let option =
            |&place: &u16| (seen(costs[usize::from(place)]), table.wishes[wish].options[usize::from(place)]);
        let mut options: Vec<(i64, u16)> = node.options[wish].iter().map(option).collect();
        options.sort_unstable();
        options
            .into_iter()
            .map(|(_, option)| option)
            .find(|&option| self.matching.add(table, wish, (option, option)))
    }

    /// Gives up a few wishes at random and makes others, or the same in other bands, by costs that are blurred; goes on from there
    /// unless they are fewer.
    pub(super) fn kick(&mut self, table: &Table, node: &Node, prices: &Prices) {
        self.matching.clear();
        let mut luck = self.luck;
        let given = 1 + luck.below(3);
        let mut made = self.kicked.clone();
        for _ in 0..given {
            let place = luck.below(made.len().max(1));
            if made.get(place).is_some_and(|one| node.states[one.0] != State::In) {
                made.swap_remove(place);
            }
        }
        for &(wish, option) in &made {
            self.matching.add(table, wish, (option, option));
        }
        let mut blurred = |cost: i64| cost / 64 * (256 + i64::try_from(luck.below(64)).unwrap_or(0));
        let others = node.living().filter(|wish| !made.iter().any(|one| one.0 == *wish));
        let mut others: Vec<(i64, usize)> =
            others.map(|wish| (blurred(prices.cheapest[wish].0), wish)).collect();
        others.sort_unstable();
        for (_, wish) in others {
            made.extend(self.fit_by(table, (node, prices), wish, &mut blurred).map(|option| (wish, option)));
        }
        self.luck = luck;
        if made.len() > self.best.len() {
            self.keep_if_better(made);
        } else if made.len() >= self.kicked.len() {
            self.kicked = made;
        }
    }

    /// Gives up the made wish at `place` if two others can be made then.
    pub(super) fn exchange(&mut self, table: &Table, node: &Node, prices: &Prices, place: usize) -> bool {
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
            made.extend(self.fit(table, node, prices, wish).map(|option| (wish, option)));
        }
        let is_better = made.len() > self.best.len();
        self.keep_if_better(made);
        is_better
    }

    fn keep_if_better(&mut self, made: Vec<Made>) {
        if made.len() > self.best.len() {
            self.kicked.clone_from(&made);
            self.best = made;
        }
    }
}

/// Numbers as if at random, the same each time: xorshift64 (Marsaglia 2003).
#[derive(Debug, Clone, Copy)]
struct Luck(u64);

impl Luck {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % most as u64).unwrap_or(0)
    }
}
