//! The list of sheets, the spent ones last.
//!
//! Must not know what a sheet holds beyond how many letters are left.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Area, State};
use crate::checks::tell_length;
use crate::stash::Sheet;

use super::super::paint::{Paint, chosen, faint, strong};
use super::super::words::{fit, put};

/// Draws the list.
pub(super) fn draw(state: &State, area: Area, buffer: &mut Buffer) {
    let sheets = state.shelf.stash.sheets();
    let end = put(buffer, area.x, area.y, area.width, " sheets ", strong());
    let left: u32 = sheets.iter().map(Sheet::left).sum();
    let told = match (sheets.len(), state.sheets.find.is_empty()) {
        (0, _) => " none yet: a counts in the first".to_owned(),
        (count, true) => format!(" {count}, {left} letters left"),
        (count, false) => format!(" {} of {count} with \"{}\"", state.sheets.places.len(), state.sheets.find),
    };
    put(buffer, end, area.y, (area.x + area.width).saturating_sub(end), &told, faint());
    let rows = state.sheet_rows();
    let shown = state.sheets.places.iter().enumerate().skip(state.sheets.top).take(rows);
    for (y, (row, &place)) in (area.y + 1..).zip(shown) {
        draw_row(state, &sheets[place], row == state.sheets.chosen, Area { y, height: 1, ..area }, buffer);
    }
}

/// One row: a mark, a swatch, the tag, the name, the height, how many letters are left.
fn draw_row(state: &State, sheet: &Sheet, is_chosen: bool, row: Area, buffer: &mut Buffer) {
    let end = row.x + row.width;
    let paint = Paint(state.look.colours);
    let style = match (is_chosen, sheet.left() == 0 || sheet.label.aside) {
        (true, _) => chosen(),
        (false, true) => faint(),
        (false, false) => Style::new(),
    };
    let x = put(buffer, row.x, row.y, 1, if is_chosen { ">" } else { " " }, strong());
    let x = put(buffer, x, row.y, 2, "Aa", paint.swatch(sheet.paint.colours[0].colour));
    let told = match (sheet.label.aside, sheet.left()) {
        (true, left) => format!("aside {left:>3}"),
        (false, 0) => "spent".to_owned(),
        (false, left) => format!("{left:>3}"),
    };
    let height = tell_length(sheet.size.height, state.unit());
    let told = format!("{height:>8} {told:>6}");
    let x = put(buffer, x, row.y, 1, " ", style);
    let room = usize::from(end.saturating_sub(x));
    let tag = sheet.label.tag.as_deref().unwrap_or("");
    let name = format!("{tag:<3} {}", sheet.name());
    let name = fit(&name, room.saturating_sub(told.chars().count() + 1).max(4));
    put(buffer, x, row.y, end.saturating_sub(x), &format!("{name} {told}"), style);
}
