//! What is asked of letters when it is told whether they can spell something: the user's taste says what a stand-in costs.
//!
//! Must not know what is left, nor any wording.

use crate::checks::{Knob, Taste};
use crate::supply::{Asking, Costs};

/// Any case, form and height, with stand-ins at the cost that `taste` puts on each.
#[must_use]
pub fn asking_of(taste: &Taste) -> Asking {
    Asking::any(Costs {
        turned: taste.points(Knob::Turned),
        look_alike: taste.points(Knob::LookAlike),
        other_case: taste.points(Knob::OtherCase),
        trimmed: taste.points(Knob::Trimmed),
    })
}
