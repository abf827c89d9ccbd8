//! A wording in each band of heights: all sizes in which it can be made, and the one that comes nearest.
//!
//! Must not know how it is told.

use std::cmp::Reverse;

use crate::letter::Character;
use crate::stash::ChipIx;

use super::Verdict;
use super::answer::Answer;
use super::band::{Band, BandIx};
use super::demand::Demand;
use super::gather::Way;
use super::group::{Group, Heights};
use super::look::Wanted;
use super::stock::Supply;

/// Letters that are there for a character that is asked for, as themselves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct There {
    /// The character.
    pub character: Character,
    /// How many letters are asked for.
    pub asked: u32,
    /// Where letters are, and how many; in the order of the stash.
    pub chips: Vec<(ChipIx, u16)>,
}

impl Supply {
    /// For each character of `demand` the letters in that band of heights, both ends included, that serve for it as themselves.
    #[must_use]
    pub fn letters_there(&self, demand: &Demand, band: Band) -> Vec<There> {
        let there = |&(wanted, asked): &(u16, u32)| {
            let is_there = |way: &Way| {
                let fits = way.height.is_none_or(|height| band.low <= height && height <= band.high);
                way.wanted == wanted && way.is_own && fits
            };
            let lots = self.groups().iter().flat_map(Group::lots).filter(|lot| lot.ways.iter().any(is_there));
            let mut chips: Vec<(ChipIx, u16)> = lots.flat_map(|lot| lot.chips.iter().copied()).collect();
            chips.sort_unstable();
            There { character: self.character(wanted).clone(), asked, chips }
        };
        let mut told: Vec<There> = demand.needs.iter().map(there).collect();
        told.sort_by_key(|one| one.character.in_order());
        told
    }

    /// The band of heights that comes nearest to meeting `demand`: what is short there and what stands in. Of equals the cheapest,
    /// then the largest letters.
    #[must_use]
    pub fn nearest(&self, demand: &Demand) -> Answer {
        let shares = self.shares(demand);
        let stated = Demand { needs: demand.needs.clone(), ..Demand::default() };
        let cheapest = |bands: Vec<BandIx>| {
            let counted =
                bands.into_iter().map(|band| (self.lacks_and_costs(&shares, Heights::Within(band)), band));
            counted.min_by_key(|&(counted, _)| counted)
        };
        if let Some(band) = self.bands_of(&stated, false, |_| true) {
            return self.answer_within(demand, band);
        }
        // Where a band has all that can be had at all, none comes nearer.
        let likely = cheapest(self.likely_bands(&stated)).filter(|((lacking, _), _)| *lacking == 0);
        match likely.or_else(|| cheapest(self.every_band().collect())) {
            Some((_, band)) => self.answer_within(demand, band),
            None => self.told(demand, &shares, Verdict::Short, Heights::Mixed),
        }
    }

    /// What is to be said of `demand` size by size: the band of heights that meets it at least cost, then the next best of those
    /// that share no height with one before, and so on. The largest letters first.
    #[must_use]
    pub fn by_band(&self, demand: &Demand) -> Vec<Answer> {
        let mut told: Vec<Answer> = Vec::new();
        if !demand.foreign.is_empty() {
            return told;
        }
        let is_apart = |told: &[Answer], band: BandIx| {
            let bounds = self.bands()[band.get()];
            told.iter().all(|one| one.band.is_some_and(|one| one.is_apart(bounds)))
        };
        self.bands_of(demand, false, |band| {
            if is_apart(&told, band) {
                told.push(self.answer_within(demand, band));
            }
            false
        });
        let shares = self.shares(demand);
        let others = self.likely_bands(demand).into_iter().filter(|&band| is_apart(&told, band));
        let counted = others.map(|band| (self.lacks_and_costs(&shares, Heights::Within(band)), band));
        let mut met: Vec<_> = counted.filter(|((lacking, _), _)| *lacking == 0).collect();
        met.sort_by_key(|((_, cost), _)| *cost);
        for (_, band) in met {
            if is_apart(&told, band) {
                told.push(self.answer_within(demand, band));
            }
        }
        told.sort_by_key(|one| Reverse(one.band.map(|band| band.high)));
        told
    }

    /// The first of the bands that meet `demand`, the highest first, that `is_enough`.
    fn bands_of(
        &self,
        demand: &Demand,
        stand_ins: bool,
        mut is_enough: impl FnMut(BandIx) -> bool,
    ) -> Option<BandIx> {
        let mut found = None;
        self.bands_that_meet(demand, stand_ins, &mut Wanted::default(), |band| {
            if is_enough(band) {
                found = Some(band);
            }
            found.is_some()
        });
        found
    }
}
