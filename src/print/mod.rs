//! The placement order on paper.
//!
//! Must not know the app, the screen or the disk.

mod bars;
mod clear;
mod clip;
mod column;
mod face;
mod map;
mod sheet;
mod table;
mod template;
#[cfg(test)]
mod tests;
mod text;

pub use face::Face;
pub use map::{map_piece, true_size};
pub use sheet::{Cell, Mark, Pen, Piece, Sense, Shape, Sheet, Words};
pub use template::template_sheets;
pub use text::{Head, order_text};
