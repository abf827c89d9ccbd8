//! Who gets which letters when several wishes are made together: at least cost in all, and in what size each.
//!
//! That they can all be made is known already. Must not know how that was found out.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::Verdict;
use super::answer::Answer;
use super::band::{Band, BandIx};
use super::demand::Demand;
use super::flow::{Assignment, Offer, assign};
use super::group::{Group, Heights};
use super::stock::Supply;
use super::together::Made;

/// The wishes that are made together, and the band of each.
#[derive(Debug, Clone)]
pub struct Sharing {
    made: Vec<Made>,
    cost: i64,
    /// The wish whose size is looked at next, and how many were looked at since one was changed.
    next: usize,
    idle: usize,
}

/// What the wishes want of one group: for each number of a demand the wish, by its place among those made, and the character.
type Wants = (Vec<(u16, u32)>, Vec<(usize, u16)>);

impl Sharing {
    /// Begins with `made`, of `demands` made for `supply`.
    #[must_use]
    pub fn new(supply: &Supply, demands: &[Demand], made: &[Made]) -> Self {
        let cost = supply.cost_together(demands, made).unwrap_or(i64::MAX);
        Self { made: made.to_vec(), cost, next: 0, idle: 0 }
    }

    /// Looks whether another size for one of the wishes saves stand-ins, or makes it larger at the same cost, all the others being
    /// made as well; whether that is so of none any more.
    pub fn improve(&mut self, supply: &Supply, demands: &[Demand]) -> bool {
        if self.idle >= self.made.len() {
            return true;
        }
        let place = self.next;
        let demand = &demands[self.made[place].wish];
        let mut changed = false;
        for band in supply.sizes_of(demand) {
            let mut made = self.made.clone();
            made[place].band = Some(band);
            let Some(cost) = supply.cost_together(demands, &made) else { continue };
            if (cost, Reverse(made[place].band)) < (self.cost, Reverse(self.made[place].band)) {
                (self.made, self.cost, changed) = (made, cost, true);
            }
        }
        self.next = (place + 1) % self.made.len();
        self.idle = if changed { 0 } else { self.idle + 1 };
        self.idle >= self.made.len()
    }

    /// The wishes, each with its band as it is now.
    #[must_use]
    pub fn made(&self) -> &[Made] {
        &self.made
    }

    /// What each wish takes, in the order of the wishes.
    #[must_use]
    pub fn answers(&self, supply: &Supply, demands: &[Demand]) -> Vec<(usize, Answer)> {
        supply.answers_together(demands, &self.made)
    }
}

impl Supply {
    /// What all take together at least; `None` where they cannot be made so.
    fn cost_together(&self, demands: &[Demand], made: &[Made]) -> Option<i64> {
        let mut cost = 0;
        for (place, group) in self.groups().iter().enumerate() {
            let (needs, wants) = self.wants(place, demands, made);
            let (offers, _) = offers(group, made, &wants);
            let Assignment { short, cost: more, .. } = assign(&needs, &offers);
            if !short.is_empty() {
                return None;
            }
            cost += more;
        }
        Some(cost)
    }

    fn answers_together(&self, demands: &[Demand], made: &[Made]) -> Vec<(usize, Answer)> {
        let mut answers: Vec<(usize, Answer)> = made
            .iter()
            .map(|made| (made.wish, self.answer_within(&demands[made.wish], band_of(made))))
            .collect();
        for (_, answer) in &mut answers {
            answer.stand_ins.clear();
        }
        for (place, group) in self.groups().iter().enumerate() {
            let (needs, wants) = self.wants(place, demands, made);
            let (offers, lots) = offers(group, made, &wants);
            let assigned = assign(&needs, &offers);
            let mut given = vec![0; offers.len()];
            for &(need, offer, letters) in &assigned.parts {
                let (of, wanted) = wants[usize::from(needs[need].0)];
                let heights = Heights::Within(band_of(&made[of]));
                let taken = (letters, &mut given[offer]);
                let behind = lots[offer]
                    .iter()
                    .filter_map(|&place| Some((&group.lots()[place], group.way(place, wanted, heights)?)));
                self.take(behind, wanted, taken, &mut answers[of].1.stand_ins);
            }
        }
        for (_, answer) in &mut answers {
            self.settle_cost(answer);
            answer.verdict = if answer.stand_ins.is_empty() { Verdict::Now } else { Verdict::StandIns };
        }
        answers
    }

    /// What the wishes that are made want of a group.
    fn wants(&self, group: usize, demands: &[Demand], made: &[Made]) -> Wants {
        let (mut needs, mut wants) = (Vec::new(), Vec::new());
        for (of, one) in made.iter().enumerate() {
            let shares = self.shares(&demands[one.wish]);
            for &(wanted, letters) in
                shares.iter().filter(|share| share.0 == group).flat_map(|share| &share.1)
            {
                needs.push((u16::try_from(needs.len()).unwrap_or(u16::MAX), letters));
                wants.push((of, wanted));
            }
        }
        (needs, wants)
    }

    /// A band for each size in which `demand` can be made: those of [`Supply::by_band`].
    fn sizes_of(&self, demand: &Demand) -> Vec<BandIx> {
        let told: Vec<Band> = self.by_band(demand).iter().filter_map(|answer| answer.band).collect();
        let holds = |band: &Band| {
            self.every_band().find(|place| {
                let bounds = self.bands()[place.get()];
                bounds.low <= band.low && band.high <= bounds.high
            })
        };
        told.iter().filter_map(holds).collect()
    }
}

/// The band of a wish; for small marks alone any will do.
fn band_of(made: &Made) -> BandIx {
    made.band.unwrap_or(BandIx(0))
}

/// What the letters of a group can serve of what is wanted, each within the band of its wish; and the lots behind each offer.
fn offers(group: &Group, made: &[Made], wants: &[(usize, u16)]) -> (Vec<Offer>, Vec<Vec<usize>>) {
    let mut alike: BTreeMap<Vec<(u16, i32)>, Vec<usize>> = BTreeMap::new();
    for place in 0..group.lots().len() {
        let serves = wants.iter().enumerate().filter_map(|(number, &(of, wanted))| {
            let way = group.way(place, wanted, Heights::Within(band_of(&made[of])))?;
            Some((u16::try_from(number).unwrap_or(u16::MAX), way.weight()))
        });
        let serves: Vec<(u16, i32)> = serves.collect();
        if !serves.is_empty() {
            alike.entry(serves).or_default().push(place);
        }
    }
    let left = |lots: &[usize]| lots.iter().map(|&lot| group.lots()[lot].left()).sum();
    let offers = alike.iter().map(|(serves, lots)| Offer { serves: serves.clone().into(), left: left(lots) });
    (offers.collect(), alike.values().cloned().collect())
}
