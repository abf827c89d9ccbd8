//! A region of the search: which heights the lines may be compared by, and which choices are still open.
//!
//! Its bound comes from the chains of its strips, with a price on everything that would be used too often
//! (Lagrangean relaxation; Held and Karp 1971). Must not know what lies in other regions.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use crate::checks::Family;

use super::after::After;
use super::chain::{Bare, Chain, Entry, Link, NEVER, NO_SHEET};
use super::field::Field;
use super::limits::Limits;
use super::memory::{Memory, cost_of};

/// How often prices are set anew for one region.
const ROUNDS: u32 = 30;

/// Beyond so many costs a region that will be parted is not looked at with everything remembered.
const LARGE: u64 = 300_000;

/// No price is higher: more than any arrangement would pay.
const DEAREST: i64 = 4_000 * super::UNIT as i64;

/// A region of the search.
#[derive(Debug, Clone)]
pub(super) struct Region {
    /// No arrangement in it costs less.
    pub(super) bound: i32,
    /// Where it came in the row of regions; parts those with the same bound.
    pub(super) number: u64,
    /// What is decided of each strip.
    pub(super) shares: Vec<Share>,
    /// What each limited thing costs.
    pub(super) prices: Vec<i32>,
    /// The choices that are open in each slot.
    pub(super) open: Arc<Vec<Vec<u16>>>,
    /// How often it was swept in vain.
    pub(super) sweeps: usize,
    /// Whether it is settled and priced, and only waits to be swept.
    pub(super) ready: bool,
}

/// What is decided of one strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Share {
    /// The heights it may be compared by, by place; `None`: no letter has a height.
    pub(super) lines: Option<Range<usize>>,
    /// Whether letters may bring a greater height to compare by. `None`: not decided.
    pub(super) over: Option<bool>,
    /// Whether one family may be on too many letters, at its cost.
    pub(super) crowd: bool,
}

impl Share {
    /// The one height it is compared by, if that is settled.
    pub(super) fn line(&self) -> Option<usize> {
        self.lines.as_ref().filter(|lines| lines.len() == 1).map(|lines| lines.start)
    }
}

/// What the chains of a region say.
#[derive(Debug)]
pub(super) struct Priced {
    /// A chain a strip.
    pub(super) chains: Vec<Chain>,
    /// The bound of the whole.
    pub(super) bound: i32,
    /// What the prices give back, and what is paid already.
    pub(super) base: i32,
}

impl Region {
    /// What the prices give back.
    fn base(limits: &Limits, prices: &[i32]) -> i32 {
        let back: i64 =
            prices.iter().zip(&limits.most).map(|(&price, &most)| i64::from(price) * i64::from(most)).sum();
        i32::try_from(-back).unwrap_or(-NEVER)
    }

    /// The chain of one strip, not priced yet.
    fn chain(&self, field: &Field, place: usize) -> Chain {
        let part = &field.problem.parts[place];
        let share = &self.shares[place];
        let heights = &field.heights[place];
        let dearer = share.lines.as_ref().map(|lines| heights.costs(&field.problem, part, lines));
        let mut slots: Vec<Bare> = Vec::with_capacity(part.slots.len());
        for slot in part.slots.clone() {
            let of = &field.problem.slots[slot];
            let entries: Vec<Entry> = self.open[slot]
                .iter()
                .filter_map(|&choice| {
                    let height = heights.place(slot - part.slots.start, usize::from(choice));
                    let more = match (height, &dearer) {
                        (None, _) => 0,
                        (Some(_), None) => return None,
                        (Some(height), Some(dearer)) => {
                            let over = share.line().is_some_and(|line| heights.line_of(part, height) > line);
                            if over && share.over == Some(false) {
                                return None;
                            }
                            dearer[height]
                        }
                    };
                    let mut entry = field.entries[slot][usize::from(choice)];
                    entry.base += more;
                    Some(entry)
                })
                .collect();
            let offset = i32::try_from(slot - of.word.start).unwrap_or(0);
            slots.push((entries, of.joint, offset));
        }
        Chain::new(slots, Arc::clone(&field.pairs[place]))
    }

    /// Whether a limit holds here.
    pub(super) fn holds(&self, limits: &Limits, limit: usize) -> bool {
        limits.crowds[limit].is_none_or(|part| !self.shares[part].crowd)
    }

    /// Raises the bound by setting prices, and strikes out every choice that no arrangement of at most `most` uses.
    /// Gives back the work done.
    pub(super) fn price(&mut self, field: &Field, limits: &Limits, most: i32) -> u64 {
        let mut chains: Vec<Chain> = (0..self.shares.len()).map(|place| self.chain(field, place)).collect();
        let nothing: Vec<&Memory> = chains.iter().map(|_| &field.nothing).collect();
        let memories: Vec<&Memory> = field.memories.iter().map(AsRef::as_ref).collect();
        let wide = self.is_wide();
        let mut work = self.rounds(
            field,
            limits,
            &mut chains,
            &nothing,
            most,
            if wide || self.sweeps > 0 { 4 } else { ROUNDS },
        );
        let size = |(chain, memory): (&Chain, &&Memory)| chain.size() * memory.widest();
        let large = chains.iter().zip(&memories).map(size).sum::<u64>() > LARGE;
        if self.bound <= most && !(wide && large) {
            work += self.rounds(
                field,
                limits,
                &mut chains,
                &memories,
                most,
                if wide || self.sweeps > 0 { 1 } else { ROUNDS / 2 },
            );
        }
        let open = |link: &Link| link.entries.iter().map(|entry| entry.choice).collect();
        self.open = Arc::new(chains.iter().flat_map(|chain| &chain.slots).map(open).collect());
        work
    }

    /// Sets prices anew up to `rounds` times.
    fn rounds(
        &mut self,
        field: &Field,
        limits: &Limits,
        chains: &mut [Chain],
        memories: &[&Memory],
        most: i32,
        rounds: u32,
    ) -> u64 {
        let mut tried = self.prices.clone();
        let (mut best, mut step, mut idle) = (i32::MIN, 2_i64, 0);
        let mut work = 0;
        for _ in 0..rounds {
            set_prices(chains, field, limits, &tried);
            let base = Self::base(limits, &tried);
            let both = || chains.iter().zip(memories);
            let afters: Vec<_> = both().map(|(chain, memory)| chain.after(memory)).collect();
            work += both().map(|(chain, memory)| chain.size() * memory.widest()).sum::<u64>();
            let least: Vec<i32> =
                both().zip(&afters).map(|((chain, memory), after)| chain.least(after, memory)).collect();
            let rest = field.rest(&least, base, &self.shares);
            let total = least.iter().zip(&rest).map(|(&least, &rest)| sum(&[least], rest)).max();
            let total = total.unwrap_or(base);
            self.bound = self.bound.max(total);
            if self.bound > most {
                break;
            }
            let ways: Vec<Vec<u16>> =
                both().zip(&afters).map(|((chain, memory), after)| chain.best_way(after, memory)).collect();
            // Little by little is too slow: a sweep does better.
            let gained = i64::from(total) - i64::from(best);
            if total > best {
                (best, idle) = (total, if gained * 30 < i64::from(most - total) { idle + 1 } else { 0 });
                self.prices.clone_from(&tried);
                self.strike(field, chains, memories, &afters, &rest, most);
                if self.bound > most {
                    break;
                }
            } else {
                idle += 1;
                if idle % 3 == 0 {
                    step = (step / 2).max(1);
                }
            }
            let excess = self.excess(field, limits, &ways);
            let counts = |(limit, &excess): (usize, &i64)| excess > 0 || tried[limit] > 0;
            let norm: i64 = excess.iter().enumerate().filter(|one| counts(*one)).map(|(_, e)| e * e).sum();
            let settled = excess.iter().zip(&tried).all(|(&e, &price)| e <= 0 && (price == 0 || e == 0));
            if norm == 0 || settled || idle > 4 {
                break;
            }
            let target = i64::from(most.min(total.saturating_add(200 * super::UNIT)));
            let length = (step * (target - i64::from(total)).max(1) / (2 * norm)).max(1);
            for (price, excess) in tried.iter_mut().zip(&excess) {
                let moved = (i64::from(*price) + length * excess).clamp(0, DEAREST);
                *price = i32::try_from(moved).unwrap_or(0);
            }
        }
        work
    }

    fn is_wide(&self) -> bool {
        self.shares.iter().any(|share| share.lines.as_ref().is_some_and(|lines| lines.len() > 1))
    }

    /// How often each limited thing is used too often in the choices of `ways`; below 0 where it is not.
    fn excess(&self, field: &Field, limits: &Limits, ways: &[Vec<u16>]) -> Vec<i64> {
        let mut excess: Vec<i64> = limits.most.iter().map(|&most| -i64::from(most)).collect();
        for (way, part) in ways.iter().zip(&field.problem.parts) {
            for (&choice, slot) in way.iter().zip(part.slots.clone()) {
                for &used in limits.of(slot, choice) {
                    excess[usize::from(used)] += 1;
                }
            }
        }
        for (limit, excess) in excess.iter_mut().enumerate() {
            if !self.holds(limits, limit) {
                *excess = 0;
            }
        }
        excess
    }

    /// Strikes out choices that are too dear, and raises the bound by what every arrangement of the region must have: a
    /// letter that brings one of its heights.
    fn strike(
        &mut self,
        field: &Field,
        chains: &mut [Chain],
        memories: &[&Memory],
        afters: &[Vec<After>],
        rest: &[i32],
        most: i32,
    ) {
        for (place, (chain, after)) in chains.iter_mut().zip(afters).enumerate() {
            let through = chain.through(after, memories[place]);
            let others = rest[place];
            let needed = self.needed(field, place, chain, &through);
            self.bound = self.bound.max(others.saturating_add(needed.min(NEVER)));
            chain.retain(|slot, entry| others.saturating_add(through[slot][entry]) <= most);
            if chain.slots.iter().any(|link| link.entries.is_empty()) {
                self.bound = NEVER;
            }
        }
    }

    /// The least cost of a strip through what it must have.
    fn needed(&self, field: &Field, place: usize, chain: &Chain, through: &[Vec<i32>]) -> i32 {
        let share = &self.shares[place];
        let Some(lines) = &share.lines else { return i32::MIN };
        let (heights, part) = (&field.heights[place], &field.problem.parts[place]);
        let (mut brings, mut over, mut low) = (NEVER, NEVER, NEVER);
        let line = share.line();
        let highest = heights.lines.len() - 1;
        for (slot, (link, costs)) in chain.slots.iter().zip(through).enumerate() {
            for (entry, &cost) in link.entries.iter().zip(costs) {
                let Some(height) = heights.place(slot, usize::from(entry.choice)) else { continue };
                let own = heights.line_of(part, height);
                if lines.contains(&own) {
                    brings = brings.min(cost);
                }
                if let Some(line) = line {
                    if own > line {
                        over = over.min(cost);
                    }
                    let weight = |line: usize| heights.weight(part, height, heights.lines[line]);
                    if cost < low && weight(highest) > weight(line) {
                        low = cost;
                    }
                }
            }
        }
        if share.over == Some(true) { brings.max(over).max(low) } else { brings }
    }

    /// The chains of a region whose every strip is settled, with what prices give back.
    pub(super) fn chains(&self, field: &Field, limits: &Limits) -> Priced {
        let mut chains: Vec<Chain> = (0..self.shares.len()).map(|place| self.chain(field, place)).collect();
        set_prices(&mut chains, field, limits, &self.prices);
        Priced { chains, bound: self.bound, base: Self::base(limits, &self.prices) }
    }

    /// The parts that it falls into; none where everything is settled.
    pub(super) fn split(&self, field: &Field) -> Vec<Self> {
        let widest = (0..self.shares.len())
            .filter(|&place| self.shares[place].lines.as_ref().is_some_and(|lines| lines.len() > 1))
            .max_by_key(|&place| self.shares[place].lines.as_ref().map_or(0, ExactSizeIterator::len));
        if let Some(place) = widest {
            let lines = self.shares[place].lines.clone().unwrap_or(0..0);
            let heights = &field.heights[place].lines;
            // In the middle of the ratio, not of the count: near heights cost alike.
            let (low, high) = (heights[lines.start], heights[lines.end - 1]);
            let middle = low.scale((high.mm() / low.mm()).sqrt());
            let count = heights[lines.clone()].iter().filter(|&&line| line <= middle).count();
            let at = lines.start + count.clamp(1, lines.len() - 1);
            let mut parts = Vec::new();
            for half in [lines.start..at, at..lines.end] {
                let overs = if half.len() == 1 { vec![Some(true), Some(false)] } else { vec![None] };
                for over in overs {
                    let mut part = self.clone();
                    part.shares[place] =
                        Share { lines: Some(half.clone()), over, ..self.shares[place].clone() };
                    parts.push(part);
                }
            }
            return parts;
        }
        Vec::new()
    }

    /// Two halves of a region that is too rich to be swept: the slot with most choices gets the cheaper or the dearer.
    pub(super) fn halves(&self, chains: &[Chain]) -> Vec<Self> {
        let links: Vec<&Link> = chains.iter().flat_map(|chain| &chain.slots).collect();
        let Some(slot) = (0..links.len()).max_by_key(|&slot| links[slot].entries.len()) else {
            return Vec::new();
        };
        let mut order: Vec<Entry> = links[slot].entries.clone();
        order.sort_by_key(|entry| (entry.cost, entry.choice));
        let (cheap, dear) = order.split_at(order.len() / 2);
        let half = |entries: &[Entry]| {
            let mut open = Vec::clone(&self.open);
            open[slot] = entries.iter().map(|entry| entry.choice).collect();
            open[slot].sort_unstable();
            Self { open: Arc::new(open), ..self.clone() }
        };
        vec![half(cheap), half(dear)]
    }
}

/// Prices every entry of the chains.
fn set_prices(chains: &mut [Chain], field: &Field, limits: &Limits, prices: &[i32]) {
    for (chain, part) in chains.iter_mut().zip(&field.problem.parts) {
        for (link, slot) in chain.slots.iter_mut().zip(part.slots.clone()) {
            for entry in &mut link.entries {
                let used = limits.of(slot, entry.choice);
                entry.cost = entry.base + used.iter().map(|&used| prices[usize::from(used)]).sum::<i32>();
            }
        }
        chain.choose();
    }
}

fn sum(least: &[i32], base: i32) -> i32 {
    if least.iter().any(|&cost| cost >= NEVER) {
        return NEVER;
    }
    let sum: i64 = least.iter().map(|&cost| i64::from(cost)).sum::<i64>() + i64::from(base);
    i32::try_from(sum).unwrap_or(NEVER).min(NEVER)
}

impl PartialEq for Region {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Region {}

impl PartialOrd for Region {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Region {
    /// The lowest bound is the greatest: it comes out of a heap first; among equals the newest.
    fn cmp(&self, other: &Self) -> Ordering {
        other.bound.cmp(&self.bound).then(self.number.cmp(&other.number))
    }
}

/// The entry of a choice before it is priced.
pub(super) fn bare_entry(choice: &super::problem::Choice, place: u16, tinge: usize) -> Entry {
    Entry {
        choice: place,
        kind: u16::try_from(choice.kind).unwrap_or(u16::MAX),
        tinge: u16::try_from(tinge).unwrap_or(u16::MAX),
        sheet: choice.fill.sheet().map_or(NO_SHEET, |sheet| u32::try_from(sheet).unwrap_or(NO_SHEET)),
        base: cost_of(choice.alone),
        cost: cost_of(choice.alone),
    }
}
