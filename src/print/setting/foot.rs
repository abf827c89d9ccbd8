//! The foot of each sheet: the page's name and the number of the sheet, so that sheets that come apart are put together again.
//!
//! Must not know what the sheets hold.

use super::super::clear::cut_to;
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
            marks.insert(
                0,
                FOOT.mark(cut_to(name, FOOT.face, FOOT.size, right - MARGIN - APART), MARGIN, top),
            );
        }
        sheet.pieces.push(Piece { sense: Sense::Ornament, marks });
    }
}
