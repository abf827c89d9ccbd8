//! An upper bound on how many wishes can be made, from prices on the letters.
//!
//! A price stands on each character in each band. A sticker is worth the dearest price among those it could serve for; a wish costs
//! what its letters cost in its cheapest band. Wishes that are made together cost no more than all stickers are worth, whatever the
//! prices: so if the cheapest so many wishes cost more, fewer can be made (a surrogate constraint, Glover 1968, over the linear
//! programme of the matching). Prices are moved by subgradients (Held, Wolfe and Crowder 1974), each a mean of those before it (as
//! in Barahona and Anbil 2000), but counted in whole numbers: a bad price gives a weak bound, never a wrong one. Must not know how
//! branches are made.

use super::node::{Node, State};
use super::table::Table;

/// A price of 1: what would make a single letter as dear as a wish is worth.
const ONE: f64 = 1_048_576.0;
/// No price is above this.
const MOST: f64 = 4.0;
/// A move heads where about so many moves would have gone of late. A sticker serves in one band only at each reckoning: it takes a
/// mean of many to see that it could serve in several.
const LATELY: u32 = 20;

/// Prices, and what was reckoned with them last.
#[derive(Debug, Clone)]
pub(super) struct Prices {
    bands: usize,
    /// What one reckoning counts, in steps.
    pub(super) work: u64,
    /// The price of each character in each band.
    each: Vec<f64>,
    /// The same in whole numbers.
    whole: Vec<i64>,
    /// Which of them anything asks for.
    asked: Vec<bool>,
    slope: Vec<f64>,
    heading: Vec<f64>,
    /// How often prices were moved since they were set.
    moves: u32,
    /// For each wish the cost of each option; for each the cheapest, and its place in the node.
    pub(super) costs: Vec<Vec<i64>>,
    pub(super) cheapest: Vec<(i64, usize)>,
}

/// What prices say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Told {
    /// No more wishes than this can be made.
    pub(super) bound: usize,
    /// The value of the relaxed problem: the less the nearer to the best prices.
    pub(super) value: f64,
}

impl Prices {
    /// A wish that costs less than this is worth making.
    pub(super) const WORTH: i64 = 1 << 20;

    /// Prices by how scarce letters are: what is asked for over what is there.
    pub(super) fn new(table: &Table) -> Self {
        let bands = table.bands.len();
        let size = table.lots.len() * bands;
        let (mut have, mut asked) = (vec![0.0; size], vec![0.0; table.lots.len()]);
        for (left, serves) in table.left.iter().zip(&table.serves) {
            for span in serves {
                let row = span.number as usize * bands;
                have[row + usize::from(span.from)..row + usize::from(span.to)]
                    .iter_mut()
                    .for_each(|have| *have += f64::from(*left));
            }
        }
        for &(character, letters) in table.wishes.iter().flat_map(|wish| &wish.needs) {
            asked[usize::from(character)] += f64::from(letters);
        }
        let spans = table.serves.iter().flatten().map(|span| u64::from(span.to - span.from)).sum::<u64>();
        let asks = table.wishes.iter().map(|wish| wish.options.len() * wish.needs.len()).sum::<usize>();
        let letters: f64 = asked.iter().sum::<f64>().max(1.0);
        let price = |place: usize| (asked[place / bands.max(1)] / letters / (1.0 + have[place])).min(1.0);
        Self {
            bands,
            work: 1 + (spans + u64::try_from(asks).unwrap_or(0)) / 1_000,
            each: (0..size).map(price).collect(),
            whole: vec![0; size],
            asked: vec![false; size],
            slope: vec![0.0; size],
            heading: vec![0.0; size],
            moves: 0,
            costs: table.wishes.iter().map(|wish| vec![0; wish.options.len()]).collect(),
            cheapest: vec![(0, 0); table.wishes.len()],
        }
    }

    /// The prices themselves.
    pub(super) fn get(&self) -> &[f64] {
        &self.each
    }

    /// Goes back to prices from before.
    pub(super) fn set(&mut self, prices: &[f64]) {
        self.each.copy_from_slice(prices);
        self.moves = 0;
    }

    /// Reckons the bound of `node`, and settles there what must be if more than `best` wishes are to be made.
    pub(super) fn reckon(&mut self, table: &Table, node: &mut Node, best: usize) -> Told {
        self.cost_wishes(table, node);
        let worth = self.worth(table);
        let fixed = node.all(State::In).count();
        let spent: i64 = node.all(State::In).map(|wish| self.cheapest[wish].0).sum();
        let rest = worth - spent;
        let mut open: Vec<i64> = node.all(State::Open).map(|wish| self.cheapest[wish].0).collect();
        open.sort_unstable();
        let free: f64 = open.iter().map(|&cost| (ONE - part(cost)).max(0.0)).sum();
        let value = (free + part(rest)) / ONE + part(i64::try_from(fixed).unwrap_or(0));
        if rest < 0 {
            return Told { bound: 0, value };
        }
        let mut sum = 0;
        let more = open.iter().take_while(|&&cost| {
            sum += cost;
            sum <= rest
        });
        let bound = (fixed + more.count()).min(node.bound);
        node.bound = bound;
        if bound > best {
            self.settle(node, &open, rest, (best + 1).saturating_sub(fixed));
        }
        Told { bound, value }
    }

    /// Moves the prices to where the value should be nearer to `target`, by a share `reach` of the way.
    pub(super) fn move_on(&mut self, table: &Table, node: &Node, value: f64, target: f64, reach: f64) {
        for wish in node.living() {
            let (cost, place) = self.cheapest[wish];
            if node.states[wish] == State::Open && cost >= Self::WORTH {
                continue;
            }
            let Some(&option) = node.options[wish].get(place) else { continue };
            let band = usize::from(table.wishes[wish].options[usize::from(option)]);
            for &(character, letters) in &table.wishes[wish].needs {
                self.slope[usize::from(character) * self.bands + band] += f64::from(letters);
            }
        }
        self.moves += 1;
        let (fresh, mut norm) = (1.0 / f64::from(self.moves.min(LATELY)), 0.0);
        for (heading, slope) in self.heading.iter_mut().zip(&self.slope) {
            *heading += fresh * (slope - *heading);
            norm += *heading * *heading;
        }
        // A norm near nothing would make a giant's step.
        if norm < 1e-6 {
            return;
        }
        let step = (reach * (value - target).max(0.05) / norm).min(1.0);
        for (price, heading) in self.each.iter_mut().zip(&self.heading) {
            *price = (*price + step * heading).clamp(0.0, MOST);
        }
    }

    fn cost_wishes(&mut self, table: &Table, node: &Node) {
        for (whole, price) in self.whole.iter_mut().zip(&self.each) {
            #[expect(clippy::cast_possible_truncation, reason = "a price lies between 0 and 4")]
            let rounded = (price * ONE) as i64;
            *whole = rounded;
        }
        self.asked.fill(false);
        for wish in node.living() {
            let mut cheapest = (i64::MAX, 0);
            for (place, &option) in node.options[wish].iter().enumerate() {
                let band = usize::from(table.wishes[wish].options[usize::from(option)]);
                let mut cost = 0;
                for &(character, letters) in &table.wishes[wish].needs {
                    let at = usize::from(character) * self.bands + band;
                    self.asked[at] = true;
                    cost += i64::from(letters) * self.whole[at];
                }
                self.costs[wish][usize::from(option)] = cost;
                cheapest = cheapest.min((cost, place));
            }
            self.cheapest[wish] = cheapest;
        }
        // What nobody asks for any longer has no price.
        for (place, _) in self.asked.iter().enumerate().filter(|(_, asked)| !**asked) {
            (self.each[place], self.whole[place], self.heading[place]) = (0.0, 0, 0.0);
        }
    }

    /// What all stickers are worth; the slope is as they are used.
    fn worth(&mut self, table: &Table) -> i64 {
        self.slope.fill(0.0);
        let mut worth = 0;
        for (&left, serves) in table.left.iter().zip(&table.serves) {
            let mut dearest = (0, 0);
            for span in serves {
                let row = span.number as usize * self.bands;
                for at in row + usize::from(span.from)..row + usize::from(span.to) {
                    if self.whole[at] > dearest.0 {
                        dearest = (self.whole[at], at);
                    }
                }
            }
            if dearest.0 > 0 {
                worth += i64::from(left) * dearest.0;
                self.slope[dearest.1] -= f64::from(left);
            }
        }
        worth
    }

    /// Leaves out what is too dear if `wanted` of the open wishes are to be made, and takes in what cannot be spared: `open` are
    /// their costs from low to high, `rest` is what they may cost together.
    fn settle(&self, node: &mut Node, open: &[i64], rest: i64, wanted: usize) {
        let sum = |count: usize| open.iter().take(count).sum::<i64>();
        let (least, one_fewer) = (sum(wanted), sum(wanted.saturating_sub(1)));
        // The costliest of the cheapest `wanted`, and the next.
        let last = wanted.checked_sub(1).map(|place| open[place]);
        for wish in 0..node.states.len() {
            let cheapest = self.cheapest[wish].0;
            let most = match node.states[wish] {
                State::Out => continue,
                State::In => rest - least + cheapest,
                // Among the cheapest it takes the place of itself, else of the costliest of them.
                State::Open => match last {
                    None => rest,
                    Some(last) => rest - one_fewer - last + cheapest.min(last),
                },
            };
            let costs = &self.costs[wish];
            node.options[wish].retain(|&option| costs[usize::from(option)] <= most);
            if node.states[wish] == State::Open && node.options[wish].is_empty() {
                node.states[wish] = State::Out;
            } else if let (State::Open, Some(last)) = (node.states[wish], last) {
                // Without it one dearer must be made.
                let next = open.get(wanted).copied().unwrap_or(i64::MAX);
                if cheapest <= last && next.saturating_add(least - cheapest) > rest {
                    node.states[wish] = State::In;
                }
            }
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "only the way to better prices hangs on it")]
const fn part(cost: i64) -> f64 {
    cost as f64
}
