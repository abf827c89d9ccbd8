//! Thin lines on a sheet of paper that is drawn small, as the characters that frames are made of: thinner than any stroke of
//! a letter, and told apart from it without colour.
//!
//! Must not know what a line is for.

use std::collections::BTreeMap;

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{PageMap, PaperLine};

/// The characters by the arms that they have: up 1, right 2, down 4, left 8.
const ARMS: [&str; 16] = [" ", "╵", "╶", "└", "╷", "│", "┌", "├", "╴", "┘", "─", "┴", "┐", "┤", "┬", "┼"];
const UP: usize = 1;
const RIGHT: usize = 2;
const DOWN: usize = 4;
const LEFT: usize = 8;

/// A line is walked in so many steps at most: more than a sheet of paper takes.
const FARTHEST: f64 = 20_000.0;

/// A cell of the sheet: column and row.
type At = (i32, i32);

/// Lines from cell to cell: for each the arms that it has.
pub(super) struct Lines(BTreeMap<At, usize>);

impl Lines {
    /// Lines given by their ends in mm.
    pub(super) fn of(lines: &[PaperLine], map: &PageMap) -> Self {
        let mut walked = Self(BTreeMap::new());
        for &(from, to) in lines {
            walked.line(map.place(from), map.place(to));
        }
        walked
    }

    /// A line given by its ends in cells.
    fn line(&mut self, from: (f64, f64), to: (f64, f64)) {
        let (across, down) = (to.0 - from.0, to.1 - from.1);
        // Four looks a cell, so that none is passed over.
        let steps = (across.abs().max(down.abs()) * 4.0).ceil().clamp(1.0, FARTHEST);
        let (first, mut step) = (cell(from), 0.0);
        let mut here = first;
        while step < steps {
            step += 1.0;
            let share = step / steps;
            let next = cell((from.0 + across * share, from.1 + down * share));
            self.join(here, (next.0, here.1));
            self.join((next.0, here.1), next);
            here = next;
        }
        if here == first {
            // A line within one cell shows which way it runs. A cell is twice as high as wide.
            let arms = if across.abs() > down.abs() * 2.0 { LEFT | RIGHT } else { UP | DOWN };
            self.arm(here, arms);
        }
    }

    /// Joins two cells beside each other, or the same.
    fn join(&mut self, from: At, to: At) {
        let arms = match (to.0 - from.0, to.1 - from.1) {
            (1, 0) => (RIGHT, LEFT),
            (-1, 0) => (LEFT, RIGHT),
            (0, 1) => (DOWN, UP),
            (0, -1) => (UP, DOWN),
            _ => return,
        };
        self.arm(from, arms.0);
        self.arm(to, arms.1);
    }

    fn arm(&mut self, at: At, arms: usize) {
        *self.0.entry(at).or_default() |= arms;
    }

    /// Whether one runs through a cell.
    pub(super) fn runs_through(&self, at: At) -> bool {
        self.0.contains_key(&at)
    }

    /// Draws them in the cells of the sheet that are `free`.
    pub(super) fn draw(&self, map: &PageMap, style: Style, free: impl Fn(At) -> bool, buffer: &mut Buffer) {
        for (&at, &arms) in self.0.iter().filter(|(at, _)| free(**at)) {
            let (Ok(column), Ok(row)) = (u16::try_from(at.0), u16::try_from(at.1)) else { continue };
            if let Some(cell) = buffer.cell_mut((map.area.x + column, map.area.y + row)) {
                cell.set_symbol(ARMS[arms]).set_style(style);
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "saturates")]
fn cell((across, down): (f64, f64)) -> At {
    // What lies far beside the sheet stays countable.
    let near = |place: f64| place.floor().clamp(-1e6, 1e6) as i32;
    (near(across), near(down))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::Area;

    fn drawn(lines: &[PaperLine]) -> String {
        let area = Area { x: 0, y: 0, width: 5, height: 3 };
        let map = PageMap { area, scale: (1.0, 1.0), corner: (0.0, 0.0) };
        let mut buffer = Buffer::empty(ratatui::layout::Rect::new(0, 0, 5, 3));
        let is_on = |(column, row): At| (0..5).contains(&column) && (0..3).contains(&row);
        Lines::of(lines, &map).draw(&map, Style::new(), is_on, &mut buffer);
        let rows = buffer.content.chunks(5);
        rows.map(|row| row.iter().map(ratatui::buffer::Cell::symbol).collect::<String>() + "\n").collect()
    }

    #[test]
    fn a_box_a_bar_and_a_slope() {
        let (a, b, c, d) = ((0.5, 0.5), (4.5, 0.5), (4.5, 2.5), (0.5, 2.5));
        assert_eq!(drawn(&[(a, b), (b, c), (c, d), (d, a)]), "┌───┐\n│   │\n└───┘\n");
        let tick = |x: f64| ((x, 1.2), (x, 1.9));
        assert_eq!(drawn(&[((0.5, 1.5), (4.5, 1.5)), tick(0.5), tick(4.5)]), "     \n├───┤\n     \n");
        assert_eq!(drawn(&[((0.5, 0.5), (2.5, 2.5))]), "╶┐   \n └┐  \n  ╵  \n");
    }
}
