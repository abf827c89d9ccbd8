//! The placement order on paper.
//!
//! Must not know the app or screens.

mod columns;
mod text;

pub use text::order_text;
