//! Writing on a sheet of paper that is drawn small: headings as far as there is room for their letters, all else where
//! there is room for the whole of it, or as rows of dots.
//!
//! Must not know what is drawn beside it but where there is something.

use std::collections::BTreeSet;
use std::ops::Range;

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::{PageMap, Writing};

use super::super::words::{fit, put};

/// A heading with room for fewer letters is dots too.
const FEWEST: usize = 5;

/// Cells in a row: the row, and its columns.
type Run = (i32, Range<i32>);

/// Whether a cell may be written on.
type Free<'a> = &'a dyn Fn((i32, i32)) -> bool;

/// Draws it: headings in the first style where the first of `free` lets them, all else in the second, as dots where the second
/// does.
pub(super) fn draw(
    writing: &[Writing],
    map: &PageMap,
    (heading, plain): (Style, Style),
    free: (Free<'_>, Free<'_>),
    buffer: &mut Buffer,
) {
    let mut taken = BTreeSet::new();
    let headings = writing.iter().filter(|one| one.strong);
    for one in headings.chain(writing.iter().filter(|one| !one.strong)) {
        let (row, columns) = run(one, map);
        let columns = columns.start..columns.end.min(i32::from(map.area.width));
        let cells: Vec<(i32, i32)> = columns.clone().map(|column| (column, row)).collect();
        let fewest = if one.strong { FEWEST } else { one.text.width() };
        if cells.len() < fewest || !cells.iter().all(|at| free.0(*at) && !taken.contains(at)) {
            continue;
        }
        let text = fit(&one.text, cells.len());
        write(text.trim_end(), cells[0], map, if one.strong { heading } else { plain }, buffer);
        // Dots keep clear of it.
        taken.extend([(columns.start - 1, row), (columns.end, row)]);
        taken.extend(cells);
    }
    for one in writing {
        let (row, columns) = run(one, map);
        for at in columns.map(|column| (column, row)).filter(|at| free.1(*at)) {
            if taken.insert(at) {
                write("·", at, map, plain, buffer);
            }
        }
    }
}

/// The cells that a line of writing runs through: those of which it takes the middle, and the first in any case.
#[expect(clippy::cast_possible_truncation, reason = "saturates")]
fn run(one: &Writing, map: &PageMap) -> Run {
    let (x, baseline) = one.at;
    // Half as high as a small letter stands the middle of the writing.
    let (left, row) = map.place((x, baseline - one.size / 4.0));
    let (right, _) = map.place((x + one.width, baseline));
    let first = left.floor() as i32;
    (row.floor() as i32, first..(right.round() as i32).max(first.saturating_add(1)))
}

/// Writes a text from a cell of the sheet on.
fn write(text: &str, (column, row): (i32, i32), map: &PageMap, style: Style, buffer: &mut Buffer) {
    let (Ok(column), Ok(row)) = (u16::try_from(column), u16::try_from(row)) else { return };
    let area = map.area;
    put(buffer, area.x + column, area.y + row, area.width.saturating_sub(column), text, style);
}
