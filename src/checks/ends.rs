//! The line starts and ends in the main colour.

use super::reach::{Bearings, Check, Demand, Heard, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

/// Common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "ends",
    origin: Origin::Practice,
    reach: Reach::Position(demands),
    heard: Heard::NotPlain,
    needs_page: true,
    tell,
};

fn demands(bearings: &Bearings<'_>) -> Vec<Demand> {
    if bearings.palette.main().is_none() {
        return Vec::new();
    }
    let points = bearings.taste.points(Knob::Ends);
    let ends = match bearings.slots {
        0 => vec![],
        1 => vec![0],
        slots => vec![0, slots - 1],
    };
    ends.into_iter().map(|slot| Demand::Lead { slot, points }).collect()
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let names: Vec<String> = slots.iter().map(|&slot| view.name(slot)).collect();
    format!(
        "{} should be in the main colour, {}: the line starts and ends in it",
        names.join(" and "),
        view.main_name()
    )
}
