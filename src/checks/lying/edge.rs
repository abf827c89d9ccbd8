//! Letters that lie on a thing whose edge they may only overlap.

use crate::page::Amiss;

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "edge",
    origin: Origin::House,
    amiss: Amiss::Edge,
    price: Knob::Edge,
    level: |_, points| Level::of(points),
    slots: |seen| seen.meeting.on_edges.clone(),
    tell,
};

fn tell(seen: &Seen<'_>) -> String {
    let letters = seen.letters(&seen.meeting.on_edges);
    let lie = if seen.meeting.on_edges.len() == 1 { "lies" } else { "lie" };
    format!("{letters} {lie} by more than a third on what may only be overlapped at its edge; move the line")
}
