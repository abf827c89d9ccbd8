//! A slot with nothing in it.

use crate::measure::Points;

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "missing",
    origin: Origin::House,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(bearings: &Bearings<'_>, fill: &Fill) -> Points {
    if fill.is_filled() { Points::ZERO } else { bearings.taste.points(Knob::Missing) }
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let slot = slots[0];
    let name = view.name(slot);
    match view.strip.letter(slot).and_then(|stood| stood.chip()) {
        Some(gone) => format!("{name}: the stash has no {gone} any more; choose another letter"),
        None => format!("{name} is missing; stand a letter there"),
    }
}
