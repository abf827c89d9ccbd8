//! What the terminal's loop asks of a program, and what it gives back.
//!
//! Must not know the loop or any terminal.

use crate::app::Input;
use ratatui::Frame;
use std::path::PathBuf;

/// A program that a terminal can run. The loop calls these one at a time, from one thread.
pub trait Program {
    /// Something to be done in the world: a file to save, the end.
    type Effect;

    /// Takes one thing that happened. The first is the size of the screen.
    fn input(&mut self, input: Input) -> Vec<Self::Effect>;

    /// Does one effect, in the order in which they were given.
    fn effect(&mut self, effect: Self::Effect) -> Flow;

    /// Draws everything as it is now; the frame is empty beforehand.
    fn draw(&self, frame: &mut Frame<'_>);

    /// Whether something is being worked on that [`work`](Self::work) would take further.
    fn is_working(&self) -> bool {
        false
    }

    /// Takes the work a slice further: some hundredths of a second, for keys wait meanwhile.
    fn work(&mut self) -> Vec<Self::Effect> {
        Vec::new()
    }

    /// Looks round in the world for what has changed there without a word, and says whether there is something new to
    /// draw. Called when nothing has happened for about a second, and when the screen comes back after a suspension; never
    /// while work goes on between keys.
    fn look_round(&mut self) -> bool {
        false
    }

    /// Whether the trial differs from what was last kept.
    fn is_unkept(&self) -> bool;

    /// Keeps the trial where it survives the program, and says where that is; `None` if there is no trial to speak of
    /// or it could not be kept. Called within two seconds of a change, before a suspension and at every ending.
    fn keep_trial(&mut self) -> Option<PathBuf>;
}

/// Whether the program goes on after an effect.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flow {
    /// It goes on.
    On,
    /// It ends now; effects and keys that came after are not looked at.
    End,
}

/// How a program ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// By its own effect.
    Quit,
    /// By a signal, of this number.
    Signal(i32),
    /// Its terminal went away.
    TerminalGone,
    /// By a fault of its own.
    Panic,
}

impl Ending {
    /// What the shell is told: 0, 128 and the signal's number (129 for a terminal gone, as by SIGHUP), or 101.
    #[must_use]
    pub fn exit_code(self) -> u8 {
        match self {
            Self::Quit => 0,
            Self::Signal(number) => u8::try_from(128 + number).unwrap_or(u8::MAX),
            Self::TerminalGone => 129,
            Self::Panic => 101,
        }
    }
}
