//! What lies under a strip's letters.
//!
//! Must not know the letters beyond the length and height of the line.

use crate::measure::{Colour, Length};
use crate::page::Page;
use crate::title::Strip;

/// The colour under `strip`: its own `on`; else the first colour of whatever covers most of its band, `length` by
/// `height`, as it lies now, ties to the topmost; a strip not placed lies on the ground; `None` where nothing tells.
#[must_use]
pub fn under(strip: &Strip, page: &Page, length: Length, height: Length) -> Option<Colour> {
    if let Some(on) = &strip.rules.on {
        return Some(on.colour);
    }
    let ground = page.ground.as_ref().map(|tint| tint.colour);
    let Some(at) = strip.place.at.filter(|_| !page.elements.is_empty()) else { return ground };
    let mut cells = vec![0_u32; page.elements.len() + 1];
    let footprints = page.footprints();
    let (sin, cos) = strip.place.turn.sin_cos();
    let centres =
        |length: Length| (0_u32..).map(|cell| f64::from(cell) + 0.5).take_while(move |&mm| mm < length.mm());
    for up in centres(height) {
        for along in centres(length) {
            // The page's y runs down: along the strip is (cos, sin), up from its feet is (sin, -cos).
            let (x, y) = (at.x.mm() + along * cos + up * sin, at.y.mm() + along * sin - up * cos);
            let top = footprints.iter().rposition(|one| one.covers(x, y));
            cells[top.map_or(0, |place| place + 1)] += 1;
        }
    }
    if cells.iter().all(|&count| count == 0) {
        // A line without letters has no band: what lies where it begins will have to do.
        let top = footprints.iter().rposition(|one| one.covers(at.x.mm(), at.y.mm()));
        cells[top.map_or(0, |place| place + 1)] = 1;
    }
    let most = (0..cells.len()).max_by_key(|&place| (cells[place], place)).unwrap_or(0);
    match most.checked_sub(1) {
        Some(element) => page.elements[element].colours.first().map(|tint| tint.colour),
        None => ground,
    }
}
