//! What came of a search: arrangements, what is proved of them, and what stands in the way.
//!
//! Must not know how they were found.

use crate::checks::Candidate;
use crate::measure::{Length, Points};
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Edit, Sticker, Stood, Strip};

/// What came of a search, so far or in the end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    /// What is proved.
    pub standing: Standing,
    /// The arrangements found, the best first; those beyond the first differ from all before.
    pub suggestions: Vec<Suggestion>,
    /// No arrangement scores less than this. Where the best is proved it is its score.
    pub bound: Points,
    /// Steps of the search so far.
    pub explored: u64,
    /// Slots that nothing in the stash can serve: place of the strip, and slot.
    pub unserved: Vec<(usize, usize)>,
}

/// What is proved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// The first is the best there is, and those after it are the next best that differ.
    Best,
    /// The search has not ended; the bound holds.
    BestSoFar,
    /// There is no arrangement.
    Impossible(Hindrance),
}

/// Why there is no arrangement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hindrance {
    /// Every slot stays as it is: pinned, by hand, stuck down or not asked about. The one suggestion is what stands
    /// there.
    NothingAsked,
    /// No strip has a slot that could be filled anew.
    NothingServes,
    /// A strip cannot be as short as its room.
    TooLong {
        /// The strip's place.
        strip: usize,
        /// The shortest line that the stash can make.
        shortest: Length,
        /// Its room.
        room: Length,
    },
    /// Each line could be as short as its room, but not all at once: they would need the same letters.
    TooLongTogether,
}

impl Hindrance {
    /// The same, of the strip at another place.
    pub(super) const fn of_strip(self, place: usize) -> Self {
        match self {
            Self::TooLong { shortest, room, .. } => Self::TooLong { strip: place, shortest, room },
            Self::NothingAsked | Self::NothingServes | Self::TooLongTogether => self,
        }
    }
}

/// One arrangement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suggestion {
    /// The sum over all strips of the plan; lower is better.
    pub score: Points,
    /// Every strip of the plan, in the file's order.
    pub strips: Vec<SuggestedStrip>,
}

/// One strip of an arrangement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SuggestedStrip {
    /// Its score.
    pub score: Points,
    /// The height that it is compared by.
    pub height: Option<Length>,
    /// Slot by slot.
    pub puts: Vec<Put>,
}

/// What an arrangement does with a slot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Put {
    /// Leaves what stands there: pinned, by hand, stuck, or not asked about.
    Kept,
    /// Stands a letter there.
    Letter(Candidate),
    /// Leaves it empty.
    Empty,
}

impl Suggestion {
    /// The plan with this arrangement on its strips. A letter that stays where it is keeps how it stands; any other
    /// stands straight.
    #[must_use]
    pub fn applied(&self, plan: &Plan, stash: &Stash) -> Plan {
        let mut plan = plan.clone();
        for (place, suggested) in self.strips.iter().enumerate() {
            let edits = edits(&plan.strips()[place], suggested, stash);
            plan.edit_strip(place, Edit::Several(edits));
        }
        plan
    }
}

/// The edits that make `strip` what is suggested; none where it is that already.
fn edits(strip: &Strip, suggested: &SuggestedStrip, stash: &Stash) -> Vec<Edit> {
    let mut edits = Vec::new();
    for (slot, put) in suggested.puts.iter().enumerate() {
        let stood = match *put {
            Put::Kept => continue,
            Put::Empty => None,
            Put::Letter(candidate) => {
                let id = stash.chip(candidate.chip).id();
                Some(Stood::straight(Sticker::Chip { id, stands_in: candidate.stands_in }))
            }
        };
        let same = match (&stood, strip.letter(slot)) {
            (Some(stood), Some(was)) => stood.sticker == was.sticker,
            (stood, was) => stood.is_none() && was.is_none(),
        };
        if !same {
            edits.push(Edit::Letter { slot, stood });
        }
    }
    edits
}
