//! All that is to be said of a strip where it lies.
//!
//! Must not know what anything costs, nor who is told.

use crate::measure::Length;

use super::carried::{Carried, CarriedLetter};
use super::cells::Cells;
use super::disc::Disc;
use super::prices::{Amiss, Counts};
use super::site::{Site, Touch, Touched};
use super::trapped::Trap;

/// What a strip meets where it lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meeting {
    /// What is amiss, counted.
    pub counts: Counts,
    /// Trapped paper, and what it is caught by besides the strip.
    pub trapped: (Cells, Vec<Touched>),
    /// What it touches: elements, the topmost first, then strips.
    pub touches: Vec<Touch>,
    /// For a strip that is adrift the shortest straight way on which it comes to touch something, in mm to the right and
    /// down, and what.
    pub way: Option<((i32, i32), Touched)>,
    /// Elements that no letter may lie on, with the mm2 of letters on them.
    pub covered: Vec<(usize, u32)>,
    /// Slots of letters that lie on a thing that they may only overlap.
    pub on_edges: Vec<usize>,
    /// Slots of letters beyond the page's edge, and of those within its margin.
    pub at_edge: (Vec<usize>, Vec<usize>),
    /// From the letter nearest to the page's edge to that edge, below 0 beyond it.
    pub to_edge: Option<Length>,
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
        let to_edge = carried.letters.iter().filter_map(|letter| site.to_edge(letter, at)).reduce(f64::min);
        // What lies beyond the page touches, covers and traps nothing.
        let cut = (!off.is_empty()).then(|| carried.cut_to(&site.terrain.raised));
        let carried = cut.as_ref().unwrap_or(carried);
        let trapped = Trap::here(&site.raised, carried, Disc::new(radius)).cells(at);
        let counts = site.counts(carried, at).with(Amiss::Trapped, trapped.count());
        let way = (counts.of(Amiss::Adrift) > 0).then(|| site.way_to_touch(carried, at)).flatten();
        Self {
            counts,
            touches: site.touches(carried, at),
            way,
            covered: site.covered(carried, at),
            on_edges: site.on_edges(carried, at).map(|letter| letter.slot).collect(),
            at_edge: (off, near_edge),
            to_edge: to_edge.map(Length::from_mm_f64),
            trapped: (trapped.clone(), if trapped.is_bare() { Vec::new() } else { site.beside(&trapped) }),
        }
    }
}
