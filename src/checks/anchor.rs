//! The main colour stands in the middle of the line as well.

use super::reach::{Bearings, Check, Demand, Heard, LONG, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

/// Common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "anchor",
    origin: Origin::Practice,
    reach: Reach::Position(demands),
    heard: Heard::NotPlain,
    needs_page: true,
    tell,
};

fn demands(bearings: &Bearings<'_>) -> Vec<Demand> {
    if bearings.slots < LONG || bearings.palette.main().is_none() {
        return Vec::new();
    }
    let third = bearings.slots.div_ceil(3);
    let points = bearings.taste.points(Knob::Anchor);
    vec![Demand::MainIn { slots: third..bearings.slots - third, points }]
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let (main, middle) = (view.main_name(), view.span(slots));
    format!("no {main} in the middle ({middle}); one letter there would hold the line together")
}
