//! A letter that serves as a different one.

use crate::letter::StandInKind;
use crate::measure::Points;

use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::view::StripView;

pub(super) const CHECK: Check = Check {
    id: "stand-in",
    origin: Origin::House,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(_: &Bearings<'_>, fill: &Fill) -> Points {
    fill.look().map_or(Points::ZERO, |look| look.fixed.stand_in)
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let name = view.name(slots[0]);
    let Some(look) = view.fills[slots[0]].look() else { return name };
    let used = view.stash.chip(look.chip).letter.character.spoken();
    match look.stands_in {
        Some(StandInKind::Turned) => format!("{name} is made by turning {used}; a true one would be safer"),
        Some(StandInKind::LookAlike) => format!("{name} is made with {used}, which looks much like it"),
        Some(StandInKind::OtherCase) => format!("{name} is made with {used}, of the other case"),
        Some(StandInKind::Trimmed) => {
            format!("{name} is trimmed from {used}: cut away from the fingers, on a mat, with a fresh blade")
        }
        None => name,
    }
}
