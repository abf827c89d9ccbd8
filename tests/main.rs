//! The rings of tests, one binary.

mod files;
mod layers;
mod outside;
mod papers;
mod pty;
