//! The bench: which pane has the keys, which strip and slot are chosen.
//!
//! Must not know what stands there.

use crate::checks::Alternate;
use crate::plan::Plan;

use super::focus::Focus;
use super::grid::Grid;

/// A pane of the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pane {
    /// The strip.
    #[default]
    Strip,
    /// The chips.
    Grid,
    /// The checks.
    Checks,
}

impl Pane {
    /// The next one, the way the eye goes: strip, chips, checks.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Strip => Self::Grid,
            Self::Grid => Self::Checks,
            Self::Checks => Self::Strip,
        }
    }

    /// Where keys go in this pane.
    #[must_use]
    pub const fn focus(self) -> Focus {
        match self {
            Self::Strip => Focus::Strip,
            Self::Grid => Focus::Grid,
            Self::Checks => Focus::Checks,
        }
    }
}

/// What is chosen on the bench.
#[derive(Debug, Clone, Default)]
pub struct Bench {
    /// The pane that has the keys.
    pub pane: Pane,
    /// The place of the chosen strip in the plan.
    pub strip: usize,
    /// The chosen slot, from 0.
    pub slot: usize,
    /// A slot marked for exchange.
    pub marked: Option<usize>,
    /// The chips.
    pub grid: Grid,
    /// The chosen finding.
    pub finding: usize,
    /// A plan kept to compare others with.
    pub kept: Option<Plan>,
    /// The alternates of the chosen slot, once asked for.
    pub(super) ranked: Option<Ranked>,
}

/// The alternates of one slot, as long as nothing else changes.
#[derive(Debug, Clone)]
pub(super) struct Ranked {
    pub(super) strip: usize,
    pub(super) slot: usize,
    /// The trial's version for which they hold; a swap in this very slot does not spoil them.
    pub(super) version: u64,
    pub(super) alternates: Vec<Alternate>,
}
