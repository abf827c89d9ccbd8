//! The bound of a region: the chains of its strips, with a price on everything that would be used too often (Lagrangean
//! relaxation; Held and Karp 1971).
//!
//! Whatever the prices, no arrangement costs less than the chains and what the prices give back. Must not know what lies in
//! other regions.

use std::sync::Arc;

use super::after::After;
use super::chain::{Chain, Entry, Link, NEVER};
use super::field::Field;
use super::limits::Limits;
use super::memory::Memory;
use super::region::Region;

/// How often prices are set anew: for a region whose heights are settled, for one that will be parted anyway, and with
/// everything remembered.
const ROUNDS: [u32; 3] = [30, 4, 40];

/// Beyond so many costs a region that will be parted is not looked at with everything remembered.
const LARGE: usize = 200_000;

/// No price is higher: more than any arrangement would pay.
const DEAREST: i64 = 4_000 * super::UNIT as i64;

/// The chains of a region at some prices.
#[derive(Debug)]
pub(super) struct Priced {
    /// A chain a strip.
    pub(super) chains: Vec<Chain>,
    /// For each the least cost after each slot, and of the whole.
    pub(super) afters: Vec<Vec<After>>,
    pub(super) least: Vec<i32>,
    /// What the prices of limits give back; not above 0.
    pub(super) base: i32,
    /// For each strip what the prices of its needs ask.
    pub(super) asked: Vec<i32>,
    /// For each strip what everything else costs.
    rest: Vec<i32>,
    /// Work done so far.
    pub(super) work: u64,
}

impl Priced {
    fn new(chains: Vec<Chain>) -> Self {
        Self {
            chains,
            afters: Vec::new(),
            least: Vec::new(),
            base: 0,
            asked: Vec::new(),
            rest: Vec::new(),
            work: 0,
        }
    }

    /// Prices every entry.
    fn set(&mut self, field: &Field, limits: &Limits, prices: &[i32]) {
        for (place, (chain, part)) in self.chains.iter_mut().zip(&field.problem.parts).enumerate() {
            for (link, slot) in chain.slots.iter_mut().zip(part.slots.clone()) {
                for entry in &mut link.entries {
                    entry.cost = entry.base + limits.price(place, slot, entry, prices);
                }
            }
            chain.choose();
        }
        let (mut back, mut asked) = (0_i64, vec![0; self.chains.len()]);
        for (limit, (&price, &most)) in prices.iter().zip(&limits.most).enumerate() {
            match limits.as_need(limit) {
                Some((part, _)) => asked[part] += price,
                None => back += i64::from(price) * i64::from(most),
            }
        }
        self.base = i32::try_from(-back).unwrap_or(-NEVER);
        self.asked = asked;
    }

    /// Finds what everything costs at least, and gives back the bound.
    pub(super) fn look(&mut self, field: &Field, region: &Region, memories: &[&Memory]) -> i32 {
        let both = || self.chains.iter().zip(memories);
        self.afters = both().map(|(chain, memory)| chain.after(memory)).collect();
        self.least = both()
            .zip(&self.afters)
            .zip(&self.asked)
            .map(|(((chain, memory), after), asked)| (chain.least(after, memory) + asked).min(NEVER))
            .collect();
        let others = self.others(field, region);
        let total = self.least.iter().zip(&others).map(|(&least, &rest)| least.saturating_add(rest)).max();
        self.rest = others.iter().zip(&self.asked).map(|(others, asked)| others + asked).collect();
        self.work += self.afters.iter().flatten().map(After::size).sum::<u64>();
        // Prices must not make the impossible cheap.
        if self.least.iter().any(|&least| least >= NEVER) {
            NEVER
        } else {
            total.unwrap_or(self.base).min(NEVER)
        }
    }

    /// For each strip what all others cost at least, and the prices give back: by their own `least`, or by their floors.
    fn others(&self, field: &Field, region: &Region) -> Vec<i32> {
        let paid = |place: usize| region.paid(field, place);
        let strips = 0..self.least.len();
        let priced = |place: usize| self.least[place].saturating_add(paid(place)).min(NEVER);
        let rest = |place: usize| {
            let others = || strips.clone().filter(move |&other| other != place);
            let (by_least, by_floors): (i64, i64) = (
                others().map(|other| i64::from(priced(other))).sum(),
                others().map(|other| i64::from(field.floors[other])).sum(),
            );
            let rest = by_least.max(by_floors) + i64::from(self.base) + i64::from(paid(place));
            i32::try_from(rest).unwrap_or(NEVER).min(NEVER)
        };
        strips.clone().map(rest).collect()
    }

    /// The best arrangement of each strip.
    fn ways(&self, memories: &[&Memory]) -> Vec<Vec<Entry>> {
        let both = self.chains.iter().zip(memories).zip(&self.afters);
        both.map(|((chain, memory), after)| chain.best_way(after, memory)).collect()
    }

    /// Strikes out every entry that no arrangement of at most `most` uses, and gives back a bound of the region, good up
    /// to just beyond `most`: what every arrangement of it must have.
    fn strike(&mut self, region: &Region, memories: &[&Memory], most: i32) -> i32 {
        let mut bound = i32::MIN;
        for (place, (chain, after)) in self.chains.iter_mut().zip(&self.afters).enumerate() {
            let through = chain.through(after, memories[place]);
            let others = self.rest[place];
            for &need in region.needs(place) {
                let met =
                    chain.slots.iter().zip(&through).flat_map(|(link, costs)| link.entries.iter().zip(costs));
                let least = met.filter(|(entry, _)| entry.meets & 1 << need != 0).map(|one| *one.1).min();
                bound = bound.max(others.saturating_add(least.unwrap_or(NEVER)));
            }
            chain.retain(|slot, entry| others.saturating_add(through[slot][entry]) <= most);
            if chain.slots.iter().any(|link| link.entries.is_empty()) {
                bound = NEVER;
            }
        }
        bound
    }
}

impl Region {
    /// Raises the bound, and strikes out every choice that no arrangement of at most `most` uses. Gives back the work, and
    /// the chains as far as `reach`, unless nothing in the region costs so little.
    pub(super) fn price(
        &mut self,
        field: &Field,
        limits: &Limits,
        most: i32,
    ) -> (u64, Option<(Priced, i32)>) {
        let chains = (0..self.shares.len()).map(|place| self.chain(field, place)).collect();
        let mut priced = Priced::new(chains);
        let nothing: Vec<&Memory> = self.shares.iter().map(|_| &field.nothing).collect();
        let memories: Vec<&Memory> = field.memories.iter().map(AsRef::as_ref).collect();
        // Where there is little to look at it may be looked at often.
        let often = 50_000
            / u32::try_from(priced.chains.iter().map(Chain::size).sum::<usize>() + 1).unwrap_or(u32::MAX);
        let rounds = if self.is_wide() { ROUNDS[1] } else { ROUNDS[0] + often };
        self.rounds(field, limits, &mut priced, &nothing, most, rounds);
        if self.bound > most {
            return (priced.work, None);
        }
        let open = |link: &Link| link.entries.iter().map(|entry| entry.choice).collect();
        self.open = Arc::new(priced.chains.iter().flat_map(|chain| &chain.slots).map(open).collect());
        // With everything remembered it is costly; near the bound there are few choices.
        let reach = self.reach(most);
        self.rounds(field, limits, &mut priced, &nothing, reach, 1);
        let size = |(chain, memory): (&Chain, &&Memory)| chain.size() * memory.size(chain.slots.len() / 2);
        let large = priced.chains.iter().zip(&memories).map(size).sum::<usize>() > LARGE;
        if self.bound <= reach && self.is_wide() && large {
            return (priced.work, Some((priced, reach)));
        }
        if self.bound <= reach {
            let rounds = if self.is_wide() { 1 } else { ROUNDS[2] };
            self.rounds(field, limits, &mut priced, &memories, reach, rounds);
        }
        if self.bound > reach {
            return (priced.work, None);
        }
        priced.set(field, limits, &self.prices);
        priced.look(field, self, &memories);
        (priced.work, Some((priced, reach)))
    }

    /// The chains at the prices as they are.
    pub(super) fn as_is(&self, field: &Field, limits: &Limits) -> Priced {
        let chains = (0..self.shares.len()).map(|place| self.chain(field, place)).collect();
        let mut priced = Priced::new(chains);
        priced.set(field, limits, &self.prices);
        let memories: Vec<&Memory> = field.memories.iter().map(AsRef::as_ref).collect();
        priced.look(field, self, &memories);
        priced
    }

    /// As far as is looked next.
    fn reach(&self, most: i32) -> i32 {
        // By doubling up to 1.6 points, then faster: 0, 1, 2, 4, 8, 16, 64, 256 tenths.
        let doublings = self.level.min(5) + 2 * self.level.saturating_sub(5);
        let tenths = 1_i32.checked_shl(doublings).unwrap_or(i32::MAX) / 2;
        let further = super::UNIT.saturating_mul(tenths);
        let beyond = if self.is_wide() { further.max((most - self.bound) / 4) } else { further };
        self.bound.saturating_add(beyond).min(most)
    }

    /// Sets prices anew up to `rounds` times, for arrangements of at most `most`: the bound is good up to just beyond.
    fn rounds(
        &mut self,
        field: &Field,
        limits: &Limits,
        priced: &mut Priced,
        memories: &[&Memory],
        most: i32,
        rounds: u32,
    ) {
        let patience = if most - self.bound > 100 * super::UNIT { 16 } else { 5 };
        let mut tried = self.prices.clone();
        let (mut best, mut step, mut idle) = (i32::MIN, 16_i64, 0);
        for _ in 0..rounds {
            priced.set(field, limits, &tried);
            let total = priced.look(field, self, memories);
            self.raise(field, total.min(most.saturating_add(1)));
            if self.bound > most {
                return;
            }
            let ways = priced.ways(memories);
            // Little by little is too slow: a sweep does better.
            let gained = i64::from(total) - i64::from(best);
            if total > best {
                (best, idle) = (total, if gained * 100 < i64::from(most - total) { idle + 1 } else { 0 });
                self.prices.clone_from(&tried);
                let bound = priced.strike(self, memories, most);
                self.raise(field, bound.min(most.saturating_add(1)));
                if self.bound > most {
                    return;
                }
            } else {
                idle += 1;
                if idle % 4 == 0 {
                    step = (step / 2).max(1);
                }
            }
            let excess = self.excess(field, limits, &ways);
            let counts = |(limit, &excess): (usize, &i64)| excess > 0 || tried[limit] > 0;
            let norm: i64 = excess.iter().enumerate().filter(|one| counts(*one)).map(|(_, e)| e * e).sum();
            let settled = excess.iter().zip(&tried).all(|(&e, &price)| e <= 0 && (price == 0 || e == 0));
            if norm == 0 || settled || idle > patience {
                break;
            }
            let target = i64::from(most.min(total.saturating_add(200 * super::UNIT)));
            let length = step * (target - i64::from(total)).max(1);
            for (price, excess) in tried.iter_mut().zip(&excess) {
                let by = (length * excess) / (16 * norm);
                let by = if by == 0 { excess.signum() } else { by };
                *price = i32::try_from((i64::from(*price) + by).clamp(0, DEAREST)).unwrap_or(0);
            }
        }
    }

    /// Scores are whole tenths, and no strip costs less than its floor.
    fn raise(&mut self, field: &Field, bound: i32) {
        let floors: i32 = field.floors.iter().sum();
        let tenths =
            self.bound.max(bound).max(floors).saturating_add(super::UNIT - 1).div_euclid(super::UNIT);
        self.bound = tenths.saturating_mul(super::UNIT).min(NEVER);
    }

    /// How far each limited thing is used beyond its limit in `ways`; below 0 where it is not.
    fn excess(&self, field: &Field, limits: &Limits, ways: &[Vec<Entry>]) -> Vec<i64> {
        let mut excess: Vec<i64> = limits.most.iter().map(|&most| -i64::from(most)).collect();
        for (place, (way, part)) in ways.iter().zip(&field.problem.parts).enumerate() {
            for (entry, slot) in way.iter().zip(part.slots.clone()) {
                for used in limits.of(slot, entry.choice) {
                    excess[used.limit as usize] += i64::from(used.by);
                }
                for need in self.needs(place) {
                    excess[limits.need(place, *need)] -= i64::from(entry.meets >> need & 1);
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
}
