//! The program itself, apart from any terminal: what reaches it and, by one table, what it does about it.
//!
//! Must not know ratatui, crossterm or the disk.

mod colours;
mod input;
mod key;

pub use colours::Colours;
pub use input::{Input, Mouse, MouseAct};
pub use key::{Key, KeyCode, KeyError};
