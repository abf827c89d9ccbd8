//! Where the loop draws: a screen that can be handed back to the shell for a while.
//!
//! Must not know when it is drawn, or why.

use super::guard::{self, Guard};
use super::program::Program;
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use rustix::process::{self, Signal};
use signal_hook::consts::SIGTSTP;
use signal_hook::low_level::emulate_default_handler;
use std::io::{self, BufWriter, IsTerminal, Stdout};
use std::mem::ManuallyDrop;

/// A screen as the loop needs it.
pub(super) trait Stage {
    /// Columns and rows, in cells.
    fn size(&self) -> io::Result<(u16, u16)>;

    /// Draws the program as it is now.
    fn draw<P: Program>(&mut self, program: &P) -> io::Result<()>;

    /// Hands the screen back to the shell and stops the process; `false` if nobody could wake it again, and nothing
    /// was done. It is the system's word that ends the stop, so nothing may be drawn between this and [`Stage::wake`].
    fn suspend(&mut self, who: Stopped) -> io::Result<bool>;

    /// Takes the screen again, blank.
    fn wake(&mut self) -> io::Result<()>;

    /// Whether there is still anything to draw on.
    fn is_there(&self) -> bool;
}

/// What is stopped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stopped {
    /// Everything the shell started together, as by its own key: what started this program (a build tool, a script)
    /// would otherwise hold the shell while it waits.
    Job,
    /// This process alone, to which alone the signal was sent.
    Process,
}

/// The terminal itself, its modes taken.
#[derive(Debug)]
pub(super) struct Screen {
    // Never dropped: its last act would be to show the cursor, and where that fails because the terminal is gone, to say
    // so on standard error, which panics when that is gone too. The guard shows the cursor.
    terminal: ManuallyDrop<Terminal<CrosstermBackend<BufWriter<Stdout>>>>,
    _guard: Guard,
}

/// Enough for the whole of a large screen, so that a frame goes out in one piece.
const FRAME: usize = 1 << 16;

impl Screen {
    /// Takes the terminal's modes and a blank screen.
    pub(super) fn open() -> io::Result<Self> {
        let guard = Guard::take()?;
        let backend = CrosstermBackend::new(BufWriter::with_capacity(FRAME, io::stdout()));
        let mut screen = Self { terminal: ManuallyDrop::new(Terminal::new(backend)?), _guard: guard };
        screen.blank()?;
        Ok(screen)
    }

    /// Blanks the screen and takes nothing on it as drawn. `Terminal::clear` would do so too, after asking the terminal
    /// where the cursor is: the answer would go to the thread that reads keys.
    fn blank(&mut self) -> io::Result<()> {
        let whole = self.terminal.get_frame().area();
        self.terminal.resize(whole)
    }
}

impl Stage for Screen {
    fn size(&self) -> io::Result<(u16, u16)> {
        let size = self.terminal.size()?;
        Ok((size.width, size.height))
    }

    fn draw<P: Program>(&mut self, program: &P) -> io::Result<()> {
        self.terminal.draw(|frame| program.draw(frame)).map(|_| ())
    }

    fn suspend(&mut self, who: Stopped) -> io::Result<bool> {
        if who == Stopped::Job && process::getsid(None)? == process::getpid() {
            // Started by the terminal itself, without a shell to go back to.
            return Ok(false);
        }
        guard::restore();
        match who {
            Stopped::Job => process::kill_current_process_group(Signal::STOP)?,
            Stopped::Process => emulate_default_handler(SIGTSTP)?,
        }
        Ok(true)
    }

    fn wake(&mut self) -> io::Result<()> {
        // Whoever stopped it from outside gave no chance to hand the modes back first.
        guard::restore();
        guard::take()?;
        self.blank()
    }

    fn is_there(&self) -> bool {
        io::stdin().is_terminal()
    }
}
