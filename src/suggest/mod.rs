//! The search for the best mix: what can stand where, a bound, the search, and what came of it.
//!
//! It knows the reaches of the checks, not the checks. Must not know files or clocks: a budget is a count of steps.

mod outcome;
mod problem;
mod search;

pub use outcome::{Hindrance, Outcome, Put, Standing, SuggestedStrip, Suggestion};
pub use problem::Problem;
pub use search::Search;
