//! A panic: the screen is put back first, then the trial is kept, then the words are printed.
//!
//! Must not know what the trial is.

use super::guard;
use super::program::Program;
use std::backtrace::{Backtrace, BacktraceStatus};
use std::fmt::{self, Write};
use std::panic::{self, AssertUnwindSafe, PanicHookInfo};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};
use std::thread;

/// The words of the first panic whose words are not told yet; later ones only follow from it.
static WORDS: Mutex<Option<String>> = Mutex::new(None);

/// A hook that holds a panic's words back while the screen is the program's; dropping it brings the old hook back.
#[derive(Debug)]
pub(super) struct Hook(());

impl Hook {
    /// Sets the hook. A panic on this thread gives the screen back at once; one on another does not end the program.
    pub(super) fn set() -> Self {
        let here = thread::current().id();
        panic::set_hook(Box::new(move |info| {
            if thread::current().id() == here {
                guard::restore();
            }
            let words = words(info);
            WORDS.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert(words);
        }));
        Self(())
    }
}

impl Drop for Hook {
    fn drop(&mut self) {
        if !thread::panicking() {
            drop(panic::take_hook());
        }
    }
}

/// What is printed after a panic.
#[derive(Debug)]
pub(super) struct Crash {
    words: String,
    trial: Option<PathBuf>,
}

/// Runs the program; after a panic the trial is kept, as far as it was come.
pub(super) fn catch<P: Program, R>(program: &mut P, run: impl FnOnce(&mut P) -> R) -> Result<R, Crash> {
    // Half a change may stand in the program after a panic. Nothing is done with it but to keep the trial, beside which
    // the saved plan stays as it was; and should that panic in turn, the trial last kept is still there.
    panic::catch_unwind(AssertUnwindSafe(|| run(program))).map_err(|payload| {
        let trial = panic::catch_unwind(AssertUnwindSafe(|| program.keep_trial())).ok().flatten();
        Crash { words: untold().unwrap_or_else(|| said(&*payload).to_owned()), trial }
    })
}

/// The words of a panic that has not been told: one on a thread beside the loop.
pub(super) fn untold() -> Option<String> {
    WORDS.lock().unwrap_or_else(PoisonError::into_inner).take()
}

impl fmt::Display for Crash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "oddment has stopped on a fault of its own: {}", self.words)?;
        match &self.trial {
            Some(path) => {
                let shown: String = path.display().to_string().chars().filter(|c| !c.is_control()).collect();
                writeln!(f, "Your trial is kept in {shown}; it is offered back when you open the plan again.")
            }
            None => writeln!(f, "There was no trial to keep beyond what was kept before."),
        }
    }
}

fn words(info: &PanicHookInfo<'_>) -> String {
    let mut words = said(info.payload()).to_owned();
    if let Some(place) = info.location() {
        // Writing to a string does not fail.
        let _ = write!(words, " ({place})");
    }
    let backtrace = Backtrace::capture();
    if backtrace.status() == BacktraceStatus::Captured {
        let _ = write!(words, "\n{backtrace}");
    }
    words
}

fn said(payload: &(dyn std::any::Any + Send)) -> &str {
    if let Some(text) = payload.downcast_ref::<String>() {
        text
    } else {
        payload.downcast_ref::<&str>().copied().unwrap_or("without a word")
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, clippy::panic, reason = "a test of panics")]

    use super::catch;
    use crate::app::Input;
    use crate::terminal::program::{Flow, Program};
    use ratatui::Frame;
    use std::path::PathBuf;

    /// A program whose trial can, or cannot, be kept.
    struct Trial(Option<&'static str>);

    impl Program for Trial {
        type Effect = ();
        fn input(&mut self, _: Input) -> Vec<()> {
            Vec::new()
        }
        fn effect(&mut self, (): ()) -> Flow {
            Flow::On
        }
        fn draw(&self, _: &mut Frame<'_>) {}
        fn is_unkept(&self) -> bool {
            true
        }
        fn keep_trial(&mut self) -> Option<PathBuf> {
            match self.0 {
                Some("broken") => panic!("the trial is broken too"),
                place => place.map(PathBuf::from),
            }
        }
    }

    fn crash(trial: Option<&'static str>) -> String {
        catch::<_, ()>(&mut Trial(trial), |_| panic!("a letter too many")).unwrap_err().to_string()
    }

    #[test]
    fn a_panic_tells_where_the_trial_is() {
        let told = crash(Some("/plans/\u{1b}lantern.trial.toml"));
        assert_eq!(
            told,
            "oddment has stopped on a fault of its own: a letter too many\n\
             Your trial is kept in /plans/lantern.trial.toml; it is offered back when you open the plan again.\n"
        );
    }

    #[test]
    fn a_trial_that_cannot_be_kept_is_not_promised() {
        for trial in [None, Some("broken")] {
            let told = crash(trial);
            assert!(
                told.starts_with("oddment has stopped on a fault of its own: a letter too many\n"),
                "{told}"
            );
            assert!(told.ends_with("There was no trial to keep beyond what was kept before.\n"), "{told}");
        }
    }

    #[test]
    fn what_does_not_panic_is_passed_on() {
        assert_eq!(catch(&mut Trial(None), |_| 7).unwrap(), 7);
    }
}
