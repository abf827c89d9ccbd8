//! The search for the best mix: what can stand where, a bound, the search, and what came of it.
//!
//! It knows the reaches of the checks, not the checks. Must not know files or clocks: a budget is a count of steps.

mod after;
mod arrangement;
mod chain;
mod field;
mod heights;
mod label;
mod limits;
mod memory;
mod outcome;
mod pairs;
mod price;
mod probe;
mod problem;
mod region;
mod rooms;
mod search;
mod sweep;
mod through;
mod ties;

pub use outcome::{Hindrance, Outcome, Put, Standing, SuggestedStrip, Suggestion};
pub use problem::Problem;
pub use search::Search;

/// Costs are whole tenths of a point, sixteen to the tenth, so that prices have fractions.
const UNIT: i32 = 16;
