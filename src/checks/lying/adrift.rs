//! A strip that touches nothing on the page.

use crate::measure::Length;
use crate::page::Amiss;

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "adrift",
    origin: Origin::Practice,
    amiss: Amiss::Adrift,
    price: Knob::Adrift,
    level: |_, points| Level::of(points),
    slots: |_| Vec::new(),
    tell,
};

fn tell(seen: &Seen<'_>) -> String {
    let Some(((right, down), what)) = seen.meeting.way else {
        return "the line touches nothing on the page; carry it to something that is there".to_owned();
    };
    let by = Length::from_mm(i64::from(right.abs() + down.abs()));
    let way = match (right, down) {
        (0, 1..) => "down",
        (0, _) => "up",
        (1.., _) => "to the right",
        _ => "to the left",
    };
    format!("the line touches nothing; {} {way} it would touch {}", seen.told(by), seen.called(what))
}
