//! The rings of tests, one binary.

mod exhaustive;
mod files;
mod layers;
mod outside;
mod papers;
mod pty;
