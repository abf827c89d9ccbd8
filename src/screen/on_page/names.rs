//! What things are called, written on them where there is room.
//!
//! Must not know what is chosen.

use std::collections::BTreeSet;

use ratatui::buffer::Buffer;
use unicode_width::UnicodeWidthStr;

use super::super::words::fit;
use super::drawing::{At, Drawing};
use super::strips::Lying;

/// A name needs so many columns at least, a blank on either side included.
const FEWEST: i32 = 5;

/// A run of cells in a row that show one thing, and its length.
type Run = (At, i32);

/// Writes the names: each on the row nearest to the middle of its thing on which there is room for most of it. Gives back
/// the cells that are written on.
pub(super) fn draw(drawing: &Drawing<'_>, strips: &[Lying], buffer: &mut Buffer) -> BTreeSet<At> {
    let mut written = BTreeSet::new();
    let is_letter = |at: At| strips.iter().any(|strip| strip.signs.contains_key(&at)) || drawing.is_inked(at);
    // Better where nothing else shows, and clear of edges that are drawn.
    let clear = |at: At| {
        let whole = drawing.whole_thing(at).map(|(place, _)| place)?;
        (drawing.paint.has_colour() || !drawing.is_at_edge(at)).then_some(whole)
    };
    let clear = runs(drawing, |at| clear(at).filter(|_| !is_letter(at)));
    let seen = runs(drawing, |at| drawing.thing(at).filter(|_| !is_letter(at)));
    // Of what is seen at its rim only, such as a mat, the list tells the name.
    let seen_at = |middle: At, place: usize| drawing.thing(middle) == Some(place);
    for (place, element) in drawing.page.elements.iter().enumerate() {
        let name = element.called();
        let wanted = i32::try_from(name.width()).unwrap_or(i32::MAX).saturating_add(2);
        let lie = &element.lie;
        let middle = drawing
            .cell_at((lie.at.x.mm() + lie.size.width.mm() / 2.0, lie.at.y.mm() + lie.size.height.mm() / 2.0));
        let best = |runs: &[Run]| {
            let best = runs.iter().max_by_key(|((start, row), length)| {
                let off = (row - middle.1).abs() * 2 + (start + length / 2 - middle.0).abs();
                ((*length).min(wanted), -off)
            });
            best.copied().filter(|(_, length)| *length >= FEWEST.min(wanted))
        };
        if let Some(((start, row), length)) =
            best(&clear[place]).or_else(|| seen_at(middle, place).then(|| best(&seen[place])).flatten())
        {
            let width = length.min(wanted);
            let text = format!(" {} ", fit(name, usize::try_from(width - 2).unwrap_or(1)));
            let first = start + (length - width) / 2;
            write(drawing, (first, row), &text, buffer);
            written.extend((first..first + width).map(|column| (column, row)));
        }
    }
    written
}

/// For each thing the runs of cells for which `shows` gives it.
fn runs(drawing: &Drawing<'_>, shows: impl Fn(At) -> Option<usize>) -> Vec<Vec<Run>> {
    let mut runs: Vec<Vec<Run>> = vec![Vec::new(); drawing.page.elements.len()];
    let mut last = None;
    for at in drawing.cells() {
        let thing = shows(at);
        let goes_on = at.0 > 0 && thing == last;
        if let Some(runs) = thing.and_then(|thing| runs.get_mut(thing)) {
            match runs.last_mut() {
                Some((_, length)) if goes_on => *length += 1,
                _ => runs.push((at, 1)),
            }
        }
        last = thing;
    }
    runs
}

/// Writes a text on the things that lie there.
fn write(drawing: &Drawing<'_>, (mut column, row): At, text: &str, buffer: &mut Buffer) {
    for cluster in crate::letter::characters(text) {
        let wide = i32::try_from(cluster.width()).unwrap_or(1);
        if wide == 0 || cluster.contains(char::is_control) {
            continue;
        }
        for over in 0..wide {
            drawing.write(buffer, (column + over, row), " ", false);
        }
        drawing.write(buffer, (column, row), cluster, false);
        column += wide;
    }
}
