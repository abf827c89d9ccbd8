//! A fault of the program's own, on a real terminal: this test's binary runs itself there, as a program that panics.
//!
//! Must not know the bench: the terminal's loop is tried with a program of a few lines.

use std::path::PathBuf;

use oddment::app::{Input, Key};
use oddment::terminal::{Ending, Flow, Program, run};
use ratatui::Frame;

use super::screen::Screen;
use super::start::SIZE;

/// Names the file of the trial to the program that panics; without it this is a test like others, which has no terminal.
const TRIAL: &str = "ODDMENT_TEST_TRIAL";

/// Shows its last key; panics at a capital P.
struct Fragile {
    shown: String,
    trial: PathBuf,
}

impl Program for Fragile {
    type Effect = ();

    fn input(&mut self, input: Input) -> Vec<()> {
        self.shown = format!("seen {input:?}");
        let at = Input::Key(Key::parse("P").unwrap());
        assert!(input != at, "a letter too many");
        Vec::new()
    }

    fn effect(&mut self, (): ()) -> Flow {
        Flow::End
    }

    fn draw(&self, frame: &mut Frame<'_>) {
        frame.render_widget(self.shown.as_str(), frame.area());
    }

    fn is_unkept(&self) -> bool {
        false
    }

    fn keep_trial(&mut self) -> Option<PathBuf> {
        std::fs::write(&self.trial, &self.shown).ok()?;
        Some(self.trial.clone())
    }
}

#[test]
fn fragile_program() {
    let Some(trial) = std::env::var_os(TRIAL) else { return };
    let mut program = Fragile { shown: String::new(), trial: trial.into() };
    assert_eq!(run(&mut program).unwrap(), Ending::Panic);
}

#[test]
fn a_panic_restores_the_screen_and_keeps_the_trial() {
    let folder = tempfile::TempDir::new().unwrap();
    let trial = folder.path().join("trial");
    let binary = std::env::current_exe().unwrap();
    let args = ["--exact", "pty::crash::fragile_program", "--nocapture", "--test-threads=1"];
    let mut screen =
        Screen::start_program(binary.to_str().unwrap(), &args, &[(TRIAL, trial.as_os_str())], SIZE);
    screen.wait_for_text("seen Resize");
    assert!(screen.emulated().alternate_screen());
    screen.keys("P");
    assert_eq!(screen.exit_code(), 0, "{}", screen.contents());
    assert!(screen.is_restored(), "{}", screen.contents());
    let told = screen.contents();
    assert!(told.contains("oddment has stopped on a fault of its own: a letter too many"), "{told}");
    assert!(told.contains("Your trial is kept in"), "{told}");
    assert!(std::fs::read_to_string(trial).unwrap().starts_with("seen Key"));
}
