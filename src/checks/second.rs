//! The second colour stands near each end.

use super::reach::{Bearings, Check, Demand, Heard, LONG, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

/// Common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "second",
    origin: Origin::Practice,
    reach: Reach::Position(demands),
    heard: Heard::NotPlain,
    needs_page: true,
    tell,
};

fn demands(bearings: &Bearings<'_>) -> Vec<Demand> {
    let (Some(family), slots @ LONG..) = (bearings.palette.second(), bearings.slots) else {
        return Vec::new();
    };
    let points = bearings.taste.points(Knob::Second);
    [0..3, slots - 3..slots].map(|slots| Demand::FamilyIn { slots, family, points }).into()
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let second =
        view.scene.palette.second().map_or_else(String::new, |family| view.scene.palette.name(family));
    format!("no {second}, the second colour, near an end ({})", view.span(slots))
}
