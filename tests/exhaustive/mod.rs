//! Brute force and seeded cases by the thousand: what the program says against what a slow, plain way says.
//!
//! Must not know how the program comes by its answers.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

mod brute;
mod drawn;
mod ideas;
mod judged;
mod kept;
mod lying;
mod placed;
mod resting;
mod spelled;
mod standing;
mod suggested;
mod tiny;
mod undoing;
pub(crate) mod wishes;
