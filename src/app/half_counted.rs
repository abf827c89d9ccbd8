//! What is kept of a sheet that is being counted, and going on with it after an ending that nobody chose.
//!
//! Must not know where it is kept.

use crate::stash::{HalfCounted, Way};

use super::asking::Question;
use super::counting::{Count, Counting};
use super::over::Over;
use super::state::State;
use super::view::View;

impl State {
    /// The sheet that is being counted, as far as it has come; `None` where no letter is counted.
    #[must_use]
    pub fn half_counted(&self) -> Option<HalfCounted> {
        self.sheets.counting.as_ref()?.half(self.shelf.ledger.last())
    }

    /// Whether what is kept of a sheet being counted differs from what there is of it, be it nothing.
    #[must_use]
    pub fn is_count_unkept(&self) -> bool {
        self.half_counted().as_ref() != self.sheets.kept.as_deref()
    }

    /// What there is of a sheet being counted was kept; where there is nothing, what was kept was taken away.
    pub fn count_was_kept(&mut self) {
        self.sheets.kept = self.half_counted().map(Box::new);
    }

    /// Asks whether to go on counting a sheet that was kept, once nothing else is asked; `false` where the stash no longer
    /// has the sheet.
    pub fn offer_count(&mut self, half: &HalfCounted) -> bool {
        let counting = Counting::resumed(half, &self.shelf.stash, &self.shelf.names);
        self.sheets.offered = counting.map(Box::new);
        self.ask_to_go_on_counting();
        self.sheets.offered.is_some()
    }

    /// Asks that, where it is to be asked and no trial is asked about.
    pub fn ask_to_go_on_counting(&mut self) {
        let Some(counting) = &self.sheets.offered else { return };
        if !matches!(self.over, Over::Question(Question::GoOnWithTrial)) {
            self.over = Over::Question(Question::GoOnCounting(counting.told()));
        }
    }

    /// Goes on with the sheet that was offered: it is in hand again.
    pub(super) fn go_on_counting(&mut self) {
        let Some(counting) = self.sheets.offered.take() else { return };
        self.look.view = View::Stash;
        if counting.count != Count::New {
            self.sheets.list(&self.shelf.stash, Some(&counting.sheet.id));
        }
        self.scroll_sheets();
        self.sheets.counting = Some(counting);
        self.count_was_kept();
        self.say("gone on where the counting ended; backspace takes a letter back, enter is the end");
    }

    /// The sheet that was offered is let go.
    pub(super) fn let_the_offered_go(&mut self) {
        self.sheets.offered = None;
        if self.shelf.stash.is_empty() {
            self.over = Over::Question(Question::TrySample);
        }
    }
}

impl Count {
    /// What is kept of it; `None` where no letters are counted.
    pub(super) const fn way(self) -> Option<Way> {
        match self {
            Self::New => Some(Way::New),
            Self::Anew => Some(Way::Anew),
            Self::More => Some(Way::More),
            Self::Fewer => Some(Way::Fewer),
            Self::Told => None,
        }
    }

    pub(super) const fn of_way(way: Way) -> Self {
        match way {
            Way::New => Self::New,
            Way::Anew => Self::Anew,
            Way::More => Self::More,
            Way::Fewer => Self::Fewer,
        }
    }
}
