//! The chips: each with its character, a swatch in its own colour, how many are left, and marks.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{GridRow, Pane, State, cell_width};
use crate::stash::{ChipIx, Form};

use super::paint::{Paint, chosen, faint, strong};
use super::words::{put, sign};

/// Draws the grid of chips on its pane.
pub(super) fn draw_grid(state: &State, buffer: &mut Buffer) {
    let (pane, grid) = (state.panes().grid, &state.bench.grid);
    let style = if state.bench.pane == Pane::Grid { chosen() } else { strong() };
    let mut heading = format!(" stash {} ", grid.grouping.as_str());
    if grid.fits {
        heading.push_str("· that fit the slot ");
    }
    if !grid.filter.is_open() {
        heading += &format!("· only {} ", grid.filter.text);
    }
    let end = put(buffer, pane.x, pane.y, pane.width.saturating_sub(1), &heading, style);
    let count = format!(" {} kinds", grid.chips().len());
    put(buffer, end, pane.y, (pane.x + pane.width).saturating_sub(end + 1), &count, faint());
    if grid.chips().is_empty() {
        let text = if state.shelf.stash.is_empty() {
            "no letters yet"
        } else {
            "no chip is like that; change the filter (/)"
        };
        put(buffer, pane.x, pane.y + 1, pane.width.saturating_sub(1), text, faint());
        return;
    }
    let rows = grid.rows(state.chips_per_row());
    let shown = rows.iter().skip(grid.top()).take(usize::from(pane.height.saturating_sub(1)));
    for (y, row) in (pane.y + 1..).zip(shown) {
        match row {
            GridRow::Heading(section) => {
                put(buffer, pane.x, y, pane.width.saturating_sub(1), grid.title(*section), strong());
            }
            GridRow::Chips(chips) => {
                let cell = cell_width(state.look.colours);
                for (x, place) in (pane.x..).step_by(usize::from(cell)).zip(chips.clone()) {
                    draw_chip(state, grid.chips()[place], place == grid.chosen(), (x, y), buffer);
                }
            }
        }
    }
}

/// One chip: `[E]2▫·` is a chosen E, two left, a tile, spoken for on a strip.
fn draw_chip(state: &State, chip: ChipIx, is_chosen: bool, (x, y): (u16, u16), buffer: &mut Buffer) {
    let seen = state.shelf.stash.chip(chip);
    let paint = Paint(state.look.colours);
    let tint = &seen.colours()[0];
    let cell = cell_width(state.look.colours);
    let spoken = seen.letter.character.spoken();
    let character = sign(&spoken);
    let (open, close) = if is_chosen { ("[", "]") } else { (" ", " ") };
    let end = put(buffer, x, y, cell, &format!("{open}{character}{close}"), paint.swatch(tint.colour));
    let tile = if seen.sheet.make.form == Form::Tile { "▫" } else { "" };
    let spoken = match state.trial.spoken().times(chip) {
        0 if state.shelf.scene.elsewhere.times(chip) > 0 => "°",
        0 => "",
        _ => "·",
    };
    let style = if is_chosen { strong() } else { Style::new() };
    let left = state.shelf.stash.chip(chip).letter.left;
    let end = put(buffer, end, y, (x + cell).saturating_sub(end), &format!("{left}{tile}{spoken}"), style);
    if !paint.has_colour() {
        put(buffer, end + 1, y, (x + cell).saturating_sub(end + 2), &tint.name(), Style::new());
    }
}
