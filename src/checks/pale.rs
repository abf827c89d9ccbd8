//! A letter that hardly stands out from what lies under it.

use crate::measure::{Hundredths, Points};

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "pale",
    origin: Origin::Published("WCAG 2 success criterion 1.4.3: 3 to 1 for large text; the rest house"),
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(bearings: &Bearings<'_>, fill: &Fill) -> Points {
    let taste = bearings.taste;
    let enough = taste.ratio(Knob::PaleEnough);
    match fill.look().and_then(|look| look.fixed.contrast) {
        Some(contrast) if contrast < taste.ratio(Knob::PaleFaint) => taste.points(Knob::PaleMost),
        Some(contrast) if contrast < enough => {
            Points::weighted(taste.ratio(Knob::PaleSlope), Hundredths::new(enough.get() - contrast.get()))
        }
        _ => Points::ZERO,
    }
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let (name, colour) = (view.name(slots[0]), view.colour_name(slots[0]));
    let contrast = view.fills[slots[0]].look().and_then(|look| look.fixed.contrast).unwrap_or_default();
    let enough = view.scene.taste.ratio(Knob::PaleEnough);
    format!(
        "{name} in {colour} hardly shows: contrast {contrast} to 1 with what lies under it; {enough} to 1 reads well"
    )
}
