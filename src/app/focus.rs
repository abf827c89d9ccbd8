//! Where keys go, and where an action works.
//!
//! Must not know the actions.

/// Where the keys go: a pane of the bench, or what lies over it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Focus {
    /// The strip: walk its slots, swap, nudge.
    Strip,
    /// The grid of chips.
    Grid,
    /// The checks.
    Checks,
    /// The page to scale, with what lies on it.
    OnPage,
    /// The sheets of the stash.
    Sheets,
    /// What is told of a sheet, field by field.
    Fields,
    /// The colours that the letters counted next may have.
    Swatches,
    /// The letters being counted.
    Letters,
    /// The wishes.
    Wishes,
    /// The ideas for a wording.
    Ideas,
    /// The placement order, as it will print.
    Order,
    /// The list of alternates.
    Alternates,
    /// Two trials side by side.
    Compare,
    /// A suggestion against the trial.
    Suggestions,
    /// What one more letter would do.
    OneMore,
    /// The plans of this stash.
    Plans,
    /// A page of text.
    Page,
    /// One line being typed.
    Typing,
    /// A question to be answered.
    Question,
}

/// Where an action works.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// In every pane of the bench.
    Bench,
    /// On the bench, on the page and among wordings.
    Trial,
    /// Among wordings: the wishes and the ideas.
    Wordings,
    /// In every view.
    Views,
    /// While a sheet is in hand: its fields, its colours, its letters.
    Sheet,
    /// Only there.
    In(Focus),
    /// In lists and pages that lie over the bench.
    Over,
    /// In all of these.
    Both,
}

impl Reach {
    /// Whether it includes `focus`.
    #[must_use]
    pub fn includes(self, focus: Focus) -> bool {
        match self {
            Self::In(only) => only == focus,
            Self::Both => Self::Views.includes(focus) || Self::Over.includes(focus),
            Self::Bench => matches!(focus, Focus::Strip | Focus::Grid | Focus::Checks),
            Self::Wordings => matches!(focus, Focus::Wishes | Focus::Ideas),
            Self::Trial => {
                matches!(focus, Focus::OnPage)
                    || Self::Bench.includes(focus)
                    || Self::Wordings.includes(focus)
            }
            Self::Views => matches!(focus, Focus::Sheets | Focus::Order) || Self::Trial.includes(focus),
            Self::Sheet => matches!(focus, Focus::Fields | Focus::Swatches | Focus::Letters),
            Self::Over => {
                matches!(
                    focus,
                    Focus::Alternates
                        | Focus::Compare
                        | Focus::Suggestions
                        | Focus::OneMore
                        | Focus::Plans
                        | Focus::Page
                )
            }
        }
    }
}
