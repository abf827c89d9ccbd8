//! An order set on sheets of paper: what is told, the templates between, and the number of each sheet at its foot.
//!
//! Must not know in which form a sheet is written.

mod blocks;
mod chunk;
mod flow;
mod foot;
mod letters;
mod pulls;
#[cfg(test)]
mod tests;
mod types;

use crate::measure::{Size, Unit};
use crate::order::Order;
use crate::page::{Paper, PaperError};

use super::Head;
use super::map::true_size;
use super::sheet::Sheet;
use super::template::template_sheets;
use super::told::{TemplateIs, Told};

use blocks::Setter;
use flow::{Flow, flow};

/// What is kept free along each edge of a sheet, in mm: printers leave about 5 mm white (common practice, no source).
const MARGIN: f64 = 10.0;

/// `order` on sheets of `paper`, lengths in `unit`, in the order in which they are used. The same order, head, paper and unit
/// always give the same sheets.
///
/// # Errors
/// When the paper is the page's own, and that has no size or is too small.
pub fn sheets(order: &Order, head: &Head, paper: Paper, unit: Unit) -> Result<Vec<Sheet>, PaperError> {
    let size = paper.size(order.page, unit)?;
    let strips = order.strips.iter();
    let templates: Vec<_> = strips.map(|strip| template_sheets(order, strip, size, unit)).collect();
    let parted = templates.iter().any(|template| template.len() > 1);
    let told = Told::of(order, head, unit, TemplateIs::Next { parted, paper });
    let mut setter = Setter::on(size);
    let mut sheets = flow(setter.chunks(&told.front), size);
    sheets.extend(templates.into_iter().flatten());
    let mut back = Flow::on(size);
    back.lay(setter.chunks(&told.back));
    back.lay(setter.with_left(back.left()).chunks(&told.map));
    sheets.extend(back.sheets());
    // On the page at its true size, its own things reach to the foot.
    let named = sheets.len();
    if let (Paper::Page, Some(map)) = (paper, &order.map) {
        sheets.push(true_size(order, map, unit));
    }
    foot::number(&mut sheets, &told.name, named);
    Ok(sheets)
}

/// Width and height within the margins, in mm.
fn room(size: Size) -> (f64, f64) {
    (size.width.mm() - 2.0 * MARGIN, size.height.mm() - 2.0 * MARGIN)
}
