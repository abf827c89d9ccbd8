//! The whole answer about one wording: what stands in, at what cost, and what is short.
//!
//! Must not know how it is told.

use crate::letter::{Character, StandInKind};
use crate::measure::Points;
use crate::stash::ChipIx;

use super::Verdict;
use super::band::{Band, BandIx};
use super::demand::Demand;
use super::flow::Assignment;
use super::group::Heights;
use super::look::Wanted;
use super::stock::{Share, Supply};

/// What is to be said of a wording.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// Whether it can be spelled.
    pub verdict: Verdict,
    /// The heights, least and greatest, of the letters to choose from; `None`: not within one band, or all of it is small marks.
    pub band: Option<Band>,
    /// The letters that stand in, as few and as cheap as can be.
    pub stand_ins: Vec<StandsIn>,
    /// What they cost.
    pub cost: Points,
    /// What is short; nothing, unless the verdict is so.
    pub short: Vec<Short>,
}

/// A sticker that stands in, so many times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StandsIn {
    /// The character wanted.
    pub wanted: Character,
    /// The sticker.
    pub chip: ChipIx,
    /// How it serves.
    pub kind: StandInKind,
    /// How many letters.
    pub letters: u32,
}

/// A character that there are too few of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Short {
    /// The character.
    pub character: Character,
    /// How many are lacking.
    pub letters: u32,
}

impl Supply {
    /// Whether `demand` can be met; if with stand-ins, those of least cost in all bands of heights, and in the band of the largest
    /// letters where that is a tie. What is short is so at least: no use of the letters leaves less.
    #[must_use]
    pub fn answer(&self, demand: &Demand) -> Answer {
        let (verdict, band) = self.judge(demand, &mut Wanted::default());
        let shares = self.shares(demand);
        let heights = match verdict {
            // Nothing stands in: there is nothing to assign.
            Verdict::Now => {
                let band = band.and_then(|band| self.choice(&shares, verdict, Heights::Within(band)));
                return Answer {
                    verdict,
                    band,
                    stand_ins: Vec::new(),
                    cost: Points::ZERO,
                    short: Vec::new(),
                };
            }
            Verdict::StandIns => {
                let within = self.likely_bands(demand).into_iter().map(Heights::Within);
                within.min_by_key(|&heights| self.lacks_and_costs(&shares, heights))
            }
            Verdict::MixedHeights | Verdict::Short => None,
        };
        self.told(demand, &shares, verdict, heights.unwrap_or(Heights::Mixed))
    }

    /// The band of heights that comes nearest to meeting `demand`: what is short there and what stands in. Of equals the cheapest,
    /// then the largest letters.
    #[must_use]
    pub fn nearest(&self, demand: &Demand) -> Answer {
        let shares = self.shares(demand);
        let cheapest = |&band: &BandIx| self.lacks_and_costs(&shares, Heights::Within(band));
        match self.every_band().min_by_key(cheapest) {
            Some(band) => self.answer_within(demand, band),
            None => self.told(demand, &shares, Verdict::Short, Heights::Mixed),
        }
    }

    /// What is to be said of `demand` size by size: the band of heights that meets it at least cost, then the next best of those
    /// that share no height with one before, and so on. The largest letters first.
    #[must_use]
    pub fn by_band(&self, demand: &Demand) -> Vec<Answer> {
        if !demand.foreign.is_empty() {
            return Vec::new();
        }
        let shares = self.shares(demand);
        let within = self.likely_bands(demand).into_iter().map(Heights::Within);
        let met = within.map(|heights| (self.lacks_and_costs(&shares, heights), heights));
        let mut met: Vec<_> = met.filter(|((lacking, _), _)| *lacking == 0).collect();
        met.sort_by_key(|((_, cost), _)| *cost);
        let mut told: Vec<Answer> = Vec::new();
        for ((_, cost), heights) in met {
            let verdict = if cost == 0 { Verdict::Now } else { Verdict::StandIns };
            let answer = self.told(demand, &shares, verdict, heights);
            let is_apart = |one: &Answer| match (one.band, answer.band) {
                (Some(one), Some(other)) => one.is_apart(other),
                _ => false,
            };
            if told.iter().all(is_apart) {
                told.push(answer);
            }
        }
        told.sort_by_key(|one| std::cmp::Reverse(one.band.map(|band| band.high)));
        told
    }

    /// What is to be said of `demand` in that band alone.
    #[must_use]
    pub fn answer_within(&self, demand: &Demand, band: BandIx) -> Answer {
        let heights = Heights::Within(band);
        let shares = self.shares(demand);
        let mut answer = self.told(demand, &shares, Verdict::Short, heights);
        if answer.short.is_empty() {
            answer.verdict = if answer.stand_ins.is_empty() { Verdict::Now } else { Verdict::StandIns };
            answer.band = self.choice(&shares, answer.verdict, heights);
        }
        answer
    }

    fn lacks_and_costs(&self, shares: &[Share], heights: Heights) -> (u32, i64) {
        let assigned = self.assign(shares, heights);
        let lacking = assigned.iter().flat_map(|one| one.short.iter().map(|&(_, letters)| letters)).sum();
        (lacking, assigned.iter().map(|one| one.cost).sum())
    }

    fn told(&self, demand: &Demand, shares: &[Share], verdict: Verdict, heights: Heights) -> Answer {
        let assigned = self.assign(shares, heights);
        let mut short: Vec<Short> = Vec::new();
        for ((_, needs), assignment) in shares.iter().zip(&assigned) {
            let lacking = |&(place, letters): &(usize, u32)| Short {
                character: self.character(needs[place].0).clone(),
                letters,
            };
            short.extend(assignment.short.iter().map(lacking));
        }
        short.extend(
            demand
                .foreign
                .iter()
                .map(|(character, letters)| Short { character: character.clone(), letters: *letters }),
        );
        short.sort_by_key(|short| short.character.in_order());
        let mut stand_ins: Vec<StandsIn> = Vec::new();
        for (share, assignment) in shares.iter().zip(&assigned) {
            self.stand_ins(share, assignment, heights, &mut stand_ins);
        }
        stand_ins.sort_by_key(|one| (one.wanted.in_order(), one.chip));
        let cost = stand_ins
            .iter()
            .map(|one| self.asking().costs.of(one.kind) * i32::try_from(one.letters).unwrap_or(i32::MAX))
            .sum();
        let band =
            matches!(heights, Heights::Within(_)).then(|| self.choice(shares, verdict, heights)).flatten();
        Answer { verdict, band, stand_ins, cost, short }
    }

    /// The stickers behind an assignment that stand in for another letter.
    fn stand_ins(&self, share: &Share, assignment: &Assignment, heights: Heights, found: &mut Vec<StandsIn>) {
        let group = &self.groups()[share.0];
        let offers = group.offers(heights);
        // How many letters of an offer are given out already: no sticker is given twice.
        let mut given = vec![0u32; offers.len()];
        for &(demand, offer, letters) in &assignment.parts {
            let wanted = share.1[demand].0;
            let mut skip = given[offer];
            given[offer] += letters;
            let mut open = letters;
            if !offers[offer].stands_in(wanted) {
                continue;
            }
            for (lot, way) in group.behind(&offers[offer], wanted, heights) {
                for &(chip, left) in &lot.chips {
                    let there = u32::from(left).saturating_sub(skip);
                    skip = skip.saturating_sub(u32::from(left));
                    let letters = there.min(open);
                    open -= letters;
                    if let (Some(kind), true) = (way.stands_in, letters > 0) {
                        found.push(StandsIn { wanted: self.character(wanted).clone(), chip, kind, letters });
                    }
                }
            }
        }
    }

    /// The heights of the letters that can be chosen from: where all letters are there as themselves, of those alone.
    fn choice(&self, shares: &[Share], verdict: Verdict, heights: Heights) -> Option<Band> {
        let served = shares.iter().flat_map(|(group, needs)| {
            needs.iter().map(|&(wanted, _)| self.groups()[*group].served(wanted, heights))
        });
        let bands = served.filter_map(|served| if verdict == Verdict::Now { served.own } else { served.any });
        bands.reduce(|a, b| Band { low: a.low.min(b.low), high: a.high.max(b.high) })
    }
}
