//! A second opinion on the score, written anew from the rules, for the rings that hold the program to it.
//!
//! Must not know `oddment::checks` or `oddment::suggest`.
#![expect(clippy::unwrap_used, reason = "a case that cannot be told fails the test")]

mod heights;
mod letter;
mod page;
mod serving;
mod terms;

pub(crate) use heights::{by_height, height_points, line_height, suits};
pub(crate) use letter::{Eye, Slot, alone};
pub(crate) use page::Colours;
pub(crate) use serving::{may_stand, options};
pub(crate) use terms::{Terms, sum, terms};
