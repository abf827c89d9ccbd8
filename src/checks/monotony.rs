//! Too few colours.

use super::reach::{Bearings, Check, Demand, Heard, LONG, Origin, Reach};
use super::taste::Knob;
use super::view::StripView;
use crate::title::Mix;

/// Two colours alone cloy: common practice, no source.
pub(super) const CHECK: Check = Check {
    id: "monotony",
    origin: Origin::Practice,
    reach: Reach::Counts(demands),
    heard: Heard::NotPlain,
    needs_page: false,
    tell,
};

fn demands(bearings: &Bearings<'_>) -> Vec<Demand> {
    if bearings.slots < LONG {
        return Vec::new();
    }
    let want = bearings.palette.variety(bearings.taste.count(Knob::MonotonyWant));
    // A title of two words, each of one kind, cannot have three colours.
    let by_word = bearings.mix == Mix::Words;
    let families = if by_word { want.min(bearings.words) } else { want };
    let strays = !bearings.palette.is_known();
    vec![Demand::Families { families, strays, by_word, points: bearings.taste.points(Knob::Monotony) }]
}

fn tell(view: &StripView<'_>, _: &[usize]) -> String {
    let want = view.scene.palette.variety(view.scene.taste.count(Knob::MonotonyWant));
    if view.strip.rules.mix == Mix::Words {
        return format!("too few words wholly of one colour, each another; up to {want} would liven it up");
    }
    let whose = if view.scene.palette.is_known() { "of the page's colours" } else { "colours" };
    format!("fewer than {want} {whose} in the line; an accent would liven it up")
}
