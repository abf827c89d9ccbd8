//! `oddment`: an album page's title out of the remains of many alphabet sticker sheets.
//!
//! The folders are floors; each may use only the floors below it (`tests/layers.rs` holds them to it):
//! `measure` 1, `letter` 2, `stash` 3, `title` and `page` 4, `plan` 5, `checks` and `supply` 6, `suggest` and `order` 7,
//! `app` 8, `files`, `print` and `screen` 9, `terminal` and `cli` 10. Floors 1 to 8 touch no disk, clock, terminal or
//! environment.

pub mod app;
pub mod checks;
pub mod cli;
pub mod files;
pub mod letter;
pub mod measure;
pub mod order;
pub mod page;
pub mod plan;
pub mod print;
pub mod screen;
pub mod stash;
pub mod suggest;
pub mod supply;
pub mod terminal;
pub mod title;
mod words;
