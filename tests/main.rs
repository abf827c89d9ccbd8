//! The rings of tests, one binary.

mod cli;
mod files;
mod keys;
mod layers;
mod outside;
mod pty;
mod screens;
