//! All that is to be said of a strip where it lies.
//!
//! Must not know what anything costs, nor who is told.

use super::carried::{Carried, CarriedLetter};
use super::cells::Cells;
use super::disc::Disc;
use super::prices::Counts;
use super::site::{Site, Touch};
use super::trapped::Trap;

/// What a strip meets where it lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meeting {
    /// What is amiss, counted.
    pub counts: Counts,
    /// Trapped paper.
    pub trapped: Cells,
    /// What it touches: elements, the topmost first, then strips.
    pub touches: Vec<Touch>,
    /// Elements that no letter may lie on, with the mm2 of letters on them.
    pub covered: Vec<(usize, u32)>,
    /// Slots of letters that lie on a thing that they may only overlap.
    pub on_edges: Vec<usize>,
    /// Slots of letters beyond the page's edge.
    pub off: Vec<usize>,
    /// Slots of letters within its margin.
    pub near_edge: Vec<usize>,
}

impl Meeting {
    /// Looks at `carried` where it was laid; trapped space is what no disc of `radius` mm reaches.
    #[must_use]
    pub fn of(site: &Site, carried: &Carried, radius: i32) -> Self {
        let at = carried.at;
        let slots = |which: &dyn Fn(&CarriedLetter) -> bool| {
            carried.letters.iter().filter(|one| which(one)).map(|one| one.slot).collect::<Vec<_>>()
        };
        let off = slots(&|letter| site.is_off(letter, at));
        let near_edge = slots(&|letter| site.is_near_edge(letter, at));
        // What lies beyond the page covers and traps nothing.
        let cut = (!off.is_empty()).then(|| carried.cut_to(&site.terrain.raised));
        let carried = cut.as_ref().unwrap_or(carried);
        let trapped = Trap::here(&site.raised, carried, Disc::new(radius)).cells(at);
        let counts = Counts {
            trapped: trapped.count(),
            off: u32::try_from(off.len()).unwrap_or(u32::MAX),
            margin: u32::try_from(near_edge.len()).unwrap_or(u32::MAX),
            ..site.counts(carried, at)
        };
        Self {
            counts,
            trapped,
            touches: site.touches(carried, at),
            covered: site.covered(carried, at),
            on_edges: site.on_edges(carried, at).map(|letter| letter.slot).collect(),
            off,
            near_edge,
        }
    }
}
