//! Which wishes can be made together: the most of them, each within one band of heights, no sticker used twice.
//!
//! Exact, with proof, unless it is stopped early; then the most found so far, and how many there can be at most. Must not know
//! clocks: how far to go is told in steps.

mod matching;
mod node;
mod prices;
mod pricing;
mod search;
mod spans;
mod table;
mod tries;

use super::band::BandIx;
use super::demand::Demand;
use super::stock::Supply;

use matching::leave_out_what_cannot_be;
use node::State;
use search::Search;
use table::Table;

/// A wish that is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Made {
    /// Its place among the wishes.
    pub wish: usize,
    /// The band of its letters; `None` where none of them has a height that counts.
    pub band: Option<BandIx>,
}

/// A search for the most wishes that can be made together. It keeps all it needs, and can be gone on with at any time.
#[derive(Debug, Clone)]
pub struct Together {
    table: Table,
    search: Search,
    best: Vec<Made>,
    /// Wishes that must be made, while it is not yet known that they can be; with `None` it is.
    asked: Option<Vec<usize>>,
    refused: Vec<usize>,
}

impl Together {
    /// Asks for the most of `wishes`, demands made for `supply`, among the sets that hold all of `must`, places in the list.
    #[must_use]
    pub fn new(supply: &Supply, wishes: &[Demand], must: &[usize]) -> Self {
        let mut table = Table::new(supply, wishes);
        leave_out_what_cannot_be(&mut table);
        let table = table.pared();
        let mut asked: Vec<usize> = must.iter().copied().filter(|&wish| wish < wishes.len()).collect();
        asked.sort_unstable();
        asked.dedup();
        // First as many of those that must be as can be; then the others beside them.
        let is_asked = |wish: usize| asked.is_empty() || asked.binary_search(&wish).is_ok();
        let state = |wish: usize| if is_asked(wish) { State::Open } else { State::Out };
        let search = Search::new(&table, (0..wishes.len()).map(state).collect(), Vec::new());
        let asked = Some(asked).filter(|asked| !asked.is_empty());
        let mut together = Self { table, search, best: Vec::new(), asked, refused: Vec::new() };
        together.turn_to_the_others();
        together
    }

    /// Goes on for about so many steps, of about a microsecond; whether it is done: the answer is proven. With no steps nothing is
    /// done; a single one finds the first wishes. What is begun is ended: of a thousand wishes of letters of hundreds of heights a
    /// single one may take a second.
    pub fn advance(&mut self, steps: u64) -> bool {
        let end = self.search.steps().saturating_add(steps);
        while !self.is_proven() && self.search.steps() < end {
            self.search.go_on(&self.table);
            if self.search.is_done() {
                let done = self.search.steps();
                if self.turn_to_the_others() {
                    // Its steps are counted afresh.
                    return self.advance(end.saturating_sub(done));
                }
            }
        }
        self.tell();
        self.is_proven()
    }

    /// The most wishes found so far that can be made together, by their places.
    #[must_use]
    pub fn best(&self) -> &[Made] {
        &self.best
    }

    /// No more wishes than this can be made together.
    #[must_use]
    pub fn bound(&self) -> usize {
        if self.asked.is_none() {
            return self.search.bound();
        }
        self.table.wishes.iter().filter(|wish| !wish.options.is_empty()).count()
    }

    /// Whether no more can be made than were found.
    #[must_use]
    pub fn is_proven(&self) -> bool {
        self.asked.is_none() && self.search.is_done()
    }

    /// Wishes that must be made but cannot be, alone or together with the others that must; they are left out. Empty until that is
    /// known.
    #[must_use]
    pub fn refused(&self) -> &[usize] {
        &self.refused
    }

    /// Once it is known how many of the wishes that must be can be: asks for the most beside them.
    fn turn_to_the_others(&mut self) -> bool {
        if !self.search.is_done() {
            return false;
        }
        let Some(asked) = self.asked.take() else { return false };
        let best = self.search.best().to_vec();
        let is_made = |wish: usize| best.iter().any(|made| made.0 == wish);
        self.refused = asked.iter().copied().filter(|&wish| !is_made(wish)).collect();
        let state = |wish: usize| match (is_made(wish), asked.contains(&wish)) {
            (true, _) => State::In,
            (_, true) => State::Out,
            _ => State::Open,
        };
        self.search = Search::new(&self.table, (0..self.table.wishes.len()).map(state).collect(), best);
        self.tell();
        true
    }

    fn tell(&mut self) {
        let made = |&(wish, option): &(usize, u16)| Made { wish, band: self.table.band(wish, option) };
        self.best = self.search.best().iter().map(made).collect();
        self.best.sort_unstable_by_key(|made| made.wish);
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::stash::{ChipIx, Sheet, Stash};
    use crate::supply::restock::tests::{asking, sheet};
    use crate::title::Wording;

    fn search(sheets: Vec<Sheet>, wishes: &[&str], must: &[usize]) -> (Supply, Together) {
        let supply = Supply::new(&Stash::new(sheets), asking(), |_: ChipIx| 0);
        let demand = |text: &&str| supply.demand(&Wording::new(text).unwrap());
        let demands: Vec<Demand> = wishes.iter().map(demand).collect();
        let together = Together::new(&supply, &demands, must);
        (supply, together)
    }

    fn made(together: &Together) -> Vec<usize> {
        together.best().iter().map(|made| made.wish).collect()
    }

    #[test]
    fn a_trimmed_q_does_not_serve_two_wishes() {
        let (_, mut together) = search(vec![sheet("kelp", "PPIIEERRQQO")], &["PIERO", "QIP", "ORE"], &[]);
        assert!(together.advance(100_000));
        assert_eq!((made(&together), together.bound()), (vec![0, 1, 2], 3));
        let (_, mut together) = search(vec![sheet("kelp", "PPIIEERRQO")], &["PIERO", "QIP", "ORE"], &[]);
        assert!(together.advance(100_000));
        assert_eq!((together.best().len(), together.bound()), (2, 2));
    }

    #[test]
    fn each_wish_has_a_band_of_its_own() {
        let mut tall = sheet("tall", "TIDEA");
        tall.size.height = tall.size.height * 2;
        let (supply, mut together) =
            search(vec![tall, sheet("low", "PIERB")], &["TIDE", "PIER", "BE A", "!"], &[]);
        assert!(together.advance(100_000));
        assert_eq!(made(&together), [0, 1], "B and A are of unlike heights, and there is no sign");
        let low = |place: usize| supply.bands()[together.best()[place].band.unwrap().get()].low;
        assert!(low(0) > low(1));
        assert_eq!(low(0).ratio(low(1)).get(), 200);
    }

    #[test]
    fn what_must_be_made_is_made_or_refused() {
        let letters = || vec![sheet("kelp", "TTIIDDESPAN")];
        let wishes = ["TIDES", "TIDE", "PAN", "DATE", "JAZZ"];
        let (_, mut together) = search(letters(), &wishes, &[3, 3, 9]);
        assert!(together.advance(100_000));
        assert!(made(&together).contains(&3) && together.refused().is_empty());
        let (_, mut together) = search(letters(), &wishes, &[0, 1, 4]);
        assert!(together.advance(100_000));
        assert_eq!(together.refused().len(), 2, "there is one E, and no J");
        assert_eq!(together.best().len(), 2);
    }

    #[test]
    fn nothing_is_wished_for_or_asked() {
        let (_, mut together) = search(Vec::new(), &[], &[]);
        assert!(together.is_proven() && together.advance(0) && together.best().is_empty());
        let (_, mut together) = search(Vec::new(), &["", "A"], &[]);
        assert!(together.advance(1_000));
        assert_eq!(together.best(), [Made { wish: 0, band: None }]);
    }
}
