//! What lies over the bench.
//!
//! Must not know what is under it.

use super::asking::Question;
use super::focus::Focus;
use super::lists::{AlternateList, Comparison, PlanList, Scroll};
use super::suggesting::SuggestionView;
use super::typing::Typing;

/// What lies over the bench, if anything.
#[derive(Debug, Clone)]
pub enum Over {
    /// Nothing.
    Nothing,
    /// The letters that could stand in the chosen slot.
    Alternates(AlternateList),
    /// The kept trial and this one.
    Compare(Comparison),
    /// A suggestion against the trial.
    Suggestions(Box<SuggestionView>),
    /// What one more letter would do.
    OneMore,
    /// The plans of this stash.
    Plans(PlanList),
    /// A page of text under a heading: the keys that work, what is wrong in the stash's files.
    Page(String, Scroll),
    /// The keys that work in what lies under them.
    Help(Scroll, Box<Self>),
    /// A line being typed.
    Typing(Typing),
    /// A question.
    Question(Question),
}

impl Over {
    /// Where keys go; `None`: to the bench.
    #[must_use]
    pub const fn focus(&self) -> Option<Focus> {
        match self {
            Self::Nothing => None,
            Self::Alternates(_) => Some(Focus::Alternates),
            Self::Compare(_) => Some(Focus::Compare),
            Self::Suggestions(_) => Some(Focus::Suggestions),
            Self::OneMore => Some(Focus::OneMore),
            Self::Plans(_) => Some(Focus::Plans),
            Self::Page(..) | Self::Help(..) => Some(Focus::Page),
            Self::Typing(_) => Some(Focus::Typing),
            Self::Question(_) => Some(Focus::Question),
        }
    }

    /// This, or what lies under the list of keys.
    #[must_use]
    pub fn beneath(&self) -> &Self {
        if let Self::Help(_, under) = self { under } else { self }
    }
}
