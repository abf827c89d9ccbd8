//! The lists and pages that lie over the bench.
//!
//! Must not know how they are drawn.

use crate::checks::{Alternate, Verdict};

/// A text too long for the screen, and how far it is scrolled.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Scroll {
    /// Its lines.
    pub lines: Vec<String>,
    /// The first line on the screen.
    pub top: usize,
}

impl Scroll {
    /// A text from its beginning.
    #[must_use]
    pub fn new(text: &str) -> Self {
        Self { lines: text.lines().map(str::to_owned).collect(), top: 0 }
    }

    /// Goes `by` lines on, or back, on a screen that shows `rows` of them: never beyond the last screenful.
    pub fn walk(&mut self, by: isize, rows: usize) {
        self.top = self.top.saturating_add_signed(by).min(self.lines.len().saturating_sub(rows));
    }
}

/// The letters that could stand in a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AlternateList {
    /// Best first.
    pub alternates: Vec<Alternate>,
    /// The chosen one.
    pub chosen: usize,
    /// The check that they would cure, where a finding was chosen.
    pub cures: Option<&'static str>,
}

/// Two trials side by side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Comparison {
    /// What the checks say of the kept one.
    pub kept: Verdict,
}

/// The plans of this stash.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PlanList {
    /// Their file stems, in order.
    pub slugs: Vec<String>,
    /// The chosen one.
    pub chosen: usize,
}

/// Goes `by` rows on in a list of `len`, or back, and stays within it.
pub(super) fn step(chosen: usize, by: isize, len: usize) -> usize {
    chosen.saturating_add_signed(by).min(len.saturating_sub(1))
}
