//! The order's view: the placement order in words, the sheets of paper as they will print, and what is chosen of both.
//!
//! Must not know how an order is made or drawn.

use crate::measure::{Polygon, Unit};
use crate::order::Form;
use crate::page::Paper;

use super::lists::{Scroll, step};
use super::view::View;

/// The placement order as it is looked at.
#[derive(Debug, Clone)]
pub struct OrderView {
    /// The form that it is saved in.
    pub form: Form,
    /// The order in words, and how far they are scrolled.
    pub words: Scroll,
    /// The sheets of paper as they will print, none where it is text alone; or why there can be none.
    pub sheets: Result<Vec<SheetPicture>, String>,
    /// The chosen sheet, from 0.
    pub chosen: usize,
    /// How many rows of it are passed over where it is looked at from near.
    pub(super) down: u16,
    /// Which look has the keys; on a narrow screen only that one is seen.
    pub side: OrderSide,
    /// The paper; `None`: nobody has chosen one yet.
    pub(super) paper: Option<Paper>,
    /// The view to go back to.
    pub(super) came_from: View,
    /// What it was made from; `None`: something else is new.
    pub(super) made_from: Option<MadeFrom>,
}

/// The looks of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum OrderSide {
    /// What it says.
    #[default]
    Words,
    /// The sheets of paper as they will print.
    Sheets,
    /// One of them from near: as wide as the screen, and longer than it.
    Near,
}

/// A straight line on a sheet of paper, by its ends in mm.
pub type PaperLine = ((f64, f64), (f64, f64));

/// A sheet of paper as it will print, drawn small. Millimetres from its upper left corner, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetPicture {
    /// What is on it, in a few words.
    pub told: String,
    /// How wide it is.
    pub width: f64,
    /// How high it is.
    pub height: f64,
    /// What is written on it.
    pub writing: Vec<Writing>,
    /// Closed outlines, each a set of polygons by the non-zero rule.
    pub shapes: Vec<Vec<Polygon>>,
    /// Its thin lines.
    pub lines: Vec<PaperLine>,
}

/// A line of writing on a sheet of paper, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Writing {
    /// The left end of its baseline.
    pub at: (f64, f64),
    /// How wide it runs.
    pub width: f64,
    /// How large the letters are.
    pub size: f64,
    /// What it says.
    pub text: String,
    /// Whether it stands out, as a heading does.
    pub strong: bool,
}

/// What an order was made from, the stash apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct MadeFrom {
    pub(super) trial: u64,
    pub(super) slug: Option<String>,
    pub(super) unit: Unit,
    pub(super) form: Form,
    pub(super) paper: Paper,
}

impl Default for OrderView {
    fn default() -> Self {
        Self {
            form: Form::Pdf,
            words: Scroll::default(),
            sheets: Ok(Vec::new()),
            chosen: 0,
            down: 0,
            side: OrderSide::Words,
            paper: None,
            came_from: View::Bench,
            made_from: None,
        }
    }
}

impl OrderView {
    /// How many sheets of paper there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.sheets.as_ref().map_or(0, Vec::len)
    }

    /// The chosen sheet.
    #[must_use]
    pub fn sheet(&self) -> Option<&SheetPicture> {
        self.sheets.as_ref().ok()?.get(self.chosen)
    }

    /// Goes `by` sheets on, or back; another sheet is seen from its upper edge on.
    pub(super) fn walk_sheets(&mut self, by: isize) {
        self.choose(step(self.chosen, by, self.count()));
    }

    /// Chooses a sheet.
    pub(super) fn choose(&mut self, sheet: usize) {
        if self.chosen != sheet {
            (self.chosen, self.down) = (sheet, 0);
        }
    }
}
