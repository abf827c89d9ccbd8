//! The placement order on paper.
//!
//! Must not know the app, the screen or the disk.

mod column;
mod table;
#[cfg(test)]
mod tests;
mod text;

pub use text::{Head, order_text};
