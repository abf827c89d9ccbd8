//! One word judged in one way, in room that is kept from one to the next.
//!
//! Must not know the list.

use crate::letter::weight;

use super::super::Verdict;
use super::super::band::BandIx;
use super::super::demand::Demand;
use super::super::group::Heights;
use super::super::stock::{Supply, living};
use super::{Idea, IdeaRules, Ideas};

/// Room to work in.
#[derive(Debug, Default)]
pub(super) struct Room {
    /// The word as it is tried.
    pub(super) text: String,
    /// What it asks for alone.
    word: Demand,
    /// What is asked for with what is to stand beside it.
    both: Demand,
    /// The bands that are still in question.
    alive: Vec<u8>,
    /// How many letters of the word are scarce in each band.
    few: Vec<u8>,
}

impl Room {
    /// Judges the word as it stands here: by its own letters, or else with stand-ins.
    pub(super) fn judge(
        &mut self,
        supply: &Supply,
        beside: &Demand,
        rules: &IdeaRules,
        stand_ins: bool,
    ) -> Option<Idea> {
        supply.read(&self.text, &mut self.word).ok()?;
        self.both.needs.clone_from(&self.word.needs);
        self.both.foreign.clone_from(&self.word.foreign);
        self.both.add(beside);
        if !self.both.foreign.is_empty() {
            return None;
        }
        let (verdict, place) = if stand_ins {
            (Verdict::StandIns, self.with_stand_ins(supply, rules)?)
        } else {
            (Verdict::Now, self.as_themselves(supply, rules)?)
        };
        let (band, scarce) = (supply.bands()[place.get()], u32::from(self.few[place.get()]));
        Some(Idea { text: self.text.clone(), verdict, band, place, scarce })
    }

    fn as_themselves(&mut self, supply: &Supply, rules: &IdeaRules) -> Option<BandIx> {
        supply.own_letters(&self.both, &mut self.alive);
        living(&self.alive).next()?;
        self.count_few(supply);
        self.fitting(rules).min_by_key(|band| self.few[band.get()])
    }

    fn with_stand_ins(&mut self, supply: &Supply, rules: &IdeaRules) -> Option<BandIx> {
        supply.enough(&self.both, &mut self.alive);
        living(&self.alive).next()?;
        self.count_few(supply);
        let mut bands: Vec<BandIx> = self.fitting(rules).collect();
        bands.sort_by_key(|band| self.few[band.get()]);
        let shares = supply.shares(&self.both);
        bands.into_iter().find(|&band| supply.serves(&shares, Heights::Within(band)))
    }

    /// The bands in question in which no more letters are scarce than may be, the highest first.
    fn fitting(&self, rules: &IdeaRules) -> impl Iterator<Item = BandIx> + '_ {
        let most = rules.scarce.unwrap_or(u32::MAX);
        living(&self.alive).filter(move |band| u32::from(self.few[band.get()]) <= most)
    }

    /// Counts the word's scarce letters, band by band.
    fn count_few(&mut self, supply: &Supply) {
        self.few.clear();
        self.few.resize(self.alive.len(), 0);
        for &(number, letters) in &self.word.needs {
            if weight(supply.character(number)) > 0.0 {
                let letters = u8::try_from(letters).unwrap_or(u8::MAX);
                for (few, &left) in self.few.iter_mut().zip(supply.own_row(number)) {
                    *few += letters * u8::from(left <= Ideas::SCARCE);
                }
            }
        }
    }
}
