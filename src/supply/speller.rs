//! One wording after the other, quickly: whether each can be spelled.
//!
//! Must not know what stands in; [`super::Answer`] tells that.

use crate::title::WordingError;

use super::Verdict;
use super::band::BandIx;
use super::demand::Demand;
use super::look::Wanted;
use super::stock::Supply;

/// Judges wordings; keeps its working room from one to the next.
#[derive(Debug)]
pub struct Speller<'a> {
    supply: &'a Supply,
    beside: Demand,
    demand: Demand,
    wanted: Wanted,
}

impl<'a> Speller<'a> {
    /// Judges by `supply`.
    #[must_use]
    pub fn new(supply: &'a Supply) -> Self {
        Self { supply, beside: Demand::default(), demand: Demand::default(), wanted: Wanted::default() }
    }

    /// Judges wordings that are to stand beside what `beside` wants, in one band of heights with it.
    #[must_use]
    pub fn beside(supply: &'a Supply, beside: Demand) -> Self {
        Self { beside, ..Self::new(supply) }
    }

    /// Whether `text` can be spelled, and the band of the largest letters that spells it so.
    ///
    /// # Errors
    /// When `text` is no wording.
    pub fn judge(&mut self, text: &str) -> Result<(Verdict, Option<BandIx>), WordingError> {
        self.supply.read(text, &mut self.demand)?;
        self.demand.add(&self.beside);
        Ok(self.supply.judge(&self.demand, &mut self.wanted))
    }
}
