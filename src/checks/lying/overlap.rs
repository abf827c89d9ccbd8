//! Letters over another strip's letters.

use crate::page::Amiss;

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "overlap",
    origin: Origin::Practice,
    amiss: Amiss::Overlap,
    price: Knob::Overlap,
    level: |_, _| Level::Warn,
    slots: |_| Vec::new(),
    tell,
};

fn tell(seen: &Seen<'_>) -> String {
    let area = seen.meeting.counts.of(Amiss::Overlap);
    format!("{area} mm2 of the line lie on another strip's letters; move one of them")
}
