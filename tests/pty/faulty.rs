//! A program with a fault of its own, on the real terminal loop: what a panic leaves behind.
//!
//! The test binary runs itself as that program. Must not know the bench.

use std::path::PathBuf;

use oddment::app::{Input, Key};
use oddment::terminal::{Flow, Program, run};
use ratatui::Frame;

use super::screen::Screen;

/// Where the faulty program keeps its trial; without it the program's test does nothing.
const PLACE: &str = "ODDMENT_TEST_FAULTY";

struct Faulty {
    place: PathBuf,
    keys: usize,
}

impl Program for Faulty {
    type Effect = ();

    fn input(&mut self, input: Input) -> Vec<()> {
        if let Input::Key(key) = input {
            self.keys += 1;
            assert!(key != Key::parse("P").unwrap(), "a fault that the test asked for");
        }
        Vec::new()
    }

    fn effect(&mut self, (): ()) -> Flow {
        Flow::On
    }

    fn draw(&self, frame: &mut Frame<'_>) {
        let text = format!("faulty after {} keys", self.keys);
        frame.buffer_mut().set_string(0, 0, text, ratatui::style::Style::new());
    }

    fn is_unkept(&self) -> bool {
        self.keys > 0
    }

    fn keep_trial(&mut self) -> Option<PathBuf> {
        std::fs::write(&self.place, format!("{} keys", self.keys)).unwrap();
        Some(self.place.clone())
    }
}

/// The program itself, when the test below starts it.
#[test]
fn program() {
    if let Some(place) = std::env::var_os(PLACE) {
        let ending = run(&mut Faulty { place: place.into(), keys: 0 }).unwrap();
        std::process::exit(ending.exit_code().into());
    }
}

#[test]
fn a_panic_restores_the_terminal_and_keeps_the_trial() {
    let folder = tempfile::TempDir::new().unwrap();
    let place = folder.path().join("trial");
    let own = std::env::current_exe().unwrap();
    let args = ["--exact", "pty::faulty::program", "--nocapture", "--test-threads=1"];
    let env = [(PLACE, place.as_os_str())];
    let mut screen = Screen::start_program(own.to_str().unwrap(), &args, &env, (80, 24));
    screen.wait_for_text("faulty after 0 keys");
    screen.keys("ab");
    screen.wait_for_text("faulty after 2 keys");
    screen.keys("P");
    assert_eq!(screen.exit_code(), 101);
    assert!(screen.is_restored(), "{}", screen.contents());
    assert!(screen.contents().contains("a fault that the test asked for"), "{}", screen.contents());
    assert_eq!(std::fs::read_to_string(place).unwrap(), "3 keys");
}
