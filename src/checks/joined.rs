//! Joined script beside a letter that is not of its sheet.

use crate::measure::Points;
use crate::title::Joint;

use super::look::Fill;
use super::reach::{Between, Check, Heard, Origin, Reach};
use super::taste::{Knob, Taste};
use super::view::StripView;

/// Script breaks when it is mixed: common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "joined",
    origin: Origin::Practice,
    reach: Reach::Pair(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(taste: &Taste, before: &Fill, here: &Fill, between: Between) -> Points {
    let script = [before, here].into_iter().any(|fill| fill.look().is_some_and(|look| look.joined));
    let breaks = between.joint == Joint::Word && script && before.sheet() != here.sheet();
    if breaks { taste.points(Knob::Joined) } else { Points::ZERO }
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    format!("joined script breaks beside another sheet's letter: {}", view.pairs(slots))
}
