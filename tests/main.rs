//! The rings of tests, one binary.

mod cli;
mod crash;
mod draw;
mod exhaustive;
mod files;
mod keys;
mod layers;
mod opinion;
mod outside;
mod pages;
mod papers;
mod pty;
mod screens;
