//! What is asked of the letters beyond the wording: case, form, height, and what a stand-in costs.
//!
//! Must not know any wording, nor what is left.

use crate::letter::{Character, StandIn, StandInKind};
use crate::measure::{Length, Points};
use crate::stash::Chip;
use crate::title::{CaseRule, FormRule, Mix, Rules};

/// What is asked of the letters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asking {
    /// Which case of a letter may stand for another.
    pub case: CaseRule,
    /// Which forms may be used.
    pub forms: FormRule,
    /// The least and the greatest height; `None`: any.
    pub tall: Option<(Length, Length)>,
    /// What a stand-in costs.
    pub costs: Costs,
}

/// What a stand-in costs by its kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Costs {
    /// Turned over, on its side or moved off its line.
    pub turned: Points,
    /// A character of nearly the same shape.
    pub look_alike: Points,
    /// The same letter in the other case, where the two differ in shape.
    pub other_case: Points,
    /// A part cut off.
    pub trimmed: Points,
}

impl Costs {
    /// What a stand-in of this kind costs.
    #[must_use]
    pub const fn of(self, kind: StandInKind) -> Points {
        match kind {
            StandInKind::Turned => self.turned,
            StandInKind::LookAlike => self.look_alike,
            StandInKind::OtherCase => self.other_case,
            StandInKind::Trimmed => self.trimmed,
        }
    }
}

impl Asking {
    /// Any case, form and height.
    #[must_use]
    pub const fn any(costs: Costs) -> Self {
        Self { case: CaseRule::Any, forms: FormRule::Any, tall: None, costs }
    }

    /// The character that is asked for where the wording has `written`.
    #[must_use]
    pub fn wanted(&self, written: &Character) -> Character {
        Rules { case: self.case, ..Rules::new(Mix::Plain) }.wanted(written)
    }

    /// What a letter that stands in by `row` costs; `None` where the rules rule it out.
    pub(super) fn cost(&self, row: &StandIn) -> Option<Points> {
        match row.kind {
            StandInKind::OtherCase if self.case != CaseRule::Any => None,
            StandInKind::OtherCase if row.same_shape => Some(Points::ZERO),
            kind => Some(self.costs.of(kind)),
        }
    }

    /// Whether `chip` has a form that may be used.
    pub(super) fn allows(&self, chip: Chip<'_>) -> bool {
        self.forms.allows(chip.sheet.make.form)
    }

    /// Whether a letter of this height may be used; small marks have none.
    pub(super) fn suits(&self, height: Option<Length>) -> bool {
        match (height, self.tall) {
            (Some(height), Some((least, most))) => least <= height && height <= most,
            _ => true,
        }
    }
}
