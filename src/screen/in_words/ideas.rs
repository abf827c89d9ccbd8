//! Words that can be spelled now, as they are found.
//!
//! Must not know how they are looked for.

use ratatui::buffer::Buffer;

use crate::app::{Area, State, WordingList};

use super::super::paint::{chosen, faint, strong};
use super::super::words::{fit, put};

/// Draws them.
pub(super) fn draw(state: &State, area: Area, buffer: &mut Buffer) {
    let has_keys = state.wordings.list == WordingList::Ideas;
    let heading = if has_keys { chosen() } else { strong() };
    let end = put(buffer, area.x, area.y, area.width, " ideas ", heading);
    put(buffer, end + 1, area.y, (area.x + area.width).saturating_sub(end + 1), "g looks for some", faint());
    let _ = fit("", 0);
}
