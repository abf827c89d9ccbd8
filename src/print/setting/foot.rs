//! The foot of each sheet: the page's name and the number of the sheet, so that sheets that come apart are put together again.
//!
//! Must not know what the sheets hold.

use crate::letter::characters;

use super::super::face::Face;
use super::super::sheet::{Piece, Sense, Sheet};
use super::MARGIN;
use super::types::FOOT;

/// From the lower edge of a sheet to the line that the foot stands on: between what printers leave white and what is set.
const UP: f64 = 6.2;

/// From the name to the number.
const APART: f64 = 6.0;

/// Writes them; the name only on the first `named` sheets.
pub(super) fn number(sheets: &mut [Sheet], name: &str, named: usize) {
    let count = sheets.len();
    for (place, sheet) in sheets.iter_mut().enumerate() {
        let (width, height) = (sheet.size.width.mm(), sheet.size.height.mm());
        let number = format!("{} of {count}", place + 1);
        let right = width - MARGIN - FOOT.width(&number);
        let top = height - UP - FOOT.foot(0.0);
        let mut marks = vec![FOOT.mark(number, right, top)];
        if place < named {
            marks.insert(0, FOOT.mark(shortened(name, right - MARGIN - APART), MARGIN, top));
        }
        sheet.pieces.push(Piece { sense: Sense::Ornament, marks });
    }
}

/// As much of `name` as fits `room`; two full stops where it is cut.
fn shortened(name: &str, room: f64) -> String {
    let name = Face::legible(name);
    let wide = |text: &str| FOOT.face.width(text, FOOT.size);
    if wide(&name) <= room {
        return name;
    }
    let mut kept = String::new();
    for cluster in characters(&name) {
        if wide(&format!("{kept}{cluster}..")) > room {
            break;
        }
        kept.push_str(cluster);
    }
    kept.truncate(kept.trim_end().len());
    kept + ".."
}
