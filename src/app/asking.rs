//! Questions that need an answer before the program goes on.
//!
//! Must not know how they are drawn.

use crate::title::Wording;

use super::effect::Then;

/// A question to be answered by yes, no or neither.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Question {
    /// Something is not saved: save it before leaving?
    SaveBeforeLeaving,
    /// Something is not saved: save it before opening that plan?
    SaveBeforeOpening(String),
    /// A trial was kept when the program ended last time: go on with it?
    GoOnWithTrial,
    /// The stash is empty: try the sample?
    TrySample,
    /// Let go of the letters that were counted?
    DropCount,
    /// No letter was counted: is none left?
    NoneLeft,
    /// Take the letters off the stash?
    StickDown,
    /// Put the letters back?
    LiftAll,
    /// A letter came off the page: whole, or torn?
    LiftOne,
    /// Drop this title from the wishes?
    DropWish(Wording),
    /// Another hand has changed the plan's file, and the trial has changes of its own: take the file's? With what comes
    /// after saving, where that is what is kept waiting.
    TakeFile(Option<Then>),
}

impl Question {
    /// The question in words.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Self::SaveBeforeLeaving => "The plan is not saved. Save it before leaving?".into(),
            Self::SaveBeforeOpening(slug) => format!("The plan is not saved. Save it before opening {slug}?"),
            Self::GoOnWithTrial => {
                "A trial of this plan was kept when the program ended. Go on with it?".into()
            }
            Self::DropCount => "Let go of this sheet, and of what was counted?".into(),
            Self::NoneLeft => "No letter was typed. Is none left on this sheet?".into(),
            Self::StickDown => {
                "Are the letters stuck down? They are taken off the stash, and the plan is saved.".into()
            }
            Self::LiftAll => "Did all the letters come off whole? They go back into the stash.".into(),
            Self::LiftOne => "Did this letter come off whole? y: back into the stash, and the plan is saved. n: it tore and is \
                 spent. esc: it is still down."
                .into(),
            Self::DropWish(wording) => {
                format!("Drop the wish {}?", wording.text().replace('\n', " | "))
            }
            Self::TakeFile(_) => {
                "The plan's file was changed outside, and this trial has changes of its own. Take the file's? \
                 Then this trial is set aside. If not, saving makes the file say what this trial says; of what \
                 the file says now, only comments and unknown keys stay."
                    .into()
            }
            Self::TrySample => {
                "There is no sheet in this stash yet. y: try the program on a sample stash. n: count in a first sheet. \
                 esc: look around."
                    .into()
            }
        }
    }
}
