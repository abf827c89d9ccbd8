//! The terminal: raw mode and back, events to keys, and the loop that runs a [`Program`]. Here effects happen.
//!
//! Must not know what the program is about.

mod colours;
mod counted;
mod crash;
mod desk;
mod events;
mod guard;
mod half_counted;
mod keys;
mod keys_file;
mod ordered;
mod patience;
mod pictured;
mod program;
mod round_look;
mod rounds;
mod scratch;
mod stage;
mod stuck;
mod wished;

use std::io::{self, Write};

use crate::app::Colours;
use crate::files::{FilesError, StashFolder};

pub use colours::{Refusal, ready};
pub use pictured::pictures;
pub use program::{Ending, Flow, Program};

/// Runs the bench on the stash in `folder`, on the plan called `plan` or on a new one; without a folder on a scratch copy
/// of the sample, which is named when the program leaves it.
///
/// # Errors
///
/// The stash or the plan cannot be opened, or the terminal cannot be set up.
pub fn bench(
    folder: Option<StashFolder>,
    plan: Option<&str>,
    colours: Colours,
) -> Result<Ending, BenchError> {
    let own = folder.as_ref().map(|folder| folder.path().to_owned());
    let mut desk = match folder {
        Some(folder) => desk::Desk::open(folder, plan, colours)?,
        None => desk::Desk::open(scratch::sample()?, plan.or(Some(scratch::PLAN)), colours)?,
    };
    let ending = run(&mut desk)?;
    if own.as_deref() != Some(desk.folder().path()) {
        // Nobody may be left to read it.
        let _ = writeln!(io::stdout(), "The sample is in {}", desk.folder().path().display());
    }
    Ok(ending)
}

/// Why the bench cannot be run.
#[derive(Debug, thiserror::Error)]
pub enum BenchError {
    /// The stash or the plan.
    #[error(transparent)]
    Files(#[from] FilesError),
    /// The terminal.
    #[error("the terminal cannot be used: {0}")]
    Terminal(#[from] io::Error),
}

/// Runs the program on the terminal that [`ready`] has found until it ends, and puts the terminal back as it was.
///
/// The trial is kept before this returns, however the program ends. After a panic its words and the place of the trial
/// are on standard error by then.
///
/// # Errors
///
/// The terminal cannot be set up or drawn on. If it has merely gone away, that is an [`Ending`].
pub fn run<P: Program>(program: &mut P) -> io::Result<Ending> {
    let hook = crash::Hook::set();
    let ending = crash::catch(program, |program| {
        let events = events::listen()?;
        let mut stage = stage::Screen::open()?;
        rounds::run(program, &mut stage, &events, rounds::Pace::default())
    });
    drop(hook);
    // With standard error gone as well there is nobody left to tell.
    if let Some(words) = crash::untold() {
        let _ = writeln!(io::stderr(), "oddment met a fault of its own and went on: {words}");
    }
    ending.unwrap_or_else(|crash| {
        let _ = write!(io::stderr(), "{crash}");
        Ok(Ending::Panic)
    })
}
