//! Letters within the page's margin.

use crate::page::Amiss;

use super::super::finding::Level;
use super::super::reach::Origin;
use super::super::taste::Knob;
use super::{PlaceCheck, Seen};

pub(super) const CHECK: PlaceCheck = PlaceCheck {
    id: "margin",
    origin: Origin::House,
    amiss: Amiss::Margin,
    price: Knob::Margin,
    level: |_, points| Level::of(points),
    slots: |seen| seen.meeting.at_edge.1.clone(),
    tell,
};

fn tell(seen: &Seen<'_>) -> String {
    let slots = &seen.meeting.at_edge.1;
    let stand = if slots.len() == 1 { "stands" } else { "stand" };
    let margin = seen.told(seen.plan.page.margin);
    // Where others lie beyond the page, how near these come is not the least of all.
    let nearest = seen.meeting.to_edge.filter(|_| seen.meeting.at_edge.0.is_empty());
    let how =
        nearest.map_or_else(String::new, |nearest| format!(", {} from it at the least", seen.told(nearest)));
    format!("{} {stand} nearer than {margin} to the page's edge{how}; move the line in", seen.letters(slots))
}
