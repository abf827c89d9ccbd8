//! Letters beyond the page's edge.

use crate::page::Amiss;

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "off",
    origin: Origin::Practice,
    amiss: Amiss::Off,
    price: Knob::Off,
    level: |_, _| Level::Stop,
    slots: |seen| seen.meeting.at_edge.0.clone(),
    tell,
};

fn tell(seen: &Seen<'_>) -> String {
    let slots = &seen.meeting.at_edge.0;
    let reach = if slots.len() == 1 { "reaches" } else { "reach" };
    let beyond = -seen.meeting.to_edge.unwrap_or_default();
    format!(
        "{} {reach} beyond the page's edge, by {} at most; move the line in",
        seen.letters(slots),
        seen.told(beyond)
    )
}
