//! A wording in each band of heights: all sizes in which it can be made, and the one that comes nearest.
//!
//! Must not know how it is told.

use std::cmp::Reverse;

use super::Verdict;
use super::answer::Answer;
use super::band::BandIx;
use super::demand::Demand;
use super::group::Heights;
use super::look::Wanted;
use super::stock::Supply;

impl Supply {
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
