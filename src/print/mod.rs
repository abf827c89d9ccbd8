//! The placement order on paper.
//!
//! Must not know the app, the screen or the disk.

mod about;
mod column;
mod face;
mod pdf;
mod sheet;
mod svg;
mod table;
#[cfg(test)]
mod tests;
mod text;

pub use about::About;
pub use face::Face;
pub use pdf::pdf;
pub use sheet::{Cell, Mark, Pen, Piece, Sense, Shape, Sheet, Words};
pub use svg::svg;
pub use text::{Head, order_text};
