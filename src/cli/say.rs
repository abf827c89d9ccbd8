//! How commands speak: answers on standard output, messages on standard error, and the exit status.
//!
//! Must not know which command speaks.

use std::io::{self, BufWriter, ErrorKind, StdoutLock, Write};
use std::process::ExitCode;

use anyhow::{Error, Result};
use serde::Serialize;

use crate::files::{FilesError, Problems, RecordError, escaped};
use crate::terminal::BenchError;

/// A fault that no file's own error tells.
#[derive(Debug, thiserror::Error)]
pub(super) enum Fault {
    /// The input's: what is wrong, and what would do.
    #[error("{0}")]
    Input(String),
    /// The system's: another program holds the lock.
    #[error("another oddment holds this stash; leave it there, then try again")]
    Held,
}

/// Prints an answer; whoever closed the pipe has read enough.
pub(super) fn answer(text: &str) -> Result<()> {
    answer_bytes(text.as_bytes())
}

/// The same, where it may be no text.
pub(super) fn answer_bytes(bytes: &[u8]) -> Result<()> {
    let mut out = io::stdout().lock();
    quiet(out.write_all(bytes).and_then(|()| out.flush()))
}

/// Prints an answer for people: what came from files is spelled out where it cannot be printed.
pub(super) fn answer_words(text: &str) -> Result<()> {
    let lines: Vec<String> = text.lines().map(escaped).collect();
    answer(&(lines.join("\n") + "\n"))
}

/// `1 letter`, `2 letters`.
pub(super) fn so_many(count: u32, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// Prints an answer as one JSON object on one line.
pub(super) fn answer_json(object: &impl Serialize) -> Result<()> {
    answer(&(serde_json::to_string(object)? + "\n"))
}

/// An answer of many lines, each printed as it is found.
#[derive(Debug)]
pub(super) struct Lines {
    out: BufWriter<StdoutLock<'static>>,
    closed: bool,
}

impl Lines {
    /// None so far.
    pub(super) fn new() -> Self {
        Self { out: BufWriter::with_capacity(1 << 16, io::stdout().lock()), closed: false }
    }

    /// Prints a line that is fit to be printed.
    pub(super) fn line(&mut self, text: &str) -> Result<()> {
        let written = self.out.write_all(text.as_bytes()).and_then(|()| self.out.write_all(b"\n"));
        self.heed(written)
    }

    /// Prints a JSON object on a line.
    pub(super) fn object(&mut self, object: &impl Serialize) -> Result<()> {
        self.line(&serde_json::to_string(object)?)
    }

    /// Lets whoever reads have what was printed so far.
    pub(super) fn flush(&mut self) -> Result<()> {
        let flushed = self.out.flush();
        self.heed(flushed)
    }

    /// Whether whoever read has read enough.
    pub(super) const fn is_closed(&self) -> bool {
        self.closed
    }

    fn heed(&mut self, written: io::Result<()>) -> Result<()> {
        self.closed |= written.as_ref().is_err_and(|error| error.kind() == ErrorKind::BrokenPipe);
        quiet(written)
    }
}

/// Says something beside the answer, on standard error: why it is no, or what was finished first.
pub(super) fn say_beside(why: &str) -> Result<()> {
    quiet(writeln!(io::stderr(), "oddment: {}", escaped(why)))
}

/// What became of a deed that was not recorded: the stash said no, or the system failed.
pub(super) fn refused(error: RecordError) -> Result<ExitCode> {
    match error {
        RecordError::Refused(refusal) => {
            say_beside(&refusal.to_string())?;
            Ok(ExitCode::from(1))
        }
        RecordError::Files(error) => Err(error.into()),
        unfinished @ RecordError::Unfinished(..) => Err(unfinished.into()),
    }
}

/// Prints what is wrong in the stash's files, save what will be `told` as the reason for an end.
pub(super) fn warn(problems: &Problems, told: &Problems) -> Result<()> {
    let mut errors = io::stderr().lock();
    let all = problems.all().iter().filter(|problem| !told.all().contains(problem));
    all.map(|problem| writeln!(errors, "{problem}")).try_for_each(quiet)
}

fn quiet(written: io::Result<()>) -> Result<()> {
    match written {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}

/// Tells an error on standard error and gives back its exit status.
pub(super) fn report(error: &Error) -> ExitCode {
    // With standard error gone there is nobody left to tell.
    let _ = writeln!(io::stderr(), "oddment: {error}");
    ExitCode::from(if is_input(error) { 2 } else { 3 })
}

/// Whether the input is at fault: a wrong name, a bad file, a folder that is none.
fn is_input(error: &Error) -> bool {
    let files = error.downcast_ref::<FilesError>().or_else(|| match error.downcast_ref::<BenchError>() {
        Some(BenchError::Files(error)) => Some(error),
        _ => None,
    });
    match files {
        Some(error) => error.is_input(),
        None => matches!(error.downcast_ref(), Some(Fault::Input(_))),
    }
}
