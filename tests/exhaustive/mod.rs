//! Brute force and seeded cases by the thousand: what the program says against what a slow, plain way says.
//!
//! Must not know how the program comes by its answers.

mod alternates;
mod dice;
mod edits;
mod layout;
mod made;
mod oracle;
mod oracle_colours;
mod score;
