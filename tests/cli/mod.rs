//! The commands as a shell meets them: what they print, what they leave on the disk, how they end.
//!
//! Must not know the program's insides.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod answers;
mod crowd;
mod documents;
mod faults;
mod ideas;
mod keeping;
mod mend;
mod places;
mod printed;
mod restock;
mod shell;
mod spell;
mod stuck;
mod suggest;
mod tables;
mod wishes;
