//! Two neighbours of one colour.

use crate::measure::Points;
use crate::title::Joint;

use super::look::Fill;
use super::reach::{Between, Check, Heard, Origin, Reach};
use super::taste::{Knob, Taste};
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "neighbours",
    origin: Origin::House,
    reach: Reach::Pair(cost),
    heard: Heard::Lively,
    needs_page: false,
    tell,
};

fn cost(taste: &Taste, before: &Fill, here: &Fill, between: Between) -> Points {
    if before.family().is_none() || before.family() != here.family() {
        return Points::ZERO;
    }
    taste.points(if between.joint == Joint::Gap { Knob::NeighboursGap } else { Knob::NeighboursWord })
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    format!("neighbours of one colour: {}", view.pairs(slots))
}
