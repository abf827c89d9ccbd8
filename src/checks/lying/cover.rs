//! Letters over a thing that none may lie on: a photo, a journaling space.

use crate::page::{Amiss, Element, Kind};

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::seen::listed;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "cover",
    origin: Origin::Practice,
    amiss: Amiss::Cover,
    price: Knob::Cover,
    // What is stuck on an original photo spoils it, and what is written on cannot be read.
    level: |seen, points| {
        let stops = covered(seen).any(|(element, _)| element.original || element.kind == Kind::Journaling);
        if stops { Level::Stop } else { Level::of(points) }
    },
    slots: |_| Vec::new(),
    tell,
};

fn covered<'a>(seen: &'a Seen<'_>) -> impl Iterator<Item = (&'a Element, u32)> {
    seen.meeting.covered.iter().map(|&(place, area)| (&seen.plan.page.elements[place], area))
}

fn tell(seen: &Seen<'_>) -> String {
    let things: Vec<String> =
        covered(seen).map(|(element, area)| format!("{area} mm2 of {}", element.called())).collect();
    let why = if covered(seen).any(|(element, _)| element.original) {
        "it cannot be reprinted, so stick nothing on it: move the line off"
    } else if covered(seen).any(|(element, _)| element.kind == Kind::Journaling) {
        "that is room to write: move the line off"
    } else {
        "move the line off, or let it be covered"
    };
    format!("the line covers {}; {why}", listed(&things))
}
