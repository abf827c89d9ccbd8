//! A second opinion's letters of a strip, in cells where they lie.
//!
//! Must not know `oddment::checks` or `oddment::page`'s cells. It takes the letters' outlines on their strip from
//! `oddment::title`, which the ring `outside` holds to areas worked out by another library.

use std::collections::BTreeMap;

use oddment::measure::{Angle, Point};
use oddment::page::Page;
use oddment::plan::Plan;
use oddment::stash::Stash;
use oddment::title::{Layout, cuts};

use super::field::{Cell, Field, centre};
use super::lying::frame;

/// A strip's letters in cells, counted from the whole millimetres that the strip was laid at.
pub(crate) struct Laid {
    whole: Cell,
    pub(super) letters: Vec<LaidLetter>,
    /// Cells under letters.
    pub(crate) ink: Vec<Cell>,
    /// The same with each word's rows along the line filled from the first to the last.
    pub(crate) body: Vec<Cell>,
}

/// One letter of it.
pub(super) struct LaidLetter {
    pub(super) slot: usize,
    word: usize,
    pub(super) cells: Vec<Cell>,
    /// How far its outline reaches: left, top, right, bottom.
    pub(super) reach: [f64; 4],
    pub(super) box_area: f64,
}

/// The letters of a strip, its first with its feet at `at`.
pub(crate) fn laid(plan: &Plan, place: usize, stash: &Stash, at: Point, turn: Angle) -> Laid {
    let strip = &plan.strips()[place];
    let (sin, cos) = turn.sin_cos();
    let parted = |nm: i64| {
        let whole = i32::try_from(nm.div_euclid(1_000_000)).unwrap();
        (whole, f64::from(i32::try_from(nm.rem_euclid(1_000_000)).unwrap()) / 1e6)
    };
    let ((x, rest_x), (y, rest_y)) = (parted(at.x.nm()), parted(at.y.nm()));
    let on_page =
        |&(along, up): &(f64, f64)| (rest_x + along * cos + up * sin, rest_y + along * sin - up * cos);
    let letters = cuts(strip, &Layout::of(strip, stash), stash).into_iter().map(|cut| {
        let outline: Vec<Vec<(f64, f64)>> =
            cut.edge.iter().map(|polygon| polygon.iter().map(on_page).collect()).collect();
        let reach = outline.iter().flatten().fold([f64::MAX, f64::MAX, f64::MIN, f64::MIN], |r, p| {
            [r[0].min(p.0), r[1].min(p.1), r[2].max(p.0), r[3].max(p.1)]
        });
        let word = strip.wording().slots()[cut.slot].word;
        LaidLetter { slot: cut.slot, word, cells: within(&outline, reach), reach, box_area: cut.box_area }
    });
    let mut laid = Laid { whole: (x, y), letters: letters.collect(), ink: Vec::new(), body: Vec::new() };
    laid.fill(turn, (rest_x, rest_y));
    laid
}

/// The cells whose centres an outline goes round, by the non-zero rule.
fn within(outline: &[Vec<(f64, f64)>], reach: [f64; 4]) -> Vec<Cell> {
    #[expect(clippy::cast_possible_truncation, reason = "all lies within a metre")]
    let [left, top, right, bottom] = reach.map(|mm| mm.floor() as i32);
    let cells = (top..=bottom).flat_map(|y| (left..=right).map(move |x| (x, y)));
    cells.filter(|&cell| winding(outline, centre(cell)) != 0).collect()
}

/// How often an outline goes round a point: the sides that cross the line to its left. A point on a side belongs to what
/// follows to the right or below.
fn winding(outline: &[Vec<(f64, f64)>], (x, y): (f64, f64)) -> i32 {
    let mut turns = 0;
    for polygon in outline {
        let mut from = polygon[polygon.len() - 1];
        for &to in polygon {
            if (from.1 <= y) != (to.1 <= y) && from.0 + (y - from.1) / (to.1 - from.1) * (to.0 - from.0) <= x
            {
                turns += if to.1 > from.1 { 1 } else { -1 };
            }
            from = to;
        }
    }
    turns
}

impl Laid {
    /// Finds the cells of all letters, and fills the rows of each word: 1 mm high, counted from the feet of the first
    /// letter.
    fn fill(&mut self, turn: Angle, rest: (f64, f64)) {
        let (sin, cos) = turn.sin_cos();
        #[expect(clippy::cast_possible_truncation, reason = "all lies within a metre")]
        let on_strip = |cell: Cell| {
            let (dx, dy) = (centre(cell).0 - rest.0, centre(cell).1 - rest.1);
            ((dx * sin - dy * cos).floor() as i32, dx * cos + dy * sin)
        };
        let mut ink: Vec<Cell> = self.letters.iter().flat_map(|letter| letter.cells.clone()).collect();
        let mut body = ink.clone();
        for word in 0..=self.letters.iter().map(|letter| letter.word).max().unwrap_or(0) {
            let of_word = self.letters.iter().filter(|letter| letter.word == word);
            let cells: Vec<Cell> = of_word.flat_map(|letter| letter.cells.clone()).collect();
            let mut rows: BTreeMap<i32, (f64, f64)> = BTreeMap::new();
            for &cell in &cells {
                let (row, along) = on_strip(cell);
                let ends = rows.entry(row).or_insert((along, along));
                *ends = (ends.0.min(along), ends.1.max(along));
            }
            let (xs, ys) = (cells.iter().map(|cell| cell.0), cells.iter().map(|cell| cell.1));
            let (Some(left), Some(right)) = (xs.clone().min(), xs.max()) else { continue };
            let (Some(top), Some(bottom)) = (ys.clone().min(), ys.max()) else { continue };
            let near = (top - 2..=bottom + 2).flat_map(|y| (left - 2..=right + 2).map(move |x| (x, y)));
            body.extend(near.filter(|&cell| {
                let (row, along) = on_strip(cell);
                rows.get(&row).is_some_and(|ends| (ends.0..=ends.1).contains(&along))
            }));
        }
        for cells in [&mut ink, &mut body] {
            cells.sort_unstable();
            cells.dedup();
        }
        (self.ink, self.body) = (ink, body);
    }

    /// How far its letters reach from the whole millimetres: left, top, right, bottom.
    pub(crate) fn reach(&self) -> Option<[f64; 4]> {
        let reaches = self.letters.iter().map(|letter| letter.reach);
        reaches.reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])])
    }

    /// Moved to where it was laid, and cut to the page.
    pub(crate) fn cut(mut self, turn: Angle, at: Point, page: &Page) -> Self {
        let field = Field::bare(frame(page).0, frame(page).1);
        let whole = self.whole;
        let on_page = |&(x, y): &Cell| page.size.is_none() || field.frames((x + whole.0, y + whole.1));
        for letter in &mut self.letters {
            letter.cells.retain(on_page);
        }
        let rest = |nm: i64| f64::from(i32::try_from(nm.rem_euclid(1_000_000)).unwrap()) / 1e6;
        self.fill(turn, (rest(at.x.nm()), rest(at.y.nm())));
        self.body.retain(on_page);
        self
    }

    /// Where its cells lie on the page.
    pub(crate) const fn whole(&self) -> Cell {
        self.whole
    }
}
