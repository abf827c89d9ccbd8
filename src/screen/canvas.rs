//! A drawing finer than cells: each cell holds two by two points.
//!
//! Must not know what is drawn.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::Area;
use crate::measure::{Colour, Lines, Polygon};

use super::paint::Paint;

/// The block characters by which points are inked: upper left 1, upper right 2, lower left 4, lower right 8.
const BLOCKS: [&str; 16] = [" ", "▘", "▝", "▀", "▖", "▌", "▞", "▛", "▗", "▚", "▐", "▜", "▄", "▙", "▟", "█"];

/// What one point holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Dot {
    /// Nothing: the terminal's own background.
    Clear,
    /// A colour; drawn in the terminal's foreground where there are none.
    Ink(Colour),
    /// A colour that is left clear where there are none: the ground, a letter on its tile.
    Ground(Colour),
}

/// Points, row by row, from the upper left.
#[derive(Debug, Clone)]
pub(super) struct Canvas {
    columns: usize,
    rows: usize,
    dots: Vec<Dot>,
}

impl Canvas {
    /// A canvas for `area`, all of it `ground`.
    pub(super) fn new(area: Area, ground: Dot) -> Self {
        let (columns, rows) = (usize::from(area.width) * 2, usize::from(area.height) * 2);
        Self { columns, rows, dots: vec![ground; columns * rows] }
    }

    /// Fills closed polygons, given in points, by the non-zero rule. A point is inked where a third of it is covered, so
    /// that a thin stroke does not fall between two rows.
    pub(super) fn fill(&mut self, polygons: &[Polygon], dot: Dot) {
        let share = 1.0 / f64::from(LINES);
        let lines = Lines { start: share / 2.0, step: share, count: self.rows * LINES as usize };
        let mut covered = vec![0.0; self.columns];
        let mut row = 0;
        lines.across(polygons, |line, from, to| {
            let here = line / LINES as usize;
            if here != row {
                self.ink(row, &mut covered, dot);
                row = here;
            }
            cover(&mut covered, from, to);
        });
        self.ink(row, &mut covered, dot);
    }

    /// Inks the points of a row that are covered enough, and forgets what was covered.
    fn ink(&mut self, row: usize, covered: &mut [f64], dot: Dot) {
        let Some(dots) = self.dots.get_mut(row * self.columns..(row + 1) * self.columns) else { return };
        for (place, covered) in dots.iter_mut().zip(covered) {
            if *covered * 3.0 >= f64::from(LINES) {
                *place = dot;
            }
            *covered = 0.0;
        }
    }

    /// Whether all points of a cell, given by its column and row, are `dot`.
    pub(super) fn is_all(&self, at: (i32, i32), dot: Dot) -> bool {
        self.cell(at).is_some_and(|dots| dots == [dot; 4])
    }

    /// Whether a cell, given by its column and row, is one of the canvas.
    pub(super) fn is_on(&self, at: (i32, i32)) -> bool {
        self.cell(at).is_some()
    }

    /// How many points of a cell are inked.
    pub(super) fn inked(&self, at: (i32, i32)) -> usize {
        let inked = |dots: [Dot; 4]| dots.iter().filter(|dot| matches!(dot, Dot::Ink(_))).count();
        self.cell(at).map_or(0, inked)
    }

    /// The points of a cell; `None` where it lies beside the canvas.
    fn cell(&self, (column, row): (i32, i32)) -> Option<[Dot; 4]> {
        let (column, row) = (usize::try_from(column).ok()? * 2, usize::try_from(row).ok()? * 2);
        let is_on = column < self.columns && row < self.rows;
        let at = |dx: usize, dy: usize| self.dots[(row + dy) * self.columns + column + dx];
        is_on.then(|| [at(0, 0), at(1, 0), at(0, 1), at(1, 1)])
    }

    /// Puts the points on the screen.
    pub(super) fn show(&self, area: Area, buffer: &mut Buffer, paint: Paint) {
        for row in 0..usize::from(area.height) {
            for column in 0..usize::from(area.width) {
                let at = |dx: usize, dy: usize| self.dots[(row * 2 + dy) * self.columns + column * 2 + dx];
                let (block, style) = cell([at(0, 0), at(1, 0), at(0, 1), at(1, 1)], paint);
                #[expect(clippy::cast_possible_truncation, reason = "within the area")]
                let place = (area.x + column as u16, area.y + row as u16);
                if let Some(cell) = buffer.cell_mut(place) {
                    cell.set_symbol(block).set_style(style);
                }
            }
        }
    }
}

/// Scan lines in a row of points.
const LINES: u32 = 4;

/// Adds to each point of a row how much of it lies between two places.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "saturates, and is cut to the row"
)]
fn cover(covered: &mut [f64], from: f64, to: f64) {
    let first = from.floor().max(0.0) as usize;
    let last = (to.ceil().max(0.0) as usize).min(covered.len());
    for (place, covered) in covered.iter_mut().enumerate().take(last).skip(first) {
        let left = place as f64;
        *covered += (to.min(left + 1.0) - from.max(left)).max(0.0);
    }
}

/// The block and its colours for four points: the most frequent thing is the ground, the next the ink.
fn cell(dots: [Dot; 4], paint: Paint) -> (&'static str, Style) {
    if !paint.has_colour() {
        let mask: usize =
            (0..4).filter(|&place| matches!(dots[place], Dot::Ink(_))).map(|place| 1 << place).sum();
        return (BLOCKS[mask], Style::new());
    }
    let count = |dot: Dot| dots.iter().filter(|&&other| other == dot).count();
    let ground = dots.into_iter().max_by_key(|&dot| (count(dot), dot == Dot::Clear)).unwrap_or(Dot::Clear);
    let ink = dots.into_iter().filter(|&dot| dot != ground).max_by_key(|&dot| count(dot));
    // The terminal's own background can only be a ground.
    let (ground, ink) = match ink {
        Some(Dot::Clear) => (Dot::Clear, Some(ground)),
        _ => (ground, ink),
    };
    let colour = |dot: Dot| match dot {
        Dot::Clear => None,
        Dot::Ink(colour) | Dot::Ground(colour) => paint.colour(colour),
    };
    let mut style = Style::new();
    style.bg = colour(ground);
    let Some(ink) = ink else { return (" ", style) };
    style.fg = colour(ink);
    let mask: usize = (0..4).filter(|&place| dots[place] == ink).map(|place| 1 << place).sum();
    (BLOCKS[mask], style)
}
