//! Brute force and seeded cases by the thousand: what the program says against what a slow, plain way says.
//!
//! Must not know how the program comes by its answers.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

mod alternates;
mod dice;
mod drawn;
mod edits;
mod judged;
mod layout;
mod lying;
mod made;
mod opinion;
mod oracle;
mod oracle_colours;
mod page_opinion;
mod score;
mod standing;
mod undoing;
