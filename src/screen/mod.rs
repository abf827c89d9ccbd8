//! The state as cells of the screen. Drawing cannot change the state.
//!
//! The only folder that names widgets. Must not know the disk or where inputs come from.

mod alternates;
mod canvas;
mod checks;
mod frame;
mod grid;
mod head;
mod in_order;
mod in_stash;
mod in_words;
mod leaf;
mod on_page;
mod over;
mod paint;
mod strip;
mod suggestions;
mod words;

pub use frame::draw;
