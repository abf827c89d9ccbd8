//! The placement order on paper.
//!
//! Must not know the app, the screen or the disk.

mod column;
mod direction;
mod face;
mod setting;
mod sheet;
mod told;
#[cfg(test)]
mod tests;
mod text;

pub use face::Face;
pub use setting::sheets;
pub use sheet::{Cell, Mark, Pen, Piece, Sense, Shape, Sheet, Words};
pub use text::{Head, order_text};
