//! A colour of the title that is seen in fewer than three places on the page. A note without points.
//!
//! Common practice: what is seen three times looks chosen. A place is the title itself, another strip, a thing on the page
//! of which something is seen, or the ground.

use std::collections::BTreeSet;

use crate::measure::{Points, Tint};
use crate::page::Page;
use crate::title::Role;

use super::super::finding::{Finding, Level};
use super::super::look::{Fill, Tone};
use super::super::palette::Family;
use super::super::view::StripView;
use super::Seen;
use super::seen::listed;

/// Places in which a colour looks chosen.
const PLACES: usize = 3;

pub(super) fn find(seen: &Seen<'_>) -> Option<Finding> {
    if *seen.plan.strips()[seen.place].role() != Role::title() || seen.plan.page.elements.is_empty() {
        return None;
    }
    let page = shown(seen);
    let elsewhere = |family: &Family| page.iter().filter(|families| families.contains(family)).count();
    let few: Vec<(Family, usize)> = families(seen.view)
        .into_iter()
        .filter(|family| matches!(family, Family::Page(_)))
        .map(|family| (family, 1 + elsewhere(&family)))
        .filter(|&(_, places)| places < PLACES)
        .collect();
    let name = |&(family, places): &(Family, usize)| {
        let often = if places == 1 { "only there" } else { "in two places" };
        format!("{} {often}", seen.scene.palette.name(family))
    };
    let told = listed(&few.iter().map(name).collect::<Vec<_>>());
    (!few.is_empty()).then(|| Finding {
        id: "three",
        level: Level::Note,
        points: Points::ZERO,
        strip: seen.place,
        slots: Vec::new(),
        message: format!("of the title's colours the page shows {told}; three places look chosen"),
        accepted: false,
    })
}

/// The families of each place besides the title.
fn shown(seen: &Seen<'_>) -> Vec<BTreeSet<Family>> {
    let page: &Page = &seen.plan.page;
    let family = |tint: &Tint| {
        Tone::of(std::slice::from_ref(tint), false, &seen.scene.palette, &seen.scene.taste).family
    };
    let terrain = seen.scene.terrain(page);
    let things = page.elements.iter().zip(terrain.seen()).filter(|(_, area)| *area > 0);
    let mut places: Vec<BTreeSet<Family>> =
        things.map(|(element, _)| element.colours.iter().map(family).collect()).collect();
    places.extend(page.ground.iter().map(|ground| BTreeSet::from([family(ground)])));
    let others = seen
        .plan
        .strips()
        .iter()
        .enumerate()
        .filter(|(place, strip)| *place != seen.place && strip.place.at.is_some());
    places.extend(others.map(|(_, strip)| families(&seen.view.of_other(strip, page))));
    places
}

/// The families of a strip's letters.
fn families(view: &StripView<'_>) -> BTreeSet<Family> {
    view.fills().iter().filter_map(Fill::family).collect()
}
