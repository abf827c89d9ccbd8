//! The map of a page: small among other words, or as large as the page itself.
//!
//! Must not know in which form a sheet is written.

mod letters;
mod small;
#[cfg(test)]
mod tests;
mod true_size;

pub use small::map_piece;
pub use true_size::true_size;
