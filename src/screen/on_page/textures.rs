//! Textures that tell kinds of things apart without colour: a photo's grain, the lines of a journaling block.
//!
//! Must not know what lies where.

use ratatui::buffer::Buffer;

use crate::measure::Colour;
use crate::page::{Element, Kind};

use super::drawing::{At, Drawing, main_colour};

/// What a kind of thing is filled with.
#[must_use]
pub(super) const fn texture(kind: Kind) -> &'static str {
    match kind {
        Kind::Photo => "░",
        Kind::Mat => "▫",
        Kind::Paper => "~",
        Kind::Border => "=",
        Kind::Embellishment => "*",
        Kind::Journaling => "_",
        Kind::Label => "-",
    }
}

/// Whether the texture stands in this cell: that of a paper leaves every second one clear.
const fn stands(kind: Kind, (column, row): At) -> bool {
    match kind {
        Kind::Paper | Kind::Embellishment => (column + row).rem_euclid(2) == 0,
        Kind::Mat => column.rem_euclid(2) == 0,
        _ => true,
    }
}

/// Fills every cell that shows one thing only.
pub(super) fn draw(drawing: &Drawing<'_>, buffer: &mut Buffer) {
    for at in drawing.cells() {
        let Some((_, element)) = drawing.whole_thing(at) else { continue };
        let shown = stands(element.kind, at) && (!drawing.paint.has_colour() || is_seen_in_colour(element));
        let place = drawing.on_screen(at).filter(|_| shown);
        if let Some(cell) = place.and_then(|place| buffer.cell_mut(place)) {
            cell.set_symbol(texture(element.kind));
            if let Some(colour) = drawing.paint.colour(ink(element)) {
                cell.fg = colour;
            }
        }
    }
}

/// Where there are colours a plain thing is left plain, but for those that letters keep off.
fn is_seen_in_colour(element: &Element) -> bool {
    matches!(element.kind, Kind::Photo | Kind::Journaling) || element.colours.len() > 1
}

/// The second colour; else a shade of the first.
fn ink(element: &Element) -> Colour {
    let main = main_colour(element);
    match element.colours.get(1) {
        Some(second) => second.colour,
        None => main.mixed(main.readable_ink(), 3),
    }
}
