//! The rings of tests, one binary.

mod cli;
mod exhaustive;
mod files;
mod keys;
mod layers;
mod outside;
mod papers;
mod pty;
mod screens;
