//! The placement order: what to pull, what to stand where, and what to mind. Derived from a plan, never stored.
//!
//! Must not know files or paper.

mod pull;
mod step;
mod whole;

pub use pull::{Pull, Pulled};
pub use step::{Stands, Step};
pub use whole::{Caution, Lining, Order, StripOrder};
