//! One word judged in one way, in room that is kept from one to the next.
//!
//! Must not know the list.

use crate::letter::weight;

use super::super::Verdict;
use super::super::band::BandIx;
use super::super::demand::Demand;
use super::super::look::Wanted;
use super::super::stock::Supply;
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
    wanted: Wanted,
}

impl Room {
    /// Judges the word as it stands here: by its own letters, or else with stand-ins. Of the bands that spell it that counts in which
    /// the fewest of its letters are scarce, and of those the one of the largest letters.
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
        let mut best: Option<(u32, BandIx)> = None;
        supply.bands_that_meet(&self.both, stand_ins, &mut self.wanted, |band| {
            let scarce = scarce(supply, (&self.word, beside), band);
            if best.is_none_or(|(fewest, _)| scarce < fewest) {
                best = Some((scarce, band));
            }
            scarce == 0
        });
        let (scarce, place) = best?;
        if rules.scarce.is_some_and(|most| scarce > most) {
            return None;
        }
        let verdict = if stand_ins { Verdict::StandIns } else { Verdict::Now };
        Some(Idea { text: self.text.clone(), verdict, band: supply.bands()[place.get()], place, scarce })
    }
}

/// How many letters of `word` are scarce in a band, those that are wanted `beside` it being gone.
fn scarce(supply: &Supply, (word, beside): (&Demand, &Demand), band: BandIx) -> u32 {
    let gone = |number: u16| beside.needs.iter().find(|need| need.0 == number).map_or(0, |need| need.1);
    let left = |number: u16| u32::from(supply.own_in(number, band)).saturating_sub(gone(number));
    let is_scarce =
        |number: u16| left(number) <= u32::from(Ideas::SCARCE) && weight(supply.character(number)) > 0.0;
    word.needs.iter().filter(|need| is_scarce(need.0)).map(|need| need.1).sum()
}
