//! A letter whose colours nothing on the page shares.

use crate::measure::{Hundredths, Points};

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::taste::{Knob, Taste};
use super::view::StripView;

/// Colours that are on the page: common practice, no source. The figure is the house's.
pub(super) const CHECK: Check = Check {
    id: "stray",
    origin: Origin::Practice,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: true,
    tell,
};

fn cost(bearings: &Bearings<'_>, fill: &Fill) -> Points {
    let Some(tone) = fill.look().map(|look| look.tone) else { return Points::ZERO };
    match tone.apart {
        Some(apart) if !tone.neutral => beyond(apart, bearings.taste),
        _ => Points::ZERO,
    }
}

fn beyond(apart: Hundredths, taste: &Taste) -> Points {
    let over = apart.get() - taste.ratio(Knob::FamilyReach).get();
    if over <= 0 {
        return Points::ZERO;
    }
    let far = Points::weighted(Hundredths::new(100), Hundredths::new(over));
    (taste.points(Knob::StrayBase) + far).min(taste.points(Knob::StrayMost))
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let name = view.name(slots[0]);
    let apart = view.fills[slots[0]].look().and_then(|look| look.tone.apart).unwrap_or_default();
    let colour = view.colour_name(slots[0]);
    let colours = view.scene.palette.colours();
    let leading: Vec<_> = colours.iter().take(3).map(|colour| colour.tint.name()).collect();
    let page = leading.join(", ");
    format!(
        "{name} is {colour}, which nothing on the page shares (nearest differs by {apart}); the page has {page}"
    )
}
