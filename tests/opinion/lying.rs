//! A second opinion on a strip's place on its page: every term written anew from its rule, in whole tenths of a point.
//!
//! Must not know `oddment::checks`, nor `oddment::page` beyond what things lie on a page.
use oddment::page::{Cover, Element, Kind, Outline, Page};
use oddment::plan::Plan;
use oddment::stash::Stash;

use super::field::{Cell, Closer, Field, centre};
use super::heights::{line_height, suits};
use super::laid::{Laid, LaidLetter, laid};
use super::letter::Eye;

/// Less than this is no distance, in mm.
const NOTHING: f64 = 1e-6;

/// What is looked at where a page has no size: all that is drawn lies within.
pub(crate) const NO_PAGE: (Cell, Cell) = ((-40, -40), (160, 120));

/// A finding of the place.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Told {
    pub(crate) id: &'static str,
    pub(crate) tenths: i64,
    pub(crate) stop: bool,
    pub(crate) slots: Vec<usize>,
}

/// A page as one strip meets it.
pub(crate) struct Ground {
    /// Width and height in mm.
    size: Option<(f64, f64)>,
    margin: f64,
    things: Vec<Thing>,
    /// Under things that are no beds, and under other strips.
    raised: Field,
    /// Within 1.5 cells of that.
    beside: Field,
    other: Field,
    built: bool,
    pub(crate) radius: i32,
    /// Half the line's height in mm.
    pub(crate) half: f64,
}

struct Thing {
    seen: Field,
    cover: Cover,
    stops: bool,
}

/// Whether a thing covers a point; its edge does.
fn covers(element: &Element, (x, y): (f64, f64)) -> bool {
    let lie = &element.lie;
    let (wide, high) = (lie.size.width.mm(), lie.size.height.mm());
    let middle = (lie.at.x.mm() + wide / 2.0, lie.at.y.mm() + high / 2.0);
    let (sin, cos) = lie.turn.sin_cos();
    // The ends of the two middle lines, turned clockwise as seen; y runs down.
    let (across, down) = ((cos * wide / 2.0, sin * wide / 2.0), (-sin * high / 2.0, cos * high / 2.0));
    let off = (x - middle.0, y - middle.1);
    let along = |line: (f64, f64)| (off.0 * line.0 + off.1 * line.1) / (line.0 * line.0 + line.1 * line.1);
    let (u, v) = (along(across), along(down));
    match lie.outline {
        Outline::Rect => u.abs() <= 1.0 + 1e-9 && v.abs() <= 1.0 + 1e-9,
        Outline::Round => u * u + v * v <= 1.0 + 1e-9,
    }
}

/// From the first cell to the one after the last that a page has, or that anything on it may reach.
pub(super) fn frame(page: &Page) -> (Cell, Cell) {
    // A page is at most 1 m a side.
    let cells = |side: f64| (0..=1_000).find(|&cell| f64::from(cell) + 0.5 >= side).unwrap();
    page.size
        .map_or((NO_PAGE.0, NO_PAGE.1), |size| ((0, 0), (cells(size.width.mm()), cells(size.height.mm()))))
}

/// The cells that a thing covers.
pub(crate) fn under(element: &Element, page: &Page) -> Field {
    let ((left, top), (right, bottom)) = frame(page);
    let mut field = Field::bare((left, top), (right, bottom));
    for cell in (top..bottom).flat_map(|y| (left..right).map(move |x| (x, y))) {
        if covers(element, centre(cell)) {
            field.hold(cell);
        }
    }
    field
}

fn is_bed(element: &Element, page: &Page) -> bool {
    if let Some(said) = element.bed {
        return said;
    }
    let Some(page) = page.size else { return false };
    let area = |width: i64, height: i64| i128::from(width) * i128::from(height);
    let own = area(element.lie.size.width.nm(), element.lie.size.height.nm());
    [Kind::Paper, Kind::Mat].contains(&element.kind) && 2 * own >= area(page.width.nm(), page.height.nm())
}

fn cover(element: &Element) -> Cover {
    element.cover.unwrap_or(match element.kind {
        Kind::Photo | Kind::Journaling => Cover::Never,
        Kind::Label => Cover::Edge,
        _ => Cover::Fine,
    })
}

fn moved(cell: Cell, by: Cell) -> Cell {
    (cell.0 + by.0, cell.1 + by.1)
}

/// Points of an area: `price` tenths for each `unit` mm2, rounded half up.
fn of_area(area: usize, unit: i64, price: i64) -> i64 {
    (2 * price * i64::try_from(area).unwrap() + unit) / (2 * unit)
}

impl Ground {
    /// The page of `plan` with every placed strip but the one at `place` on it.
    pub(crate) fn new(plan: &Plan, place: usize, stash: &Stash) -> Self {
        let page = &plan.page;
        let (from, to) = frame(page);
        let bare = Field::bare(from, to);
        let (mut raised, mut other, mut things, mut built) = (bare.clone(), bare.clone(), Vec::new(), false);
        let mut hidden = bare.clone();
        for element in page.elements.iter().rev() {
            let whole = under(element, page);
            let mut seen = whole.clone();
            for cell in whole.cells() {
                if hidden.has(cell) {
                    seen.let_go(cell);
                }
                hidden.hold(cell);
                if !is_bed(element, page) {
                    raised.hold(cell);
                    built = true;
                }
            }
            let stops = element.original || element.kind == Kind::Journaling;
            things.push(Thing { seen, cover: cover(element), stops });
        }
        for (number, strip) in plan.strips().iter().enumerate().filter(|(number, _)| *number != place) {
            if let Some(at) = strip.place.at {
                let laid = laid(plan, number, stash, at, strip.place.turn);
                for &cell in &laid.ink {
                    raised.hold(moved(cell, laid.whole()));
                    other.hold(moved(cell, laid.whole()));
                }
            }
        }
        let mut beside = raised.like();
        for (x, y) in raised.cells() {
            (-1..=1).for_each(|dy| (-1..=1).for_each(|dx| beside.hold((x + dx, y + dy))));
        }
        let nm = height_of(plan, place, stash).unwrap_or(0);
        Self {
            size: page.size.map(|size| (size.width.mm(), size.height.mm())),
            margin: page.margin.mm(),
            things,
            raised,
            beside,
            other,
            built,
            radius: i32::try_from((nm + 1_999_999) / 2_000_000).unwrap().max(6),
            half: oddment::measure::Length::from_nm(nm).mm() / 2.0,
        }
    }

    /// A cell of E.
    pub(crate) fn raised(&self) -> Vec<Cell> {
        self.raised.cells()
    }

    /// What closes about a strip laid so.
    pub(crate) fn closer(&self, laid: &Laid, page: &Page) -> Closer {
        Closer::new(&self.raised(), &laid.body, frame(page), self.radius)
    }

    /// The sides of the page in mm.
    pub(crate) const fn size(&self) -> Option<(f64, f64)> {
        self.size
    }

    /// How firmly a place holds the strip: letters that touch something, mm2 of letters on something.
    pub(crate) fn hold(&self, laid: &Laid, by: Cell) -> (usize, usize) {
        let touches =
            |letter: &&LaidLetter| letter.cells.iter().any(|&cell| self.beside.has(moved(cell, by)));
        let over = laid.ink.iter().filter(|&&cell| self.raised.has(moved(cell, by)));
        (laid.letters.iter().filter(touches).count(), over.count())
    }

    /// What is amiss with a strip laid so and moved, given its trapped paper in mm2; what comes to no points left out.
    pub(crate) fn told(&self, laid: &Laid, by: Cell, trapped: usize) -> Vec<Told> {
        let count = |field: &Field| laid.ink.iter().filter(|&&cell| field.has(moved(cell, by))).count();
        let never = || self.things.iter().filter(|thing| thing.cover == Cover::Never);
        let covered: Vec<(usize, bool)> = never().map(|thing| (count(&thing.seen), thing.stops)).collect();
        let stops = covered.iter().any(|&(area, stops)| area > 0 && stops);
        let area: usize = covered.iter().map(|(area, _)| area).sum();
        let adrift = self.built && count(&self.beside) == 0;
        let (off, near) = self.at_edge(laid, by);
        let edges = self.on_edges(laid, by);
        let each = |slots: &Vec<usize>, price: i64| i64::try_from(slots.len()).unwrap() * price;
        let whole = Vec::new;
        let mut told = vec![
            Told { id: "adrift", tenths: i64::from(adrift) * 200, stop: false, slots: whole() },
            Told { id: "trapped", tenths: of_area(trapped, 50, 10), stop: false, slots: whole() },
            Told { id: "cover", tenths: of_area(area, 10, 10), stop: stops, slots: whole() },
            Told { id: "edge", tenths: each(&edges, 40), stop: false, slots: edges },
            Told { id: "overlap", tenths: of_area(count(&self.other), 10, 10), stop: false, slots: whole() },
            Told { id: "off", tenths: each(&off, 600), stop: true, slots: off },
            Told { id: "margin", tenths: each(&near, 30), stop: false, slots: near },
        ];
        told.retain(|one| one.tenths > 0);
        told
    }

    /// Slots of letters beyond the page's edge, and of those nearer to it than the margin.
    fn at_edge(&self, laid: &Laid, by: Cell) -> (Vec<usize>, Vec<usize>) {
        let Some((wide, high)) = self.size else { return (Vec::new(), Vec::new()) };
        let (x, y) = (f64::from(by.0), f64::from(by.1));
        let (mut off, mut near) = (Vec::new(), Vec::new());
        for letter in &laid.letters {
            let [left, top, right, bottom] = letter.reach;
            let room = [left + x, top + y, wide - right - x, high - bottom - y];
            let least = room.into_iter().fold(f64::MAX, f64::min);
            if least < -NOTHING {
                off.push(letter.slot);
            } else if least < self.margin - NOTHING {
                near.push(letter.slot);
            }
        }
        (off, near)
    }

    /// Slots of letters with more than a third of their box on a thing that they may only overlap.
    fn on_edges(&self, laid: &Laid, by: Cell) -> Vec<usize> {
        let edge = || self.things.iter().filter(|thing| thing.cover == Cover::Edge);
        let on = |letter: &&LaidLetter| {
            edge().any(|thing| {
                let cells = letter.cells.iter().filter(|&&cell| thing.seen.has(moved(cell, by))).count();
                f64::from(u32::try_from(cells).unwrap()) * 3.0 > letter.box_area
            })
        };
        laid.letters.iter().filter(on).map(|letter| letter.slot).collect()
    }
}

/// The height that a strip's line is compared by, in nm.
fn height_of(plan: &Plan, place: usize, stash: &Stash) -> Option<i64> {
    let strip = &plan.strips()[place];
    let eye = Eye::new(plan, place, stash, plan);
    let seen = |slot: usize| eye.slot(strip, slot, strip.letter(slot).map(|stood| &stood.sticker));
    let heights: Vec<i64> = (0..strip.len()).filter_map(|slot| seen(slot).letter?.height).collect();
    line_height(&heights, suits(strip, &plan.page))
}
