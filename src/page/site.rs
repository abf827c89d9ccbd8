//! The page as one strip meets it: what stands on the paper, and the other strips.
//!
//! Must not know what anything costs.

use std::sync::Arc;

use super::carried::{Carried, CarriedLetter, joined};
use super::cells::Cells;
use super::disc::Disc;
use super::prices::{Amiss, Counts};
use super::{Cover, Side, Terrain};

/// Lengths nearer than this to a line are on it, in mm.
const SLIGHT: f64 = 1e-6;

/// What a strip meets on its page.
#[derive(Debug, Clone)]
pub struct Site {
    pub(super) terrain: Arc<Terrain>,
    /// Each other strip by its place in the plan, with the cells under its letters.
    others: Vec<(usize, Cells)>,
    /// Under all other strips.
    other: Cells,
    /// Whether there is anything on the page that a strip could touch.
    is_built: bool,
    /// Under things that are no beds and under other strips.
    pub(super) raised: Cells,
    /// Within 1.5 cells of what is raised.
    pub(super) within_touch: Cells,
}

/// What a strip touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Touch {
    /// The thing.
    pub what: Touched,
    /// The side of it that most of the letters beside it are at; `None`: it has no sides, or they only lie on it.
    pub side: Option<Side>,
    /// Whether letters lie on it.
    pub over: bool,
}

/// A thing that a strip touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touched {
    /// An element, by its place on the page.
    Element(usize),
    /// Another strip, by its place in the plan.
    Strip(usize),
}

impl Site {
    /// The page in cells with other strips on it, each with its place in the plan.
    #[must_use]
    pub fn new<'a>(terrain: Arc<Terrain>, others: impl Iterator<Item = (usize, &'a Carried)>) -> Self {
        let lay = |(place, carried): (usize, &Carried)| {
            let laid = carried.ink.moved(carried.at);
            (place, if terrain.size.is_some() { laid.cut_to((0, 0), &terrain.raised) } else { laid })
        };
        let others: Vec<(usize, Cells)> = others.map(lay).collect();
        let other = joined(others.iter().map(|(_, cells)| cells));
        let raised =
            if others.is_empty() { terrain.raised.clone() } else { joined([&terrain.raised, &other]) };
        let within_touch = Disc::beside().grown(&raised);
        let is_built = !terrain.raised.is_bare();
        Self { terrain, others, other, is_built, raised, within_touch }
    }

    /// What is amiss with `carried` moved by whole millimetres from where it was laid, trapped paper aside.
    pub(super) fn counts(&self, carried: &Carried, moved: (i32, i32)) -> Counts {
        let ink = &carried.ink;
        let number = |letters: usize| u32::try_from(letters).unwrap_or(u32::MAX);
        Counts::new(|amiss| match amiss {
            Amiss::Adrift => u32::from(self.is_built && !ink.meets(moved, &self.within_touch)),
            Amiss::Trapped => 0,
            Amiss::Cover => ink.shared(moved, &self.terrain.never),
            Amiss::Edge => number(self.on_edges(carried, moved).count()),
            Amiss::Overlap => ink.shared(moved, &self.other),
            Amiss::Off => number(carried.letters.iter().filter(|one| self.is_off(one, moved)).count()),
            Amiss::Margin => {
                number(carried.letters.iter().filter(|one| self.is_near_edge(one, moved)).count())
            }
        })
    }

    /// How many letters touch something, and how many mm2 of them lie on something.
    pub(super) fn hold(&self, carried: &Carried, moved: (i32, i32)) -> (u32, u32) {
        if !carried.ink.meets(moved, &self.within_touch) {
            return (0, 0);
        }
        let touching = carried.letters.iter().filter(|one| one.cells.meets(moved, &self.within_touch));
        (u32::try_from(touching.count()).unwrap_or(u32::MAX), carried.ink.shared(moved, &self.raised))
    }

    /// The letters that cover more than a third of their box on a thing that they may only overlap.
    pub(super) fn on_edges<'a>(
        &'a self,
        carried: &'a Carried,
        moved: (i32, i32),
    ) -> impl Iterator<Item = &'a CarriedLetter> {
        let things = || self.terrain.things.iter().filter(|thing| thing.cover == Cover::Edge);
        let met = things().any(|thing| carried.ink.meets(moved, &thing.seen));
        let letters = if met { carried.letters.as_slice() } else { &[] };
        letters.iter().filter(move |letter| {
            things().any(|thing| 3.0 * f64::from(letter.cells.shared(moved, &thing.seen)) > letter.box_area)
        })
    }

    /// Whether a letter reaches beyond the page.
    pub(super) fn is_off(&self, letter: &CarriedLetter, moved: (i32, i32)) -> bool {
        self.is_nearer(letter, moved, 0.0)
    }

    /// Whether a letter on the page reaches into its margin.
    pub(super) fn is_near_edge(&self, letter: &CarriedLetter, moved: (i32, i32)) -> bool {
        self.is_nearer(letter, moved, self.terrain.margin.mm()) && !self.is_off(letter, moved)
    }

    fn is_nearer(&self, letter: &CarriedLetter, moved: (i32, i32), margin: f64) -> bool {
        self.to_edge(letter, moved).is_some_and(|distance| distance < margin - SLIGHT)
    }

    /// From a letter to the nearest edge of the page in mm, below 0 beyond it; `None` where the page has no size.
    pub(super) fn to_edge(&self, letter: &CarriedLetter, (x, y): (i32, i32)) -> Option<f64> {
        let size = self.terrain.size?;
        let one = letter.extent.moved(f64::from(x), f64::from(y));
        let (right, bottom) = (size.width.mm() - one.right, size.height.mm() - one.bottom);
        Some(one.left.min(one.top).min(right).min(bottom))
    }

    /// The shortest way straight up, down, left or right, in whole mm up to 100, on which a strip that is adrift comes to
    /// touch something, and what.
    pub(super) fn way_to_touch(
        &self,
        carried: &Carried,
        (x, y): (i32, i32),
    ) -> Option<((i32, i32), Touched)> {
        let ways = (1..=100).flat_map(|by| [(0, by), (0, -by), (by, 0), (-by, 0)]);
        let met = |way: &(i32, i32)| carried.ink.meets((x + way.0, y + way.1), &self.within_touch);
        let way = ways.into_iter().find(met)?;
        Some((way, self.touches(carried, (x + way.0, y + way.1)).first()?.what))
    }

    /// What trapped cells lie beside: elements, the topmost first, then strips.
    pub(super) fn beside(&self, trapped: &Cells) -> Vec<Touched> {
        let near = Disc::beside().grown(trapped);
        let things = self.terrain.things.iter().enumerate().rev().filter(|(_, thing)| !thing.is_bed);
        let elements = things.map(|(place, thing)| (Touched::Element(place), &thing.seen));
        let strips = self.others.iter().map(|(place, cells)| (Touched::Strip(*place), cells));
        elements.chain(strips).filter(|(_, cells)| near.meets((0, 0), cells)).map(|(what, _)| what).collect()
    }

    /// What a strip touches where it was laid: elements, the topmost first, then other strips.
    #[must_use]
    pub fn touches_of(&self, carried: &Carried) -> Vec<Touch> {
        self.touches(carried, carried.at)
    }

    /// The same, moved.
    pub(super) fn touches(&self, carried: &Carried, moved: (i32, i32)) -> Vec<Touch> {
        let things = self.terrain.things.iter().enumerate().rev().filter(|(_, thing)| !thing.is_bed);
        let mut touches: Vec<Touch> = things
            .filter_map(|(place, thing)| {
                let side = |x: i32, y: i32| thing.footprint.side_at(f64::from(x) + 0.5, f64::from(y) + 0.5);
                touch(carried, moved, &thing.seen, Touched::Element(place), side)
            })
            .collect();
        touches.extend(
            self.others.iter().filter_map(|(place, cells)| {
                touch(carried, moved, cells, Touched::Strip(*place), |_, _| None)
            }),
        );
        touches
    }

    /// The square millimetres of letters over each element that none may lie on.
    pub(super) fn covered(&self, carried: &Carried, moved: (i32, i32)) -> Vec<(usize, u32)> {
        let never = self.terrain.things.iter().enumerate().filter(|(_, thing)| thing.cover == Cover::Never);
        never
            .map(|(place, thing)| (place, carried.ink.shared(moved, &thing.seen)))
            .filter(|&(_, area)| area > 0)
            .collect()
    }
}

fn touch(
    carried: &Carried,
    moved: (i32, i32),
    cells: &Cells,
    what: Touched,
    side_at: impl Fn(i32, i32) -> Option<Side>,
) -> Option<Touch> {
    let ink = carried.ink.moved(moved);
    // A cell more all round, so that what is beside the patch is met as well.
    let near = Disc::beside().grown(&cells.cut_to((0, 0), &Disc::beside().grown(&ink)));
    if !ink.meets((0, 0), &near) {
        return None;
    }
    let (mut sides, mut over): (Vec<(Side, u32)>, bool) = (Vec::new(), false);
    for (x, y) in ink.iter() {
        if cells.holds(x, y) {
            over = true;
        } else if near.holds(x, y)
            && let Some(side) = side_at(x, y)
        {
            match sides.iter_mut().find(|(known, _)| *known == side) {
                Some((_, count)) => *count += 1,
                None => sides.push((side, 1)),
            }
        }
    }
    let side = sides.into_iter().max_by_key(|&(side, count)| (count, std::cmp::Reverse(side)));
    Some(Touch { what, side: side.map(|(side, _)| side), over })
}
