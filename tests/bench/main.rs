//! Benchmarks: what a user waits for, each against a named rival in the same run.

fn main() {}
