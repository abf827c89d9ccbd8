//! A page plan: a page, its strips, and one history of edits for both.
//!
//! Must not know checks or screens.

mod history;
mod whole;
mod spoken;

pub use history::{History, PlanEdit};
pub use whole::{Plan, StripsError};
pub use spoken::Spoken;
