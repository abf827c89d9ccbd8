//! A branch while prices are sought that bound it, and how it is parted where they do not suffice.
//!
//! Must not know what was found so far.

use super::node::{Node, State};
use super::prices::Prices;
use super::table::Table;

/// Without a better value for so many rounds, prices are moved half as far.
const PATIENCE: u32 = 60;

/// A branch that is looked at.
#[derive(Debug, Clone)]
pub(super) struct Pricing {
    pub(super) node: Node,
    pub(super) is_root: bool,
    pub(super) round: u32,
    /// The least value so far, and the round it is from.
    value: (f64, u32),
    pub(super) reach: f64,
    pub(super) prices: Vec<f64>,
    /// How often each option was the cheapest of a wish that was made, of late.
    pub(super) shares: Vec<Vec<f64>>,
}

impl Pricing {
    /// Starts on `node` with `prices`.
    pub(super) fn new(table: &Table, node: Node, is_root: bool, prices: Vec<f64>) -> Self {
        let shares = table.wishes.iter().map(|wish| vec![0.0; wish.options.len()]).collect();
        Self { node, is_root, round: 0, value: (f64::INFINITY, 0), reach: 1.0, prices, shares }
    }

    /// Keeps the prices if they are the best so far, and which options they choose.
    pub(super) fn note(&mut self, prices: &Prices, value: f64) {
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

    /// Two branches that hold all of this one between them, the likelier last; `None` where all is settled.
    pub(super) fn part(self) -> Option<[Node; 2]> {
        let Self { shares, node, .. } = self;
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
                Some([low, high])
            }
            (_, Some(wish)) => {
                let mut without = node.clone();
                without.states[wish] = State::Out;
                without.bound = without.bound.min(without.living().count());
                let mut with = node;
                with.states[wish] = State::In;
                Some([without, with])
            }
            (_, None) => None,
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
