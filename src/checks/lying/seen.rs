//! A strip where it lies, as the checks of the place see it, and the words they share.
//!
//! Must not know any check.

use std::sync::Arc;

use crate::measure::{Length, Points};
use crate::page::{Carried, LetterShape, Meeting, Site, Terrain, Touched, radius};
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Layout, Strip, cuts};

use super::super::scene::Scene;
use super::super::telling::{tell_length, tell_touched};
use super::super::view::StripView;

/// How a strip lies on the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lying {
    /// What is amiss with its place in points, less what the user is content with.
    pub points: Points,
    /// What it meets there.
    pub meeting: Meeting,
}

/// A strip where it lies.
#[derive(Debug, Clone, Copy)]
pub struct Seen<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The strip's place in it.
    pub place: usize,
    /// What the letters' checks see of it.
    pub view: &'a StripView<'a>,
    /// What it meets.
    pub meeting: &'a Meeting,
    /// What is judged against.
    pub scene: &'a Scene,
}

impl Seen<'_> {
    /// What something on the page is called.
    pub(super) fn called(&self, what: Touched) -> String {
        tell_touched(self.plan, what)
    }

    /// Letters by their names: `L, A and N`.
    pub(super) fn letters(&self, slots: &[usize]) -> String {
        listed(&slots.iter().map(|&slot| self.view.name(slot)).collect::<Vec<_>>())
    }

    /// A length in the user's unit.
    pub(super) fn told(&self, length: Length) -> String {
        tell_length(length, self.scene.unit)
    }
}

/// `a`, `a and b`, `a, b and c`; no more than four, then how many more.
pub(super) fn listed(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] if names.len() <= 4 => format!("{} and {last}", first.join(", ")),
        [first @ .., _, _] => {
            let shown = &first[..3.min(first.len())];
            format!("{} and {} more", shown.join(", "), names.len() - shown.len())
        }
    }
}

/// The outlines of a strip's letters.
pub(super) fn shapes(strip: &Strip, layout: &Layout, stash: &Stash) -> Vec<LetterShape> {
    let cuts = cuts(strip, layout, stash).into_iter();
    cuts.map(|cut| LetterShape { slot: cut.slot, word: cut.word, outline: cut.edge, box_area: cut.box_area })
        .collect()
}

/// Every placed strip of `plan` with a letter on it over its page, by its place in the plan.
pub(super) fn carried(plan: &Plan, stash: &Stash) -> Vec<(usize, Carried)> {
    let laid = plan.strips().iter().enumerate().filter_map(|(place, strip)| {
        let shapes = shapes(strip, &Layout::of(strip, stash), stash);
        let at = strip.place.at.filter(|_| !shapes.is_empty())?;
        Some((place, Carried::new(&shapes, at, strip.place.turn)))
    });
    laid.collect()
}

/// What each placed strip meets, by its place in the plan; nothing where there is no page to meet. `height` is the line's.
pub(in super::super) fn meetings(
    plan: &Plan,
    stash: &Stash,
    scene: &Scene,
    height: impl Fn(usize) -> Option<Length>,
) -> Vec<(usize, Meeting)> {
    if plan.page.size.is_none() && plan.page.elements.is_empty() {
        return Vec::new();
    }
    let met = |place, own: &Carried, site: &Site| (place, Meeting::of(site, own, radius(height(place))));
    at_sites(plan, stash, &scene.terrain(&plan.page), met)
}

/// Looks with `look` at each placed strip, by its place in the plan, and at the page as it meets it.
pub(super) fn at_sites<T>(
    plan: &Plan,
    stash: &Stash,
    terrain: &Arc<Terrain>,
    look: impl Fn(usize, &Carried, &Site) -> T,
) -> Vec<T> {
    let all = carried(plan, stash);
    let others = |place: usize| all.iter().filter(move |(other, _)| *other != place);
    let site = |place| Site::new(Arc::clone(terrain), others(place).map(|(other, one)| (*other, one)));
    all.iter().map(|(place, own)| look(*place, own, &site(*place))).collect()
}
