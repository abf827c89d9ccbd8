//! What is left after the program was stopped between any two steps on the disk: all of a deed or nothing of it.
//!
//! Must not know how a deed is recorded.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

mod by_hand;
mod going_on;
mod history;
mod mending;
mod stage;
mod stops;
