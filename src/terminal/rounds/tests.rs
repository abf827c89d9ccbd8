//! The loop with a made-up program on a made-up stage: what is done, in which order.
//!
//! Must not know a real terminal.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use super::{BATCH, Pace, run};
use crate::app::{Input, Key, KeyCode};
use crate::terminal::events::Event;
use crate::terminal::program::{Ending, Flow, Program};
use crate::terminal::stage::{Stage, Stopped};
use ratatui::Frame;
use std::cell::RefCell;
use std::io;
use std::path::PathBuf;
use std::rc::Rc;
use std::sync::mpsc::{self, Receiver};
use std::time::Duration;

/// What was done, by the program and the stage alike.
type Log = Rc<RefCell<Vec<String>>>;

/// A program that types what it is told: `q` ends it, `w` gives it three slices of work, a capital changes the trial.
struct Typist {
    log: Log,
    left_to_do: u8,
    unkept: bool,
    /// What the next looks round find.
    news: Vec<bool>,
}

impl Program for Typist {
    type Effect = char;

    fn input(&mut self, input: Input) -> Vec<char> {
        match input {
            Input::Key(key) => key.typed().into_iter().collect(),
            Input::Resize { columns, rows } => {
                self.log.borrow_mut().push(format!("size {columns}x{rows}"));
                Vec::new()
            }
            Input::Paste(text) => text.chars().collect(),
            Input::Mouse(_) => Vec::new(),
        }
    }

    fn effect(&mut self, effect: char) -> Flow {
        self.log.borrow_mut().push(effect.to_string());
        self.unkept |= effect.is_uppercase();
        self.left_to_do += if effect == 'w' { 3 } else { 0 };
        if effect == 'q' { Flow::End } else { Flow::On }
    }

    fn draw(&self, _: &mut Frame<'_>) {}

    fn is_working(&self) -> bool {
        self.left_to_do > 0
    }

    fn work(&mut self) -> Vec<char> {
        self.left_to_do -= 1;
        self.log.borrow_mut().push("slice".to_owned());
        if self.left_to_do == 0 { vec!['q'] } else { Vec::new() }
    }

    fn look_round(&mut self) -> bool {
        self.log.borrow_mut().push("look".to_owned());
        self.news.pop().unwrap_or(false)
    }

    fn is_unkept(&self) -> bool {
        self.unkept
    }

    fn keep_trial(&mut self) -> Option<PathBuf> {
        self.unkept = false;
        self.log.borrow_mut().push("keep".to_owned());
        Some(PathBuf::from("trial.toml"))
    }
}

/// A stage of 80 x 24 that writes down what is asked of it.
struct Boards {
    log: Log,
    wakeable: bool,
    gone: bool,
}

impl Stage for Boards {
    fn size(&self) -> io::Result<(u16, u16)> {
        Ok((80, 24))
    }

    fn draw<P: Program>(&mut self, _: &P) -> io::Result<()> {
        self.log.borrow_mut().push("draw".to_owned());
        if self.gone { Err(io::Error::other("no terminal")) } else { Ok(()) }
    }

    fn suspend(&mut self, who: Stopped) -> io::Result<bool> {
        self.log.borrow_mut().push(format!("suspend {who:?}"));
        Ok(self.wakeable)
    }

    fn wake(&mut self) -> io::Result<()> {
        self.log.borrow_mut().push("wake".to_owned());
        Ok(())
    }

    fn is_there(&self) -> bool {
        !self.gone
    }
}

fn key(c: char) -> Event {
    Event::Input(Input::Key(Key::plain(KeyCode::Char(c))))
}

fn suspend() -> Event {
    Event::Input(Input::Key(Key::SUSPEND))
}

/// A channel with these events in it, and nothing after.
fn channel(events: Vec<Event>) -> Receiver<Event> {
    let (tell, receiver) = mpsc::channel();
    for event in events {
        tell.send(event).unwrap();
    }
    receiver
}

const AN_HOUR: Duration = Duration::from_hours(1);
const AT_LEISURE: Pace = Pace { keep: AN_HOUR, frame: AN_HOUR, look: AN_HOUR };

/// Runs the typist on these events; the ending, and what was done.
fn play_on(events: &Receiver<Event>, pace: Pace, wakeable: bool, gone: bool) -> (Ending, String) {
    let log = Log::default();
    let mut typist = Typist { log: Rc::clone(&log), left_to_do: 0, unkept: false, news: Vec::new() };
    let mut boards = Boards { log: Rc::clone(&log), wakeable, gone };
    let ending = run(&mut typist, &mut boards, events, pace).unwrap();
    let done = log.borrow().join(", ");
    (ending, done)
}

fn play(events: Vec<Event>) -> (Ending, String) {
    play_on(&channel(events), AT_LEISURE, true, false)
}

#[test]
fn the_size_comes_first_and_keys_that_wait_are_taken_together() {
    let (ending, done) = play(vec![key('a'), key('b'), key('c'), Event::Gone]);
    assert_eq!(done, "size 80x24, draw, a, b, c");
    assert_eq!(ending, Ending::TerminalGone);
}

#[test]
fn the_end_ends_at_once() {
    let (ending, done) = play(vec![key('a'), key('q'), key('b')]);
    assert_eq!(done, "size 80x24, draw, a, q");
    assert_eq!((ending, ending.exit_code()), (Ending::Quit, 0));
    let paste = Event::Input(Input::Paste("aqb".to_owned()));
    assert_eq!(play(vec![paste]).1, "size 80x24, draw, a, q");
}

#[test]
fn a_flood_of_keys_is_drawn_in_between() {
    let (_, done) = play((0..=BATCH).map(|_| key('a')).chain([key('q')]).collect());
    assert_eq!(done.matches("draw").count(), 2, "before the first key and after a batch");
}

#[test]
fn every_signal_keeps_the_trial_and_is_told_to_the_shell() {
    for (number, code) in [(15, 143), (1, 129), (2, 130)] {
        let (ending, done) = play(vec![key('A'), Event::End(number), key('b')]);
        assert_eq!(done, "size 80x24, draw, A, keep");
        assert_eq!(ending.exit_code(), code);
    }
    assert_eq!(Ending::TerminalGone.exit_code(), 129);
}

#[test]
fn a_trial_that_has_not_changed_is_not_kept_again() {
    assert_eq!(play(vec![key('a'), Event::End(15)]).1, "size 80x24, draw, a");
}

#[test]
fn a_change_is_kept_in_time_and_once() {
    // The channel stays open and silent: only the clock can go on, and the end comes from the work after it.
    let (tell, events) = mpsc::channel();
    tell.send(key('A')).unwrap();
    let at_once = Pace { keep: Duration::ZERO, ..AT_LEISURE };
    tell.send(key('w')).unwrap();
    let (ending, done) = play_on(&events, at_once, true, false);
    assert_eq!(done, "size 80x24, draw, A, w, keep, draw, slice, slice, slice, q");
    assert_eq!(ending, Ending::Quit);
}

#[test]
fn the_wait_for_keys_ends_when_the_trial_is_to_be_kept() {
    let (tell, events) = mpsc::channel();
    tell.send(key('A')).unwrap();
    let log = Log::default();
    let mut typist = Typist { log: Rc::clone(&log), left_to_do: 0, unkept: false, news: Vec::new() };
    let mut boards = Boards { log: Rc::clone(&log), wakeable: true, gone: false };
    let soon = Pace { keep: Duration::from_millis(1), ..AT_LEISURE };
    let mut rounds = super::Rounds::new(&mut typist, &mut boards, soon);
    while rounds.keep_by.is_none() && !log.borrow().contains(&"keep".to_owned()) {
        assert_eq!(rounds.round(&events).unwrap(), None);
    }
    while rounds.keep_by.is_some() {
        assert_eq!(rounds.round(&events).unwrap(), None);
    }
    assert_eq!(*log.borrow(), ["A", "keep"]);
}

#[test]
fn work_goes_on_between_keys_and_its_pace_of_drawing_is_kept() {
    let (tell, events) = mpsc::channel();
    tell.send(key('w')).unwrap();
    tell.send(key('a')).unwrap();
    let (_, done) = play_on(&events, AT_LEISURE, true, false);
    assert_eq!(done, "size 80x24, draw, w, a, draw, slice, slice, slice, q");
    tell.send(key('w')).unwrap();
    let eager = Pace { frame: Duration::ZERO, ..AT_LEISURE };
    let (_, done) = play_on(&events, eager, true, false);
    assert_eq!(done, "size 80x24, draw, w, draw, slice, draw, slice, draw, slice, q");
}

#[test]
fn a_suspension_keeps_the_trial_and_draws_nothing_until_it_is_over() {
    let (_, done) = play(vec![key('A'), suspend(), key('b'), Event::GoOn, key('q')]);
    assert_eq!(done, "size 80x24, draw, A, keep, suspend Job, b, wake, size 80x24, look, q");
    let (_, done) = play(vec![Event::Stop, Event::Stop, Event::GoOn]);
    assert_eq!(done, "size 80x24, draw, suspend Process, wake, size 80x24, look, draw");
}

#[test]
fn a_suspension_that_nobody_could_end_is_declined() {
    let events = channel(vec![suspend(), key('a'), Event::Gone]);
    assert_eq!(play_on(&events, AT_LEISURE, false, false).1, "size 80x24, draw, suspend Job, a");
}

#[test]
fn a_drawing_that_fails_for_want_of_a_terminal_is_an_ending() {
    let (ending, done) = play_on(&channel(vec![key('A')]), AT_LEISURE, true, true);
    assert_eq!((ending, done.as_str()), (Ending::TerminalGone, "size 80x24, draw"));
}

#[test]
fn a_continuation_from_outside_repaints() {
    assert_eq!(play(vec![Event::GoOn]).1, "size 80x24, draw, wake, size 80x24, look, draw");
}

/// What is done in so many rounds in which nothing happens but that the time for a look comes; `news` is what the looks
/// find.
fn idle(rounds: usize, news: &[bool], pace: Pace) -> String {
    let log = Log::default();
    let news = news.iter().rev().copied().collect();
    let mut typist = Typist { log: Rc::clone(&log), left_to_do: 0, unkept: false, news };
    let mut boards = Boards { log: Rc::clone(&log), wakeable: true, gone: false };
    let (_tell, events) = mpsc::channel();
    let mut idle = super::Rounds::new(&mut typist, &mut boards, pace);
    for _ in 0..rounds {
        idle.draw().unwrap();
        assert_eq!(idle.round(&events).unwrap(), None);
    }
    log.borrow().join(", ")
}

#[test]
fn an_idle_program_looks_round_and_is_drawn_only_where_that_finds_something() {
    let soon = Pace { look: Duration::from_millis(1), ..AT_LEISURE };
    assert_eq!(idle(4, &[false, true, false], soon), "draw, look, look, draw, look, look");
}

#[test]
fn one_look_is_made_a_wait_and_none_before_its_time() {
    let at_once = Pace { look: Duration::ZERO, ..AT_LEISURE };
    assert_eq!(idle(3, &[], at_once), "draw, look, look, look");
    let (tell, events) = mpsc::channel();
    tell.send(key('a')).unwrap();
    tell.send(Event::Gone).unwrap();
    let (_, done) = play_on(&events, AT_LEISURE, true, false);
    assert_eq!(done, "size 80x24, draw, a", "an hour is not over");
}

#[test]
fn nothing_is_looked_at_while_work_goes_on_or_the_screen_is_not_ours() {
    let at_once = Pace { look: Duration::ZERO, ..AT_LEISURE };
    let (tell, events) = mpsc::channel();
    tell.send(key('w')).unwrap();
    let (_, done) = play_on(&events, at_once, true, false);
    assert_eq!(done, "size 80x24, draw, w, draw, slice, slice, slice, q");
    let (_, done) = play_on(&channel(vec![suspend(), key('a'), Event::GoOn, key('q')]), at_once, true, false);
    assert_eq!(done, "size 80x24, draw, suspend Job, a, wake, size 80x24, look, q");
}
