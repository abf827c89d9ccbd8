//! The terminal: raw mode and back, events to keys, and the loop that runs a [`Program`]. Here effects happen.
//!
//! Must not know what the program is about.

mod colours;
mod crash;
mod desk;
mod events;
mod guard;
mod keys;
mod keys_file;
mod program;
mod rounds;
mod scratch;
mod stage;

use std::io::{self, Write};

pub use colours::{Refusal, ready};
pub use program::{Ending, Flow, Program};

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
