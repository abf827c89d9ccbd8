//! The thin binary: everything is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    oddment::cli::run()
}
