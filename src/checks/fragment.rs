//! Two neighbours from one sheet in a mixed word: they read as a leftover piece.

use crate::measure::Points;
use crate::title::Joint;

use super::look::Fill;
use super::reach::{Between, Check, Heard, Origin, Reach};
use super::taste::{Knob, Taste};
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "fragment",
    origin: Origin::House,
    reach: Reach::Pair(cost),
    heard: Heard::Lively,
    needs_page: false,
    tell,
};

fn cost(taste: &Taste, before: &Fill, here: &Fill, between: Between) -> Points {
    let one_sheet = before.sheet().is_some() && before.sheet() == here.sheet();
    if one_sheet && between.joint == Joint::Word && !between.whole {
        taste.points(Knob::Fragment)
    } else {
        Points::ZERO
    }
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    format!(
        "from one sheet in a mixed word: {}; parted, they would look less like a leftover",
        view.pairs(slots)
    )
}
