//! The strip to scale: which cell of the screen shows which place on the carrier.
//!
//! A cell is taken to be twice as high as wide, so one scale serves both directions. Must not know how letters are drawn.

use crate::measure::Length;
use crate::title::{Layout, LetterBox};

use super::panes::Area;
use super::state::State;

/// The fewest rows that the tallest letter of a line takes; a strip too long to show so large is scrolled.
const FEWEST_ROWS: f64 = 3.0;
/// Bare carrier shown around the letters, in mm.
const MARGIN: f64 = 2.0;

/// How the chosen strip lies on the screen.
#[derive(Debug, Clone)]
pub struct StripMap {
    /// Where the letters lie on the strip.
    pub layout: Layout,
    /// The cells that the letters are drawn on; the ruler lies under them, then the slots' characters.
    pub area: Area,
    /// Millimetres that one column shows.
    pub mm_per_column: f64,
    /// The place on the strip of the left edge of the area, in mm.
    pub left: f64,
    /// The place on the strip of the upper edge of the area, in mm above the feet of the first line.
    pub top: f64,
    /// Whether part of the strip lies beyond the left edge, and beyond the right.
    pub beyond: (bool, bool),
}

impl StripMap {
    /// Lays the chosen strip on its pane; the chosen slot is always seen.
    #[must_use]
    pub fn of(state: &State) -> Self {
        let pane = state.panes().strip;
        let area = Area { y: pane.y + 1, height: pane.height.saturating_sub(3), ..pane };
        let (strip, slot) = state.strip_shown();
        Self::lay(Layout::of(strip, &state.shelf.stash), area, slot)
    }

    /// Lays a strip on `area` so that `slot` is seen.
    #[must_use]
    pub fn lay(layout: Layout, area: Area, slot: usize) -> Self {
        let (left, bottom, right, top) = layout.bounds();
        let [left, bottom, right, top] = [left, bottom, right, top].map(Length::mm);
        let (width, height) = (right - left + 2.0 * MARGIN, (top - bottom).max(1.0));
        let (columns, rows) = (f64::from(area.width.max(1)), f64::from(area.height.max(1)));
        let whole = (width / columns).max(height / rows / 2.0);
        #[expect(clippy::cast_precision_loss, reason = "one line or two")]
        let readable = height / layout.lines.len().max(1) as f64 / FEWEST_ROWS / 2.0;
        let mm_per_column = whole.min(readable.max(height / rows / 2.0));
        let shown = columns * mm_per_column;
        let start = left - MARGIN;
        let centre = layout.letters.get(slot).map_or(0.0, |letter| (letter.left + letter.width / 2).mm());
        let scrolled = width > shown + 1e-9;
        let from = if scrolled {
            (centre - shown / 2.0).clamp(start, start + width - shown)
        } else {
            start - (shown - width) / 2.0
        };
        let beyond = (from > start + 1e-9 && scrolled, from + shown + 1e-9 < start + width);
        // Letters stand in the middle of the rows that are left over.
        let spare = rows * 2.0 * mm_per_column - height;
        Self { layout, area, mm_per_column, left: from, top: top + spare / 2.0, beyond }
    }

    /// The column, as a fraction, of a place along the strip; may lie outside of the area.
    #[must_use]
    pub fn column(&self, along: Length) -> f64 {
        (along.mm() - self.left) / self.mm_per_column
    }

    /// The slot whose letter is drawn at a cell, or whose column it is on the ruler below.
    #[must_use]
    pub fn slot_at(&self, column: u16, row: u16) -> Option<usize> {
        let along = self.left + (f64::from(column - self.area.x) + 0.5) * self.mm_per_column;
        let up = self.top - (f64::from(row.saturating_sub(self.area.y)) + 0.5) * self.mm_per_column * 2.0;
        let below = row >= self.area.y + self.area.height;
        let slack = self.mm_per_column;
        let holds = |letter: &LetterBox| {
            let across =
                letter.left.mm() - slack / 2.0 <= along && along <= letter.right().mm() + slack / 2.0;
            across && (below || (letter.bottom.mm() - slack <= up && up <= letter.top().mm() + slack))
        };
        self.layout.letters.iter().position(holds)
    }
}
