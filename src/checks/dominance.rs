//! One colour on most of the letters.

use super::reach::{Bearings, Check, Demand, Heard, LONG, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "dominance",
    origin: Origin::House,
    reach: Reach::Counts(demands),
    heard: Heard::Lively,
    needs_page: false,
    tell,
};

fn demands(bearings: &Bearings<'_>) -> Vec<Demand> {
    if bearings.slots < LONG {
        return Vec::new();
    }
    let points = bearings.taste.points(Knob::Dominance);
    vec![Demand::AtMost { letters: bearings.slots * 3 / 5, points }]
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let family = slots.first().and_then(|&slot| view.fills[slot].family());
    let name = family.map_or_else(String::new, |family| view.scene.palette.name(family));
    format!("{name} is on {} of {} letters; it drowns the others", slots.len(), view.fills.len())
}
