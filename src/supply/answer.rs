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
use super::gather::{Lot, Way};
use super::group::{Heights, Span};
use super::look::Wanted;
use super::stock::{Share, Supply};

/// What is to be said of a wording.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// Whether it can be spelled.
    pub verdict: Verdict,
    /// The heights, least and greatest, of the letters to choose from; `None`: not within one band, or all of it is small marks.
    pub band: Option<Band>,
    /// Whether these are not all the stickers' own heights: a small letter's is that of a capital to the same scale, and so is that of
    /// a capital that serves for a small letter.
    pub as_capitals: bool,
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
                let choice = band.and_then(|band| self.choice(&shares, verdict, Heights::Within(band)));
                return Answer {
                    verdict,
                    band: choice.map(|choice| choice.band),
                    as_capitals: choice.is_some_and(|choice| choice.as_capitals),
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

    /// What is to be said of `demand` in that band alone.
    #[must_use]
    pub fn answer_within(&self, demand: &Demand, band: BandIx) -> Answer {
        let heights = Heights::Within(band);
        let shares = self.shares(demand);
        let mut answer = self.told(demand, &shares, Verdict::Short, heights);
        if answer.short.is_empty() {
            answer.verdict = if answer.stand_ins.is_empty() { Verdict::Now } else { Verdict::StandIns };
            let choice = self.choice(&shares, answer.verdict, heights);
            answer.band = choice.map(|choice| choice.band);
            answer.as_capitals = choice.is_some_and(|choice| choice.as_capitals);
        }
        answer
    }

    pub(super) fn lacks_and_costs(&self, shares: &[Share], heights: Heights) -> (u32, i64) {
        let assigned = self.assign(shares, heights);
        let lacking = assigned.iter().flat_map(|one| one.short.iter().map(|&(_, letters)| letters)).sum();
        (lacking, assigned.iter().map(|one| one.cost).sum())
    }

    pub(super) fn told(
        &self,
        demand: &Demand,
        shares: &[Share],
        verdict: Verdict,
        heights: Heights,
    ) -> Answer {
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
        let choice =
            matches!(heights, Heights::Within(_)).then(|| self.choice(shares, verdict, heights)).flatten();
        let as_capitals = choice.is_some_and(|choice| choice.as_capitals);
        let band = choice.map(|choice| choice.band);
        let mut answer = Answer { verdict, band, as_capitals, stand_ins, cost: Points::ZERO, short };
        self.settle_cost(&mut answer);
        answer
    }

    /// The stickers behind an assignment that stand in for another letter.
    fn stand_ins(&self, share: &Share, assignment: &Assignment, heights: Heights, found: &mut Vec<StandsIn>) {
        let group = &self.groups()[share.0];
        let offers = group.offers(heights);
        let mut given = vec![0u32; offers.len()];
        for &(demand, offer, letters) in &assignment.parts {
            let wanted = share.1[demand].0;
            if offers[offer].stands_in(wanted) {
                let taken = (letters, &mut given[offer]);
                self.take(group.behind(&offers[offer], wanted, heights), wanted, taken, found);
            } else {
                given[offer] += letters;
            }
        }
    }

    /// Takes so many letters out of `lots`, each with the way in which it serves, for one that is `wanted`, and notes those that stand
    /// in. How many of them are `given` out already is kept with them: no sticker is given twice.
    pub(super) fn take<'a>(
        &self,
        lots: impl Iterator<Item = (&'a Lot, &'a Way)>,
        wanted: u16,
        (letters, given): (u32, &mut u32),
        found: &mut Vec<StandsIn>,
    ) {
        let (mut skip, mut open) = (*given, letters);
        *given += letters;
        for (lot, way) in lots {
            for &(chip, left) in &lot.chips {
                let there = u32::from(left).saturating_sub(skip);
                skip = skip.saturating_sub(u32::from(left));
                let letters = there.min(open);
                open -= letters;
                if let (Some(kind), false, true) = (way.stands_in, way.is_own, letters > 0) {
                    found.push(StandsIn { wanted: self.character(wanted).clone(), chip, kind, letters });
                }
            }
        }
    }

    /// Puts the stand-ins of an answer in order, and tells what they cost.
    pub(super) fn settle_cost(&self, answer: &mut Answer) {
        answer.stand_ins.sort_by_key(|one| (one.wanted.in_order(), one.chip));
        let costs = self.asking().costs;
        let cost = |one: &StandsIn| costs.of(one.kind) * i32::try_from(one.letters).unwrap_or(i32::MAX);
        answer.cost = answer.stand_ins.iter().map(cost).sum();
    }

    /// The heights of the letters that can be chosen from: where all letters are there as themselves, of those alone.
    pub(super) fn choice(&self, shares: &[Share], verdict: Verdict, heights: Heights) -> Option<Span> {
        let served = shares.iter().flat_map(|(group, needs)| {
            needs.iter().map(|&(wanted, _)| self.groups()[*group].served(wanted, heights))
        });
        let spans = served.filter_map(|served| if verdict == Verdict::Now { served.own } else { served.any });
        spans.reduce(Span::and)
    }
}
