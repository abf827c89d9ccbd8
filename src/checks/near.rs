//! Closeness of height and colour even where all is well, so that a rich stash still has one best answer. Never told.

use crate::measure::{Hundredths, Points};

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "near",
    origin: Origin::House,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(bearings: &Bearings<'_>, fill: &Fill) -> Points {
    let Some(look) = fill.look() else { return Points::ZERO };
    let most = bearings.taste.points(Knob::NearMost);
    // 0.1 for each 1 % of ratio above 1: as many tenths as hundredths.
    let height = look
        .height
        .zip(bearings.height)
        .map_or(Points::ZERO, |(own, line)| Points::from_tenths(own.ratio(line).get() - 100).min(most));
    // 0.1 for each 1.0 of difference.
    let reach = bearings.taste.ratio(Knob::FamilyReach);
    let apart = look.tone.apart.filter(|&apart| !look.tone.neutral && apart <= reach).unwrap_or_default();
    height + Points::weighted(Hundredths::new(10), apart).min(most)
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    format!("{} is a little off in height or colour", view.name(slots[0]))
}
