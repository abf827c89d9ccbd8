//! The rings of tests, one binary.

mod layers;
mod pty;
