//! What happens at the terminal and what the system signals, brought to the loop over one channel.
//!
//! Must not know the program, or what any event leads to.

use super::{guard, keys};
use crate::app::Input;
use crossterm::event;
use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP};
use signal_hook::iterator::Signals;
use std::io::{self, IsTerminal};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread;
use std::time::Duration;

/// One thing for the loop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Event {
    /// Something for the program.
    Input(Input),
    /// The system asks to end.
    End(i32),
    /// The system asks to stop for a while.
    Stop,
    /// The program was stopped and goes on.
    GoOn,
    /// The terminal is no longer there.
    Gone,
}

/// How often the reader looks whether the terminal is still there when no key comes.
const LOOK: Duration = Duration::from_secs(1);

/// Starts listening; from here on no signal, key or new size is lost.
pub(super) fn listen() -> io::Result<Receiver<Event>> {
    let (tell, events) = mpsc::channel();
    let signals = Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGTSTP, SIGCONT])?;
    // The library hears of a new size only after its first look, so one is taken before the size is first asked.
    event::poll(Duration::ZERO)?;
    let from_signals = tell.clone();
    thread::Builder::new().name("signals".to_owned()).spawn(move || pass_signals(signals, &from_signals))?;
    thread::Builder::new().name("keys".to_owned()).spawn(move || pass_inputs(&LastWord(tell)))?;
    Ok(events)
}

/// Passes signals on. Whoever asks a second time is obeyed at once: the loop may be stuck.
fn pass_signals(mut signals: Signals, tell: &Sender<Event>) {
    let mut asked = false;
    for signal in signals.forever() {
        let event = match signal {
            SIGTSTP => Event::Stop,
            SIGCONT => Event::GoOn,
            ending => Event::End(ending),
        };
        if let Event::End(number) = event {
            // A closing terminal hangs up twice by itself: once by the system, once by its shell.
            if asked && number != SIGHUP {
                guard::restore();
                signal_hook::low_level::exit(128 + number);
            }
            asked = true;
        }
        if tell.send(event).is_err() {
            return;
        }
    }
}

/// Passes inputs on until the terminal is gone. The library's own wait would spin on a terminal that has vanished, for
/// ever if it is let: hence a bounded wait, a look at the terminal after it, and a thread apart from the loop.
fn pass_inputs(last_word: &LastWord) {
    loop {
        let event = match event::poll(LOOK) {
            Ok(true) => event::read(),
            Ok(false) if io::stdin().is_terminal() => continue,
            Ok(false) | Err(_) => return,
        };
        let Ok(event) = event else { return };
        if let Some(input) = keys::input(event)
            && last_word.0.send(Event::Input(input)).is_err()
        {
            return;
        }
    }
}

/// Tells the loop, when the reader ends for whatever reason, that no key will come any more.
struct LastWord(Sender<Event>);

impl Drop for LastWord {
    fn drop(&mut self) {
        // A loop that has ended needs no word.
        let _ = self.0.send(Event::Gone);
    }
}
