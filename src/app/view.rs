//! The views of the program.
//!
//! Must not know what is seen in them.

use super::action::Action;

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum View {
    /// The letters, the strip and the checks.
    #[default]
    Bench,
    /// The page, and the strips where they lie on it.
    Page,
    /// The sheets, and what is left of each.
    Stash,
    /// What can be spelled.
    Wording,
    /// The placement order, as it will print.
    Order,
}

impl View {
    /// Every view, in the order in which the head line names them.
    pub const ALL: [Self; 5] = [Self::Bench, Self::Page, Self::Stash, Self::Wording, Self::Order];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bench => "bench",
            Self::Page => "page",
            Self::Stash => "stash",
            Self::Wording => "wording",
            Self::Order => "order",
        }
    }

    /// The action that goes to it.
    #[must_use]
    pub const fn action(self) -> Action {
        match self {
            Self::Bench => Action::ToBench,
            Self::Page => Action::ToPage,
            Self::Stash => Action::ToStash,
            Self::Wording => Action::ToWording,
            Self::Order => Action::ShowOrder,
        }
    }
}
