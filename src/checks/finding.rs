//! What a check found.
//!
//! Must not know how it is shown.

use crate::measure::Points;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// It cannot be stuck down as it is.
    Stop,
    /// 6.0 points or more.
    Warn,
    /// Less.
    Note,
}

impl Level {
    /// By points.
    #[must_use]
    pub fn of(points: Points) -> Self {
        if points >= Points::from_tenths(60) { Self::Warn } else { Self::Note }
    }

    /// The word for it.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Warn => "warn",
            Self::Note => "note",
        }
    }
}

/// A finding: what is not as it might be, where, and what would help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The check's id.
    pub id: &'static str,
    /// How much it matters.
    pub level: Level,
    /// What it adds to the score.
    pub points: Points,
    /// The place of the strip in the plan.
    pub strip: usize,
    /// The slots it means, from 0; empty: the whole strip.
    pub slots: Vec<usize>,
    /// One sentence with the figures and what would help.
    pub message: String,
    /// The user is content with it: it is greyed and counts nothing.
    pub accepted: bool,
}
