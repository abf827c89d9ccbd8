//! One of the last of a letter that most titles need. A letter that is stuck down is spent, and costs nothing here.

use crate::measure::Points;

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "scarce",
    origin: Origin::House,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(_: &Bearings<'_>, fill: &Fill) -> Points {
    fill.look().map_or(Points::ZERO, |look| look.fixed.scarce)
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let name = view.name(slots[0]);
    let Some(look) = view.fills[slots[0]].look() else { return name };
    let used = view.stash.chip(look.chip).letter.character.spoken();
    match look.fixed.left_alike {
        1 => format!("{name} takes the last {used} of its size"),
        left => format!("{name} takes one of the last {left} {used} of its size"),
    }
}
