//! Bare paper caught between the strip and what is there.

use crate::page::Amiss;

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::seen::listed;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "trapped",
    origin: Origin::Practice,
    amiss: Amiss::Trapped,
    price: Knob::Trapped,
    level: |_, points| Level::of(points),
    slots: |_| Vec::new(),
    tell,
};

fn tell(seen: &Seen<'_>) -> String {
    let area = seen.meeting.counts.of(Amiss::Trapped);
    let by: Vec<String> = seen.meeting.trapped.1.iter().map(|&what| seen.called(what)).collect();
    let by = if by.is_empty() { "what is there".to_owned() } else { listed(&by) };
    format!(
        "{area} mm2 of bare paper are trapped between the line and {by}; move it until it touches, or well clear"
    )
}
