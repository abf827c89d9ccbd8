//! A letter much taller or smaller than the line.

use crate::measure::Points;

use super::heights::height_points;
use super::look::Fill;
use super::reach::{Bearings, Check, Heard, Origin, Reach};
use super::view::StripView;

/// Heights alike: common practice, no source. The figures are the house's.
pub(super) const CHECK: Check = Check {
    id: "height",
    origin: Origin::Practice,
    reach: Reach::Letter(cost),
    heard: Heard::Always,
    needs_page: false,
    tell,
};

fn cost(bearings: &Bearings<'_>, fill: &Fill) -> Points {
    let height = fill.look().and_then(|look| look.height);
    height.zip(bearings.height).map_or(Points::ZERO, |(own, line)| height_points(own, line, bearings.taste))
}

fn tell(view: &StripView<'_>, slots: &[usize]) -> String {
    let own = view.fills[slots[0]].look().and_then(|look| look.height).unwrap_or_default();
    let line = view.height.unwrap_or_default();
    let want = if own < line { "a taller one" } else { "a smaller one" };
    let (name, beside) = (view.name(slots[0]), view.beside(own, line));
    format!("{name} is {beside}; {want} would sit better")
}
