//! The stash's view: the sheets with what is left of each, and the sheet that is chosen or in hand.
//!
//! Must not know what a key does.

mod in_hand;
mod list;
mod one;

use ratatui::buffer::Buffer;
use ratatui::layout::Position;

use crate::app::{Area, State};

/// Draws the stash's view; gives back where the cursor stands while letters are counted.
pub(super) fn draw_stash(state: &State, buffer: &mut Buffer) -> Option<Position> {
    let (columns, rows) = (state.look.columns, state.look.rows.saturating_sub(3));
    let whole = Area { x: 0, y: 1, width: columns, height: rows };
    if let Some(counting) = &state.sheets.counting {
        return in_hand::draw(state, counting, whole, buffer);
    }
    let side = if columns >= 120 { columns * 2 / 5 } else { columns * 9 / 20 };
    let list = Area { width: columns - side - 1, ..whole };
    list::draw(state, list, buffer);
    one::draw(state, Area { x: columns - side, width: side, ..whole }, buffer);
    None
}
