//! A page plan: a page, its strips, and one history of edits for both.
//!
//! Must not know checks or screens.

mod history;
mod spoken;
mod whole;

pub use history::{History, PlanEdit};
pub use spoken::Spoken;
pub use whole::{Plan, StripsError};
