//! The checks of a strip's place on the page: one file a check.
//!
//! They look at a strip where it lies; the search for letters leaves them alone. Must not know how a place was found.

mod adrift;
mod cover;
mod edge;
mod margin;
mod off;
mod overlap;
mod seen;
mod three;
mod trapped;

pub(super) use seen::meetings;
pub use seen::{Lying, Seen};

use std::sync::Arc;

use crate::measure::Points;
use crate::page::{Amiss, Prices, Resting, Site, Sought, Terrain, Touch};
use crate::plan::Plan;
use crate::stash::Stash;

use super::finding::{Finding, Level};
use super::reach::Origin;
use super::scene::Scene;
use super::taste::{Knob, Taste};
use super::verdict::lying_view;

/// A check of the place: what it counts, and how it is told.
#[derive(Debug, Clone, Copy)]
pub struct PlaceCheck {
    /// Its id, as plans accept it and taste names it.
    pub id: &'static str,
    /// Whose rule it is.
    pub origin: Origin,
    /// What it counts.
    pub amiss: Amiss,
    /// What one of it costs.
    price: Knob,
    /// How much it matters.
    level: fn(&Seen<'_>, Points) -> Level,
    /// The slots it means; none: the whole strip.
    slots: fn(&Seen<'_>) -> Vec<usize>,
    /// The sentence: figures and what would help.
    tell: fn(&Seen<'_>) -> String,
}

/// Every check of the place that has points, in the order of the manual.
pub const PLACE_CHECKS: &[PlaceCheck] =
    &[adrift::CHECK, trapped::CHECK, cover::CHECK, edge::CHECK, overlap::CHECK, off::CHECK, margin::CHECK];

/// What each thing that is amiss with a place costs by the user's taste.
#[must_use]
pub fn prices(taste: &Taste) -> Prices {
    Prices::new(|amiss| {
        let row = PLACE_CHECKS.iter().find(|check| check.amiss == amiss);
        row.map_or(Points::ZERO, |check| taste.points(check.price))
    })
}

/// What the checks find amiss with the place of one strip, besides what its letters come to.
pub(super) fn find(seen: &Seen<'_>) -> Vec<Finding> {
    let prices = prices(&seen.scene.taste);
    let told = |check: &PlaceCheck| {
        let points = seen.meeting.counts.points(check.amiss, &prices);
        (seen.meeting.counts.of(check.amiss) > 0).then(|| Finding {
            id: check.id,
            level: (check.level)(seen, points),
            points,
            strip: seen.place,
            slots: (check.slots)(seen),
            message: (check.tell)(seen),
            accepted: false,
        })
    };
    PLACE_CHECKS.iter().filter_map(told).chain(three::find(seen)).collect()
}

/// What each placed strip touches, by its place in the plan: elements, the topmost first, then other strips.
#[must_use]
pub fn touches(plan: &Plan, stash: &Stash) -> Vec<(usize, Vec<Touch>)> {
    let terrain = Arc::new(Terrain::of(&plan.page));
    seen::at_sites(plan, stash, &terrain, |place, own, site| (place, site.touches_of(own)))
}

/// A search for the resting places of a strip at its present turn, the best `count` of them, with small turns tried of
/// each. Places are priced as if nothing was accepted. `None` where the page has no size, the strip no letters, or the
/// letters no room on the page.
#[must_use]
pub fn resting(plan: &Plan, place: usize, stash: &Stash, scene: &Scene, count: usize) -> Option<Resting> {
    let strip = plan.strips().get(place)?;
    let layout = crate::title::Layout::of(strip, stash);
    let height = lying_view(plan, strip, &layout, stash, scene).height();
    let all = seen::carried(plan, stash);
    let others = all.iter().filter(|(other, _)| *other != place).map(|(other, one)| (*other, one));
    let site = Site::new(scene.terrain(&plan.page), others);
    let shapes = seen::shapes(strip, &layout, stash);
    Resting::new(site, Sought { shapes, turn: strip.place.turn, height, count }, prices(&scene.taste))
}
