//! What is worked on between keys, and whether it takes long.
//!
//! Must not know the state or any clock: whoever has one says when something takes long.

use super::one_more::OneMore;
use super::pursuit::Run;
use super::seeking::Seeking;
use super::suggesting::Suggesting;
use super::why_not::WhyNot;

/// What is worked on between keys.
#[derive(Debug, Default)]
pub struct Work {
    /// The search for suggestions, kept as long as the plan is the same.
    pub suggesting: Option<Suggesting>,
    /// Why not the chosen alternate, while that is asked.
    pub why_not: Option<WhyNot>,
    /// What one more letter would do, while that is asked.
    pub one_more: Option<OneMore>,
    /// The search for resting places, kept as long as the plan is the same but for the strip's own place.
    pub resting: Option<Seeking>,
    /// A number that grows with everything that is begun or gone on with: its time counts from there.
    pub turn: u64,
    /// Whether it takes so long that it is told how far it is.
    pub is_long: bool,
}

impl Work {
    /// Whether there is anything to be taken on.
    #[must_use]
    pub fn is_going(&self) -> bool {
        self.one_more.as_ref().is_some_and(OneMore::is_going)
            || self.why_not.as_ref().is_some_and(|why| why.pursuit.is_going())
            || self.resting.as_ref().is_some_and(Seeking::is_going)
            || self.suggesting.as_ref().is_some_and(|one| one.pursuit.is_going())
    }

    /// Something is begun or gone on with.
    pub(super) fn begin(&mut self) {
        self.turn += 1;
        self.is_long = false;
    }

    /// Stops the search for resting places, if it goes.
    pub(super) fn stop_resting(&mut self) {
        if let Some(seeking) = &mut self.resting {
            seeking.stop(Run::Stopped);
            seeking.awaited = false;
        }
    }

    /// Stops what goes.
    pub(super) fn stop(&mut self, why: Run) {
        if let Some(one_more) = &mut self.one_more {
            one_more.stop(why);
        }
        if let Some(why_not) = &mut self.why_not {
            why_not.pursuit.stop(why);
        }
        if let Some(seeking) = &mut self.resting {
            seeking.stop(why);
        }
        if let Some(suggesting) = &mut self.suggesting {
            suggesting.pursuit.stop(why);
        }
    }
}
