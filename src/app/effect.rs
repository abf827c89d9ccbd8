//! What the program asks the world to do.
//!
//! Must not know who does it.

use crate::stash::{Deed, Sheet};
use crate::title::{Wish, Wording};

/// Something to be done in the world; the answer comes back through a method of the state.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Save the plan under this stem, then go on.
    Save(String, Then),
    /// Open the plan of this stem.
    Open(String),
    /// Say which plans there are.
    ListPlans,
    /// Make the placement order anew, in the form and on the paper that are chosen.
    ShowOrder,
    /// Save the placement order so.
    WriteOrder,
    /// Save the plan, and stick its letters down.
    StickDown,
    /// Lift the letters that are stuck down.
    LiftAll,
    /// Record that the letter in a slot came off: whole, back into the stash; or torn, and spent.
    LiftOne {
        /// The place of its strip.
        strip: usize,
        /// Its slot, from 0.
        slot: usize,
        /// Whether it tore.
        torn: bool,
    },
    /// Take a new sheet into the stash.
    TakeIn(Box<Sheet>),
    /// Write what is told of a sheet; its counts stay.
    SaveSheet(Box<Sheet>),
    /// Count letters of a sheet, which has an entry for each of another colour.
    Count(Box<Sheet>, Deed),
    /// Read which sheets are on sale, and look ahead.
    LookAhead,
    /// Read the user's own list of words, if there is one, and look for ideas.
    LookForIdeas,
    /// Add a title to the wishes.
    AddWish(Wish),
    /// Drop a title from the wishes.
    DropWish(Wording),
    /// Forget the trial that was kept.
    DropTrial,
    /// Put the trial that was kept aside, so that nothing writes over it.
    SetTrialAside,
    /// Put aside what was kept of a sheet being counted.
    SetCountAside,
    /// Go on with the trial that was kept.
    TakeTrial,
    /// Set this trial aside, and go on with the plan as its file has it now.
    TakeFile,
    /// Go on with this trial though its file was changed by another hand; save it over that where something waits for it.
    KeepMine(Option<Then>),
    /// Go on with a scratch copy of the sample stash.
    TakeSample,
    /// Leave.
    Leave,
}

/// What comes after saving.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Then {
    /// Nothing.
    Stay,
    /// Leave.
    Leave,
    /// Open another plan.
    Open(String),
}
