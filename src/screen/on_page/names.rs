//! What things are called, written on them where there is room.
//!
//! Must not know what is chosen.

use ratatui::buffer::Buffer;
use unicode_width::UnicodeWidthStr;

use super::super::words::fit;
use super::drawing::{At, Drawing};
use super::strips::Lying;

/// A name needs so many columns at least, a blank on either side included.
const FEWEST: i32 = 5;

/// Writes the names: each on the row nearest to the middle of its thing on which there is room for most of it.
pub(super) fn draw(drawing: &Drawing<'_>, strips: &[Lying], buffer: &mut Buffer) {
    let mut runs: Vec<Vec<(At, i32)>> = vec![Vec::new(); drawing.page.elements.len()];
    for row in 0..i32::from(drawing.map.area.height) {
        let free = |column: i32| {
            let at = (column, row);
            drawing.thing(at).filter(|_| {
                !strips.iter().any(|strip| strip.signs.contains_key(&at)) && !drawing.is_inked(at)
            })
        };
        let mut column = 0;
        while column < i32::from(drawing.map.area.width) {
            let thing = free(column);
            let start = column;
            while column < i32::from(drawing.map.area.width) && free(column) == thing {
                column += 1;
            }
            if let Some(thing) = thing {
                runs[thing].push(((start, row), column - start));
            }
        }
    }
    for (place, element) in drawing.page.elements.iter().enumerate() {
        let name = element.called();
        let wanted = i32::try_from(name.width()).unwrap_or(i32::MAX).saturating_add(2);
        let lie = &element.lie;
        let middle = drawing
            .cell_at((lie.at.x.mm() + lie.size.width.mm() / 2.0, lie.at.y.mm() + lie.size.height.mm() / 2.0));
        let best = runs[place].iter().max_by_key(|((start, row), length)| {
            let off = (row - middle.1).abs() * 2 + (start + length / 2 - middle.0).abs();
            ((*length).min(wanted), -off)
        });
        if let Some(&((start, row), length)) = best.filter(|(_, length)| *length >= FEWEST.min(wanted)) {
            let width = length.min(wanted);
            let text = format!(" {} ", fit(name, usize::try_from(width - 2).unwrap_or(1)));
            write(drawing, (start + (length - width) / 2, row), &text, buffer);
        }
    }
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
