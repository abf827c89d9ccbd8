//! A second opinion on the score, written anew from the rules, for the rings that hold the program to it.
//!
//! Must not know `oddment::checks` or `oddment::suggest`.
#![expect(clippy::unwrap_used, reason = "a case that cannot be told fails the test")]

mod field;
mod heights;
mod laid;
mod letter;
mod lying;
mod page;
mod serving;
mod terms;

pub(crate) use field::{Cell, Closer};
pub(crate) use heights::{by_height, height_points, line_height, suits};
pub(crate) use laid::{Laid, laid};
pub(crate) use letter::{Eye, Slot, alone};
pub(crate) use lying::{Ground, NO_PAGE, Told, under};
pub(crate) use page::Colours;
pub(crate) use serving::{may_stand, options};
pub(crate) use terms::{Terms, sum, terms};
