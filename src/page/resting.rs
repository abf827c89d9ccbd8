//! Resting places: where on the page a strip lies best.
//!
//! Every position at 1 mm is looked at for all but trapped space, which is dear to find. In the order of what they cost so
//! far, and so of the least that they can cost, trapped space is then found of one after another, until nothing that is
//! left can be better than the best known. So the answer is that of trying every position. Must not know any clock.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::ops::Range;

use crate::measure::{Angle, Length, Point, Points};

use super::carried::{Carried, LetterShape};
use super::disc::Disc;
use super::prices::{Amiss, Prices};
use super::site::{Site, Touch};
use super::trapped::Trap;

/// How far the strip is turned either way in search of a better place, in whole degrees.
const TURNS: i32 = 6;
/// How far it is moved either way besides, in mm.
const SHIFT: i32 = 3;

/// A place for a strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rest {
    /// Where the feet of the first letter stand.
    pub at: Point,
    /// The strip's turn.
    pub turn: Angle,
    /// What is amiss with it in points.
    pub points: Points,
    /// What the strip touches there.
    pub touches: Vec<Touch>,
    /// Trapped paper in mm2.
    pub trapped: u32,
}

/// The order of places: by points; then the more letters touch something; then the fewer mm2 of them lie on something; then
/// the upper; then the one further left.
type Rank = (Points, Hold, i32, i32);

/// How firmly a place holds the strip: letters that touch something, then mm2 of letters that lie on something.
type Hold = (Reverse<u32>, u32);

/// A search for resting places that can be stopped and gone on with.
#[derive(Debug, Clone)]
pub struct Resting {
    site: Site,
    shapes: Vec<LetterShape>,
    turn: Angle,
    prices: Prices,
    /// Places differ by at least this, in mm.
    apart: f64,
    count: usize,
    carried: Carried,
    trap: Trap,
    stage: Stage,
    chosen: Vec<Spot>,
}

/// What a search is about.
#[derive(Debug, Clone)]
pub struct Sought {
    /// The letters.
    pub shapes: Vec<LetterShape>,
    /// The strip's present turn.
    pub turn: Angle,
    /// The height that the line is compared by; `None`: no letter tells.
    pub height: Option<Length>,
    /// How many places.
    pub count: usize,
}

/// A place that was settled.
#[derive(Debug, Clone, Copy)]
struct Spot {
    rank: Rank,
    turn: Angle,
    trapped: u32,
}

impl Spot {
    const fn at(&self) -> (i32, i32) {
        (self.rank.3, self.rank.2)
    }
}

#[derive(Debug, Clone)]
enum Stage {
    /// Rows are looked at for all but trapped space, as far as they are done.
    Survey {
        across: Range<i32>,
        rows: Range<i32>,
        next: i32,
        found: Vec<Rank>,
    },
    /// Trapped space is found, in the order of what positions cost without.
    Sift {
        found: Vec<Rank>,
        next: usize,
        exact: BinaryHeap<Reverse<(Rank, u32)>>,
    },
    /// Each chosen place is turned a little.
    Turn {
        next: usize,
    },
    Done,
}

impl Resting {
    /// A search on `site`. `None` where the page has no size, the strip no letters, or the letters no room on the page.
    #[must_use]
    pub fn new(site: Site, sought: Sought, prices: Prices) -> Option<Self> {
        let carried = Carried::new(&sought.shapes, Point::default(), sought.turn);
        let (size, extent) = (site.terrain.size?, carried.extent()?);
        let fits = |low: f64, high: f64, side: Length| -> Option<Range<i32>> {
            #[expect(clippy::cast_possible_truncation, reason = "a page is at most 1 m a side")]
            let (from, to) = ((-low - 1e-6).ceil() as i32, (side.mm() - high + 1e-6).floor() as i32);
            (from <= to).then_some(from..to + 1)
        };
        let across = fits(extent.left, extent.right, size.width)?;
        let rows = fits(extent.top, extent.bottom, size.height)?;
        let trap = Trap::anywhere(&site.raised, &carried, Disc::new(radius(sought.height)));
        Some(Self {
            site,
            turn: sought.turn,
            prices,
            apart: sought.height.map_or(0.0, Length::mm) / 2.0,
            count: sought.count,
            carried,
            trap,
            stage: Stage::Survey { across, next: rows.start, rows, found: Vec::new() },
            chosen: Vec::new(),
            shapes: sought.shapes,
        })
    }

    /// Goes on for `steps` steps, each well below a millisecond on a page of 12 x 12 in; `true` once finished.
    pub fn run(&mut self, steps: u32) -> bool {
        for _ in 0..steps {
            match self.stage {
                Stage::Survey { .. } => self.survey(),
                Stage::Sift { .. } => self.sift(),
                Stage::Turn { next } => self.turn_about(next),
                Stage::Done => return true,
            }
        }
        matches!(self.stage, Stage::Done)
    }

    /// How much of the work is done, of how much; an estimate.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        match &self.stage {
            Stage::Survey { rows, next, .. } => {
                (Range { start: rows.start, end: *next }.len(), 2 * rows.len())
            }
            Stage::Sift { next, found, .. } => (found.len() + next, 2 * found.len()),
            Stage::Turn { .. } | Stage::Done => (1, 1),
        }
    }

    /// The places so far, best first; final once the search has finished.
    #[must_use]
    pub fn places(&self) -> Vec<Rest> {
        let mut chosen = self.chosen.clone();
        // A place that was turned may be better by now than those chosen before it.
        chosen.sort_by_key(|spot| spot.rank);
        chosen.iter().map(|spot| self.told(spot)).collect()
    }

    fn told(&self, spot: &Spot) -> Rest {
        let (x, y) = spot.at();
        let turned =
            (spot.turn != self.turn).then(|| Carried::new(&self.shapes, Point::default(), spot.turn));
        let carried = turned.as_ref().unwrap_or(&self.carried);
        Rest {
            at: Point { x: Length::from_mm(i64::from(x)), y: Length::from_mm(i64::from(y)) },
            turn: spot.turn,
            points: spot.rank.0,
            touches: self.site.touches(carried, (x, y)),
            trapped: spot.trapped,
        }
    }

    /// Looks at one row of positions.
    fn survey(&mut self) {
        let Stage::Survey { across, rows, next, found } = &mut self.stage else { return };
        for x in across.clone() {
            let points = self.site.counts(&self.carried, (x, *next)).total(&self.prices);
            found.push((points, hold(&self.site, &self.carried, (x, *next)), *next, x));
        }
        *next += 1;
        if *next == rows.end {
            let mut found = std::mem::take(found);
            found.sort_unstable();
            self.stage = Stage::Sift { found, next: 0, exact: BinaryHeap::new() };
        }
    }

    /// Finds the trapped space of the next position, and chooses what nothing can beat.
    fn sift(&mut self) {
        let Stage::Sift { found, next, exact } = &mut self.stage else { return };
        // With trapped space found a position costs the same or more, so what comes before all others is settled.
        while let Some(Reverse((rank, trapped))) = exact.peek().copied()
            && found.get(*next).is_none_or(|other| rank <= *other)
        {
            exact.pop();
            let spot = Spot { rank, turn: self.turn, trapped };
            if self.chosen.len() < self.count && is_apart(&self.chosen, &spot, self.apart) {
                self.chosen.push(spot);
            }
        }
        match found.get(*next) {
            Some(&(_, hold, y, x)) if self.chosen.len() < self.count => {
                *next += 1;
                let spot = Spot { rank: (Points::ZERO, hold, y, x), turn: self.turn, trapped: 0 };
                if is_apart(&self.chosen, &spot, self.apart) {
                    let (points, trapped) =
                        price(&self.site, &self.carried, &self.trap, &self.prices, (x, y));
                    exact.push(Reverse(((points, hold, y, x), trapped)));
                }
            }
            _ => self.stage = Stage::Turn { next: 0 },
        }
    }

    /// Turns one of the chosen places by one of the small turns, about the middle of the strip.
    fn turn_about(&mut self, step: usize) {
        let turns = usize::try_from(2 * TURNS + 1).unwrap_or(1);
        let Some(&spot) = self.chosen.get(step / turns) else {
            self.stage = Stage::Done;
            return;
        };
        self.stage = Stage::Turn { next: step + 1 };
        let degrees = i32::try_from(step % turns).unwrap_or(0) - TURNS;
        if degrees == 0 || spot.rank.0 == Points::ZERO {
            return;
        }
        let turn = self.turn + Angle::from_thousandths(degrees * 1000);
        let carried = Carried::new(&self.shapes, Point::default(), turn);
        let (Some(before), Some(after)) = (self.middle(&spot), carried.extent()) else { return };
        let (across, down) = after.middle();
        let trap = self.trap.under(&carried);
        #[expect(clippy::cast_possible_truncation, reason = "a page is at most 1 m a side")]
        let (x, y) = ((before.0 - across).round() as i32, (before.1 - down).round() as i32);
        let mut best = spot;
        for moved in (-SHIFT..=SHIFT).flat_map(|dy| (-SHIFT..=SHIFT).map(move |dx| (x + dx, y + dy))) {
            let counts = self.site.counts(&carried, moved);
            // However little the user minds it, no strip rests beyond the page.
            if counts.of(Amiss::Off) > 0 || counts.total(&self.prices) >= best.rank.0 {
                continue;
            }
            let (points, trapped) = price(&self.site, &carried, &trap, &self.prices, moved);
            let rank = (points, hold(&self.site, &carried, moved), moved.1, moved.0);
            let turned = Spot { rank, turn, trapped };
            if points < best.rank.0 && self.is_apart_from_others(step / turns, &turned) {
                best = turned;
            }
        }
        self.chosen[step / turns] = best;
    }

    /// The middle of the strip where it lies, in mm.
    fn middle(&self, spot: &Spot) -> Option<(f64, f64)> {
        let carried = Carried::new(&self.shapes, Point::default(), spot.turn);
        let ((across, down), (x, y)) = (carried.extent()?.middle(), spot.at());
        Some((f64::from(x) + across, f64::from(y) + down))
    }

    fn is_apart_from_others(&self, place: usize, spot: &Spot) -> bool {
        let (before, after) = (&self.chosen[..place], &self.chosen[place + 1..]);
        is_apart(before, spot, self.apart) && is_apart(after, spot, self.apart)
    }
}

/// Whether a place differs from all others by at least `apart` mm.
fn is_apart(chosen: &[Spot], spot: &Spot, apart: f64) -> bool {
    chosen.iter().all(|other| {
        let ((x, y), (across, down)) = (spot.at(), other.at());
        f64::from((x - across).pow(2) + (y - down).pow(2)).sqrt() >= apart
    })
}

fn hold(site: &Site, carried: &Carried, moved: (i32, i32)) -> Hold {
    let (touching, over) = site.hold(carried, moved);
    (Reverse(touching), over)
}

/// The points of one position and its trapped paper in mm2.
fn price(site: &Site, carried: &Carried, trap: &Trap, prices: &Prices, moved: (i32, i32)) -> (Points, u32) {
    let trapped = trap.cells(moved).count();
    (site.counts(carried, moved).with(Amiss::Trapped, trapped).total(prices), trapped)
}

/// The radius of the disc that no trapped space holds: half the line's height in whole mm, rounded up, at least 6.
#[must_use]
pub fn radius(height: Option<Length>) -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "letters are at most some metres high")]
    height.map_or(0, |height| (height.mm() / 2.0).ceil() as i32).max(6)
}
