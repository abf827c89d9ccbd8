//! A real pseudo-terminal: keys, pastes, sizes, suspension, signals and a terminal gone, as a user meets them.
//!
//! Must not know the program's insides: only what its screen shows and what it leaves behind.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod acts;
mod bench;
mod counting;
mod faulty;
mod harness;
mod on_order;
mod on_page;
mod order;
mod outside;
mod screen;
mod start;
mod suggesting;
mod trials;
mod two;
