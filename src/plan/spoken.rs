//! Which letters stand on strips already: spoken for.
//!
//! Must not know how many are left.

use std::collections::HashMap;

use crate::stash::{ChipIx, Stash};

use super::Plan;

/// How often each chip of a stash stands somewhere. A chip that the stash lacks is not counted.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Spoken {
    times: HashMap<ChipIx, u16>,
    /// For each chip the plans that speak for it, by name, with how often; those that were added without a name are not
    /// among them.
    whose: HashMap<ChipIx, Vec<(String, u16)>>,
}

impl Spoken {
    /// What the strips of `plan` speak for, those already stuck left out: their letters are off the stash.
    #[must_use]
    pub fn by(plan: &Plan, stash: &Stash) -> Self {
        let mut spoken = Self::default();
        spoken.add(plan, stash);
        spoken
    }

    /// Adds what another plan speaks for.
    pub fn add(&mut self, plan: &Plan, stash: &Stash) {
        let open = plan.strips().iter().flat_map(crate::title::Strip::spoken_for);
        for chip in open.filter_map(|id| stash.find(id)) {
            *self.times.entry(chip).or_default() += 1;
        }
    }

    /// Adds what the plan called `name` speaks for.
    pub fn add_called(&mut self, name: &str, plan: &Plan, stash: &Stash) {
        self.add(plan, stash);
        for (chip, times) in Self::by(plan, stash).iter() {
            self.whose.entry(chip).or_default().push((name.to_owned(), times));
        }
    }

    /// Whether nothing is spoken for.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.times.is_empty()
    }

    /// The plans by name that speak for `chip`, with how often, in the order in which they were added.
    #[must_use]
    pub fn whose(&self, chip: ChipIx) -> &[(String, u16)] {
        self.whose.get(&chip).map_or(&[], Vec::as_slice)
    }

    /// How often `chip` is spoken for.
    #[must_use]
    pub fn times(&self, chip: ChipIx) -> u16 {
        self.times.get(&chip).copied().unwrap_or(0)
    }

    /// The same letters in another stash that has them all.
    #[must_use]
    pub fn moved(&self, from: &Stash, to: &Stash) -> Self {
        let place = |chip: ChipIx| to.find(&from.chip(chip).id());
        let times = self.times.iter().filter_map(|(&chip, &times)| Some((place(chip)?, times)));
        let whose = self.whose.iter().filter_map(|(&chip, plans)| Some((place(chip)?, plans.clone())));
        Self { times: times.collect(), whose: whose.collect() }
    }

    /// Every chip spoken for, with how often; in no order.
    pub fn iter(&self) -> impl Iterator<Item = (ChipIx, u16)> + '_ {
        self.times.iter().map(|(&chip, &times)| (chip, times))
    }
}
