//! The placement order on paper.
//!
//! Must not know the app, the screen or the disk.

mod about;
mod bars;
mod clear;
mod clip;
mod column;
mod direction;
mod face;
mod map;
mod named;
mod pdf;
mod setting;
mod sheet;
mod svg;
mod template;
#[cfg(test)]
mod tests;
mod text;
mod told;
mod xml;

pub use about::About;
pub use face::Face;
pub use map::{map_piece, true_size};
pub use pdf::pdf;
pub use setting::sheets;
pub use sheet::{Cell, Mark, Pen, Piece, Sense, Shape, Sheet, Words};
pub use svg::{is_sheet_of_order, svg};
pub use template::template_sheets;
pub use text::{Head, order_text};
