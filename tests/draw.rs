//! What made-up cases are drawn with: a stream of numbers from a seed, and letters put on a strip.
//!
//! Must not know what is made up, nor what for.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

use oddment::measure::Length;
use oddment::page::Page;
use oddment::plan::{History, Plan, PlanEdit};
use oddment::title::{Edit, Stood, Strip};

/// A stream of draws from a seed (`SplitMix64`, Steele, Lea and Flood 2014; constants from memory).
pub(crate) struct Draw(u64);

impl Draw {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub(crate) fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.next() % most as u64).unwrap()
    }

    pub(crate) fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    pub(crate) fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }

    /// Whole millimetres from `least` up to `most`.
    pub(crate) fn mm(&mut self, least: usize, most: usize) -> Length {
        Length::from_mm(i64::try_from(least + self.below(most - least + 1)).unwrap())
    }
}

/// `strip` with these letters.
pub(crate) fn filled(strip: Strip, letters: Vec<Option<Stood>>) -> Strip {
    let edit = Edit::Wording(strip.wording().clone(), letters);
    let mut plan = Plan::new(None, Page::default(), vec![strip]).unwrap();
    History::default().make(&mut plan, PlanEdit::Strip(0, edit));
    plan.strips()[0].clone()
}
