//! The title's main colour is the page's: it stands on a third of the letters.

use super::reach::{Bearings, Check, Demand, Heard, LONG, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

/// Common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "lead",
    origin: Origin::Practice,
    reach: Reach::Counts(demands),
    heard: Heard::Lively,
    needs_page: true,
    tell,
};

fn demands(bearings: &Bearings<'_>) -> Vec<Demand> {
    let (Some(family), slots @ LONG..) = (bearings.palette.main(), bearings.slots) else { return Vec::new() };
    vec![Demand::AtLeast { family, letters: slots.div_ceil(3), points: bearings.taste.points(Knob::Lead) }]
}

fn tell(view: &StripView<'_>, _: &[usize]) -> String {
    let main = view.scene.palette.main();
    let there = view.fills.iter().filter(|fill| fill.family() == main).count();
    let (of, want) = (view.fills.len(), view.fills.len().div_ceil(3));
    format!("{}, the main colour, is on {there} of {of} letters; {want} would let it lead", view.main_name())
}
