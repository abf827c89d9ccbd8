//! What is told over the page: its edge and margin, trapped paper, what is chosen.
//!
//! Must not know what a key does.

use std::collections::BTreeMap;

use ratatui::buffer::Buffer;

use crate::app::{State, Thing};
use crate::page::Outline;

use super::super::paint::faint;
use super::drawing::{At, Drawing};
use super::lines::edge;
use super::strips::Lying;

/// What trapped paper is hatched with.
const HATCH: &str = "╱";

/// Of so much of a cell, in hundredths, trapped paper shows in it.
const SHOWS: f64 = 12.0;

/// Draws the edge of the page, its margin, and without colours the edges of the things.
pub(super) fn draw_edges(drawing: &Drawing<'_>, state: &State, buffer: &mut Buffer) {
    if !drawing.paint.has_colour() {
        for at in drawing.cells() {
            let Some(thing) = drawing.thing(at) else { continue };
            let round = drawing.page.elements[thing].lie.outline == Outline::Round;
            // Where a thing goes on under another one, that one draws the edge.
            let holds = |at| drawing.thing(at).is_some_and(|other| other >= thing);
            let line = edge(at, round, holds).filter(|_| !drawing.is_inked(at));
            if let Some((line, cell)) = line.zip(drawing.on_screen(at).and_then(|at| buffer.cell_mut(at))) {
                cell.set_symbol(line);
            }
        }
    }
    let Some(size) = drawing.page.size else { return };
    let (width, height) = (size.width.mm(), size.height.mm());
    draw_margin(drawing, (width, height), state.trial.plan().page.margin.mm(), buffer);
    let (left, top) = rounded(drawing, (0.0, 0.0));
    let (right, bottom) = rounded(drawing, (width, height));
    let within =
        |(column, row): At| (left - 1..=right).contains(&column) && (top - 1..=bottom).contains(&row);
    for at in drawing.cells().filter(|&(column, row)| {
        within((column, row)) && (column == left - 1 || column == right || row == top - 1 || row == bottom)
    }) {
        let line = edge(at, false, within);
        let place = drawing.on_screen(at).filter(|_| drawing.thing(at).is_none());
        if let Some((line, cell)) = line.zip(place.and_then(|place| buffer.cell_mut(place))) {
            cell.set_symbol(line).set_style(faint());
        }
    }
}

/// Dots on the bare paper along the margin.
fn draw_margin(drawing: &Drawing<'_>, (width, height): (f64, f64), margin: f64, buffer: &mut Buffer) {
    if margin <= 0.0 {
        return;
    }
    let (left, top) = drawing.cell_at((margin, margin));
    let (right, bottom) = drawing.cell_at((width - margin, height - margin));
    for (column, row) in drawing.cells() {
        let on_line = ((column == left || column == right) && (top..=bottom).contains(&row))
            || ((row == top || row == bottom)
                && (left..=right).contains(&column)
                && (column - left) % 2 == 0);
        if on_line && drawing.is_bare((column, row)) {
            drawing.write(buffer, (column, row), "·", false);
            if let Some(cell) = drawing.on_screen((column, row)).and_then(|place| buffer.cell_mut(place)) {
                let mid =
                    drawing.colour_at((column, row)).map(|colour| colour.mixed(colour.readable_ink(), 4));
                match mid.and_then(|colour| drawing.paint.colour(colour)) {
                    Some(colour) => cell.fg = colour,
                    None => {
                        cell.set_style(faint());
                    }
                }
            }
        }
    }
}

/// Hatches trapped paper; letters and names, the cells that are `kept`, are not written over.
pub(super) fn draw_trapped(
    drawing: &Drawing<'_>,
    state: &State,
    kept: impl Fn(At) -> bool,
    buffer: &mut Buffer,
) {
    for lying in state.trial.verdict().strips.iter().filter_map(|strip| strip.lying.as_ref()) {
        let mut mm2: BTreeMap<At, f64> = BTreeMap::new();
        for (x, y) in lying.meeting.trapped.0.iter() {
            *mm2.entry(drawing.cell_at((f64::from(x) + 0.5, f64::from(y) + 0.5))).or_default() += 1.0;
        }
        mm2.retain(|at, _| !kept(*at) && !drawing.is_inked(*at));
        // Beside a thing a sliver of paper can lie in a cell that shows the thing.
        if mm2.keys().any(|at| is_paper(drawing, *at)) {
            mm2.retain(|at, _| is_paper(drawing, *at));
        }
        let whole = drawing.map.scale.0 * drawing.map.scale.1;
        let most = mm2.values().copied().fold(0.0, f64::max);
        let is_seen = |mm2: f64| mm2 * 100.0 >= (whole * SHOWS).min(most * 100.0);
        for (&at, _) in mm2.iter().filter(|(_, mm2)| is_seen(**mm2)) {
            drawing.write(buffer, at, HATCH, true);
        }
    }
}

/// Whether bare paper, or what counts as such, is seen at the middle of a cell.
fn is_paper(drawing: &Drawing<'_>, at: At) -> bool {
    drawing.thing(at).is_none_or(|thing| drawing.page.elements[thing].is_bed(drawing.page.size))
}

/// Marks what is chosen: a line along the edge of a thing, corners around a strip. Letters and names are not written over,
/// nor the cells that are `kept`.
pub(super) fn draw_choice(
    drawing: &Drawing<'_>,
    state: &State,
    strips: &[Lying],
    kept: impl Fn(At) -> bool,
    buffer: &mut Buffer,
) {
    match state.thing() {
        Thing::Strip(place) => {
            let Some(strip) = strips.iter().find(|strip| strip.place == place) else { return };
            mark_corners(drawing, strip, kept, buffer);
        }
        Thing::Element(place) => {
            let (footprint, element) = (&drawing.footprints[place], &drawing.page.elements[place]);
            let holds = |(column, row): At| {
                let (x, y) = drawing.map.on_page((f64::from(column) + 0.5, f64::from(row) + 0.5));
                footprint.covers(x, y)
            };
            let rounded = element.lie.outline == Outline::Round;
            let mut seen = false;
            for at in drawing.cells().filter(|&at| holds(at)) {
                seen = true;
                if let Some(line) = edge(at, rounded, holds).filter(|_| !kept(at) && !drawing.is_inked(at)) {
                    drawing.write(buffer, at, heavy(line), true);
                }
            }
            if !seen {
                let lie = &element.lie;
                let middle =
                    (lie.at.x.mm() + lie.size.width.mm() / 2.0, lie.at.y.mm() + lie.size.height.mm() / 2.0);
                drawing.write(buffer, drawing.cell_at(middle), "◆", true);
            }
        }
    }
}

/// The same line, heavier.
fn heavy(line: &str) -> &str {
    match line {
        "─" | "╶" | "╴" => "━",
        "│" | "╷" | "╵" => "┃",
        "┌" | "╭" => "┏",
        "┐" | "╮" => "┓",
        "└" | "╰" => "┗",
        "┘" | "╯" => "┛",
        _ => "◆",
    }
}

/// Corners beside the corners of a strip's box, where no letter is.
fn mark_corners(drawing: &Drawing<'_>, strip: &Lying, kept: impl Fn(At) -> bool, buffer: &mut Buffer) {
    let count = f64::from(u32::try_from(strip.corners.len().max(1)).unwrap_or(1));
    let middle =
        strip.corners.iter().fold((0.0, 0.0), |sum, at| (sum.0 + at.0 / count, sum.1 + at.1 / count));
    for &corner in &strip.corners {
        let (right, below) = (corner.0 > middle.0, corner.1 > middle.1);
        // Just outside: half a cell further from the middle.
        let out = |is_further: bool, scale: f64| if is_further { scale / 2.0 } else { -scale / 2.0 };
        let place = (corner.0 + out(right, drawing.map.scale.0), corner.1 + out(below, drawing.map.scale.1));
        let at = drawing.cell_at(place);
        if kept(at) || drawing.is_inked(at) {
            continue;
        }
        let symbol = match (right, below) {
            (false, false) => "┏",
            (true, false) => "┓",
            (false, true) => "┗",
            (true, true) => "┛",
        };
        drawing.write(buffer, at, symbol, true);
    }
}

/// The column and row at which a place lies, to the nearest edge of a cell.
fn rounded(drawing: &Drawing<'_>, place: (f64, f64)) -> At {
    let (across, down) = drawing.map.place(place);
    #[expect(clippy::cast_possible_truncation, reason = "saturates")]
    let cell = (across.round() as i32, down.round() as i32);
    cell
}
