//! The loop: take what has come, do what follows from it, draw once, wait.
//!
//! Must not know the real terminal: it is handed a stage and a channel.

use super::events::Event;
use super::program::{Ending, Flow, Program};
use super::stage::{Stage, Stopped};
use crate::app::{Input, Key};
use std::io;
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

/// How long things may wait.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    /// From a change to the keeping of the trial.
    pub(super) keep: Duration,
    /// From one drawing to the next while work goes on and no key is pressed.
    pub(super) frame: Duration,
    /// From the last thing that happened to a look round, and from one look to the next.
    pub(super) look: Duration,
}

impl Default for Pace {
    fn default() -> Self {
        Self { keep: Duration::from_secs(1), frame: Duration::from_millis(50), look: Duration::from_secs(1) }
    }
}

/// How many events are taken before a drawing, so that a flood of them cannot keep the screen still.
const BATCH: usize = 256;

/// Runs the program to its end, and keeps the trial if that is not done yet.
pub(super) fn run<P: Program, S: Stage>(
    program: &mut P,
    stage: &mut S,
    events: &Receiver<Event>,
    pace: Pace,
) -> io::Result<Ending> {
    let mut rounds = Rounds::new(program, stage, pace);
    let ending = rounds.until_the_end(events);
    rounds.keep();
    match ending {
        Err(_) if !rounds.stage.is_there() => Ok(Ending::TerminalGone),
        ending => ending,
    }
}

struct Rounds<'a, P, S> {
    program: &'a mut P,
    stage: &'a mut S,
    pace: Pace,
    /// Whether the screen is ours.
    awake: bool,
    /// Whether something may have changed since it was last drawn.
    stale: bool,
    drawn: Option<Instant>,
    keep_by: Option<Instant>,
    /// When the program looks round, if nothing happens until then.
    look_by: Instant,
}

impl<'a, P: Program, S: Stage> Rounds<'a, P, S> {
    fn new(program: &'a mut P, stage: &'a mut S, pace: Pace) -> Self {
        let look_by = Instant::now() + pace.look;
        Self { program, stage, pace, awake: true, stale: true, drawn: None, keep_by: None, look_by }
    }

    fn until_the_end(&mut self, events: &Receiver<Event>) -> io::Result<Ending> {
        if let Some(ending) = self.tell_size()? {
            return Ok(ending);
        }
        loop {
            self.draw()?;
            if let Some(ending) = self.round(events)? {
                return Ok(ending);
            }
        }
    }

    /// Waits for something to happen, and does all that has happened by then.
    fn round(&mut self, events: &Receiver<Event>) -> io::Result<Option<Ending>> {
        match self.wait(events) {
            Ok(first) => {
                let more = std::iter::from_fn(|| events.try_recv().ok()).take(BATCH - 1);
                for event in std::iter::once(first).chain(more) {
                    let ending = self.event(event)?;
                    if ending.is_some() {
                        return Ok(ending);
                    }
                }
                self.look_by = Instant::now() + self.pace.look;
            }
            Err(RecvTimeoutError::Disconnected) => return Ok(Some(Ending::TerminalGone)),
            Err(RecvTimeoutError::Timeout) if self.program.is_working() => {
                let effects = self.program.work();
                // The last slice is drawn at once, the others at the pace of the eye.
                let now = !self.program.is_working() || !effects.is_empty();
                self.stale |= now || self.drawn.is_none_or(|drawn| drawn.elapsed() >= self.pace.frame);
                if let Some(ending) = self.effects(effects) {
                    return Ok(Some(ending));
                }
            }
            Err(RecvTimeoutError::Timeout) if Instant::now() >= self.look_by => self.look_round(),
            Err(RecvTimeoutError::Timeout) => {}
        }
        self.keep_in_time();
        Ok(None)
    }

    fn wait(&self, events: &Receiver<Event>) -> Result<Event, RecvTimeoutError> {
        if !self.awake {
            return events.recv().map_err(RecvTimeoutError::from);
        }
        if self.program.is_working() {
            return events.recv_timeout(Duration::ZERO);
        }
        let by = self.keep_by.map_or(self.look_by, |keep_by| keep_by.min(self.look_by));
        events.recv_timeout(by.saturating_duration_since(Instant::now()))
    }

    fn look_round(&mut self) {
        self.stale |= self.program.look_round();
        self.look_by = Instant::now() + self.pace.look;
    }

    fn event(&mut self, event: Event) -> io::Result<Option<Ending>> {
        match event {
            Event::Input(Input::Key(Key::SUSPEND)) => self.suspend(Stopped::Job)?,
            Event::Stop => self.suspend(Stopped::Process)?,
            Event::GoOn => return self.wake(),
            Event::Input(input) => {
                self.stale = true;
                let effects = self.program.input(input);
                return Ok(self.effects(effects));
            }
            Event::End(signal) => return Ok(Some(Ending::Signal(signal))),
            Event::Gone => return Ok(Some(Ending::TerminalGone)),
        }
        Ok(None)
    }

    fn effects(&mut self, effects: Vec<P::Effect>) -> Option<Ending> {
        effects.into_iter().any(|effect| self.program.effect(effect) == Flow::End).then_some(Ending::Quit)
    }

    fn tell_size(&mut self) -> io::Result<Option<Ending>> {
        let (columns, rows) = self.stage.size()?;
        let effects = self.program.input(Input::Resize { columns, rows });
        Ok(self.effects(effects))
    }

    fn draw(&mut self) -> io::Result<()> {
        if self.awake && self.stale {
            self.stage.draw(self.program)?;
            self.stale = false;
            self.drawn = Some(Instant::now());
        }
        Ok(())
    }

    fn suspend(&mut self, who: Stopped) -> io::Result<()> {
        if self.awake {
            self.keep();
            self.awake = !self.stage.suspend(who)?;
        }
        Ok(())
    }

    fn wake(&mut self) -> io::Result<Option<Ending>> {
        self.stage.wake()?;
        self.awake = true;
        self.stale = true;
        let ending = self.tell_size()?;
        if ending.is_none() && !self.program.is_working() {
            self.look_round();
        }
        Ok(ending)
    }

    /// Keeps the trial when its time has come; the time is set by the first change after the last keeping.
    fn keep_in_time(&mut self) {
        let now = Instant::now();
        if !self.program.is_unkept() {
            self.keep_by = None;
        } else if now >= *self.keep_by.get_or_insert(now + self.pace.keep) {
            self.keep();
        }
    }

    fn keep(&mut self) {
        if self.program.is_unkept() {
            self.program.keep_trial();
        }
        self.keep_by = None;
    }
}

#[cfg(test)]
mod tests;
