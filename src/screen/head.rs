//! The first line: the views, what is open, whether it is saved, the scores.
//!
//! Must not know what a view shows.

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::State;

use super::paint::{chosen, faint, strong};
use super::words::put;

/// Draws the first line.
pub(super) fn draw_head(state: &State, buffer: &mut Buffer) {
    let (area, line) = (state.panes().head, state.head_line());
    let mut x = area.x;
    for (view, name) in &line.views {
        let style = if *view == state.look.view { chosen() } else { faint() };
        x = put(buffer, x, area.y, area.width.saturating_sub(x), name, style) + 1;
    }
    let end = put(buffer, x, area.y, area.width.saturating_sub(x), &line.open, strong());
    let wide = u16::try_from(line.told.width()).unwrap_or(area.width);
    let x = area.width.saturating_sub(wide).max(end + 2);
    put(buffer, x, area.y, area.width.saturating_sub(x), &line.told, Style::new());
}
