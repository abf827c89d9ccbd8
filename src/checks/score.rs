//! The score of a strip: every check that has a say, added up.
//!
//! Must not know any check by name: it walks the table.

use crate::measure::Points;
use crate::title::Joint;

use super::reach::{Bearings, Between, Check, Reach};
use super::view::StripView;
use super::{CHECKS, demand};

impl StripView<'_> {
    /// What a check knows of the strip besides the letter.
    #[must_use]
    pub fn bearings(&self) -> Bearings<'_> {
        Bearings {
            slots: self.fills.len(),
            words: self.strip.wording().words().count(),
            height: self.height,
            forms: self.strip.rules.forms,
            mix: self.strip.rules.mix,
            palette: &self.scene.palette,
            taste: &self.scene.taste,
        }
    }

    /// The checks that have a say in this strip.
    pub fn heard(&self) -> impl Iterator<Item = &'static Check> + use<> {
        let (mix, known) = (self.strip.rules.mix, self.scene.palette.is_known());
        CHECKS.iter().filter(move |check| check.heard.in_mix(mix) && (known || !check.needs_page))
    }

    /// Calls `found` with the slots and points of each instance of `check` that costs anything.
    pub fn instances(&self, check: &Check, mut found: impl FnMut(&[usize], Points)) {
        let bearings = self.bearings();
        let mut tell = |slots: &[usize], points: Points| {
            if points > Points::ZERO {
                found(slots, points);
            }
        };
        match check.reach {
            Reach::Letter(cost) => {
                for (slot, fill) in self.fills.iter().enumerate() {
                    tell(&[slot], cost(&bearings, fill));
                }
            }
            Reach::Pair(cost) => {
                for slot in 1..self.fills.len() {
                    let (before, here) = (&self.fills[slot - 1], &self.fills[slot]);
                    if !before.is_filled() || !here.is_filled() {
                        continue;
                    }
                    if let Some(between) = self.between(slot - 1) {
                        tell(&[slot - 1, slot], cost(&self.scene.taste, before, here, between));
                    }
                }
            }
            Reach::Position(demands) | Reach::Counts(demands) => {
                for want in demands(&bearings) {
                    let (slots, points) = demand::unmet(&want, &self.fills, self.strip.wording());
                    tell(&slots, points);
                }
            }
        }
    }

    /// What lies between `slot` and the next; `None` where they are no neighbours: a line ends between them.
    fn between(&self, slot: usize) -> Option<Between> {
        let joint = self.strip.wording().joint(slot).filter(|&joint| joint != Joint::Line)?;
        let whole = joint == Joint::Word && {
            let mut word = self.fills[self.strip.wording().word_around(slot)].iter();
            let first = word.next().and_then(|fill| fill.look()).map(|look| look.sheet);
            first.is_some() && word.all(|fill| fill.look().map(|look| look.sheet) == first)
        };
        Some(Between { joint, whole })
    }

    /// The points of one check over the whole strip.
    #[must_use]
    pub fn points_of(&self, check: &Check) -> Points {
        let mut sum = Points::ZERO;
        self.instances(check, |_, points| sum += points);
        sum
    }

    /// The score of the strip: every check that has a say, less what the user is content with. Lower is better.
    #[must_use]
    pub fn score(&self) -> Points {
        let counts = |check: &&Check| !self.strip.accepted.contains(check.id);
        self.heard().filter(counts).map(|check| self.points_of(check)).sum()
    }
}
