//! Checks against the world outside: published standards, tables and other people's libraries, each named beside its check.
//!
//! Must not know how the program comes by its answers.

mod colour;
mod colour_pairs;
mod lengths;
