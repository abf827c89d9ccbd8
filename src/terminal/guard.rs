//! The terminal's modes: taken while the program is on the screen, given back however it ends.
//!
//! Must not know what is drawn.

use crossterm::event::{DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste};
use crossterm::terminal::{self, EnterAlternateScreen, LeaveAlternateScreen};
use crossterm::{Command, cursor, execute, style};
use std::fmt;
use std::io;
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether the modes are taken. There is one terminal a process, and a panic or a signal must be able to ask.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// The modes, taken; dropping it gives them back.
#[derive(Debug)]
pub(super) struct Guard(());

impl Guard {
    /// Takes the modes: keys unechoed and at once, the other screen, pastes marked, the mouse reported.
    pub(super) fn take() -> io::Result<Self> {
        let guard = Self(());
        take()?;
        Ok(guard)
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        restore();
    }
}

/// Takes the modes again after [`restore`].
pub(super) fn take() -> io::Result<()> {
    TAKEN.store(true, Ordering::SeqCst);
    terminal::enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste, ReportButtons, cursor::Hide)
}

/// Gives the modes back and shows the cursor. Does nothing when they are not taken, so it may be called from anywhere
/// and any number of times.
pub(super) fn restore() {
    if TAKEN.swap(false, Ordering::SeqCst) {
        // Errors mean that the terminal is gone, and there is nothing left to put right.
        let _ = execute!(
            io::stdout(),
            style::ResetColor,
            DisableMouseCapture,
            DisableBracketedPaste,
            LeaveAlternateScreen,
            cursor::Show
        );
        let _ = terminal::disable_raw_mode();
    }
}

/// Asks for presses, drags and the wheel, with large coordinates (xterm's modes 1000, 1002 and 1006). The library's own
/// command would also ask for every movement of the mouse, which would wake the program for nothing.
struct ReportButtons;

impl Command for ReportButtons {
    fn write_ansi(&self, f: &mut impl fmt::Write) -> fmt::Result {
        f.write_str("\x1b[?1000h\x1b[?1002h\x1b[?1006h")
    }
}
