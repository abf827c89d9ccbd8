//! `oddment completions SHELL`.
//!
//! Must not know the arguments: they are read off the parser.

use std::process::ExitCode;

use anyhow::Result;
use clap_complete::{Shell, generate};

use super::args::Args;
use super::say::answer;

pub(super) fn run(shell: Shell) -> Result<ExitCode> {
    let mut script = Vec::new();
    generate(shell, &mut Args::for_documents(), "oddment", &mut script);
    answer(&String::from_utf8_lossy(&script))?;
    Ok(ExitCode::SUCCESS)
}
