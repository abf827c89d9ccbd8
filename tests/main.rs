//! The rings of tests, one binary.
