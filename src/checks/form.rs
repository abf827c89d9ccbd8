//! A tile where the strip is to be die-cut, or the other way.

use crate::measure::Points;

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

/// Some like a title all of one form: common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "form",
    origin: Origin::Practice,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(bearings: &Bearings<'_>, fill: &Fill) -> Points {
    match fill.look() {
        Some(look) if !bearings.forms.allows(look.form) => bearings.taste.points(Knob::Form),
        _ => Points::ZERO,
    }
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let form = view.fills[slots[0]].look().map_or("", |look| look.form.as_str());
    format!("{} is a {form} letter; this strip is to be {}", view.name(slots[0]), view.strip.rules.forms)
}
