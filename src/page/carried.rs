//! A strip's letters as they lie on the page, in cells.
//!
//! Must not know which letters they are, nor what lies under them.

use crate::measure::{Angle, Extent, Point, Polygon};

use super::cells::Cells;

/// The outline of one letter on its strip.
#[derive(Debug, Clone, PartialEq)]
pub struct LetterShape {
    /// The slot that it stands in.
    pub slot: usize,
    /// Which word it belongs to.
    pub word: usize,
    /// What is stuck down, in mm along the strip and up from the feet of its first letter; by the non-zero rule.
    pub outline: Vec<Polygon>,
    /// The area of its box in square millimetres.
    pub box_area: f64,
}

/// A strip's letters over the page, in cells of 1 mm.
#[derive(Debug, Clone)]
pub struct Carried {
    /// The whole millimetres from which cells and extents are counted.
    pub(super) at: (i32, i32),
    turn: Angle,
    /// What is left of the place after the whole millimetres.
    rest: (f64, f64),
    pub(super) letters: Vec<CarriedLetter>,
    /// Under letters.
    pub(super) ink: Cells,
    /// Under letters, and between the letters of a word along its line.
    pub(super) body: Cells,
}

/// One letter of it, from the whole millimetres.
#[derive(Debug, Clone)]
pub(super) struct CarriedLetter {
    pub(super) slot: usize,
    word: usize,
    pub(super) cells: Cells,
    pub(super) extent: Extent,
    pub(super) box_area: f64,
}

impl Carried {
    /// Letters whose first stands with its feet at `at`, the strip turned about that point.
    #[must_use]
    pub fn new(shapes: &[LetterShape], at: Point, turn: Angle) -> Self {
        let (sin, cos) = turn.sin_cos();
        let (x, y) = (at.x.mm(), at.y.mm());
        let rest = (x - x.floor(), y - y.floor());
        // The page's y runs down: along the strip is (cos, sin), up from its feet is (sin, -cos).
        let lay =
            |&(along, up): &(f64, f64)| (rest.0 + along * cos + up * sin, rest.1 + along * sin - up * cos);
        let letter = |shape: &LetterShape| {
            let polygons: Vec<Polygon> =
                shape.outline.iter().map(|polygon| polygon.iter().map(lay).collect()).collect();
            Some(CarriedLetter {
                slot: shape.slot,
                word: shape.word,
                cells: Cells::within(&polygons),
                extent: Extent::of(&polygons)?,
                box_area: shape.box_area,
            })
        };
        #[expect(clippy::cast_possible_truncation, reason = "everything lies within some metres")]
        let whole = (x.floor() as i32, y.floor() as i32);
        Self::of(shapes.iter().filter_map(letter).collect(), whole, turn, rest)
    }

    fn of(letters: Vec<CarriedLetter>, at: (i32, i32), turn: Angle, rest: (f64, f64)) -> Self {
        let ink = joined(letters.iter().map(|letter| &letter.cells));
        let body = body(&letters, turn, rest);
        Self { at, turn, rest, letters, ink, body }
    }

    /// How far its letters reach, from the whole millimetres; `None` without letters.
    #[must_use]
    pub fn extent(&self) -> Option<Extent> {
        self.letters.iter().map(|letter| letter.extent).reduce(Extent::and)
    }

    /// The same letters, what lies beyond `frame` cut off.
    pub(super) fn cut_to(&self, frame: &Cells) -> Self {
        let (x, y) = self.at;
        let cut = |letter: &CarriedLetter| CarriedLetter {
            cells: letter.cells.cut_to((x, y), frame).moved((-x, -y)),
            ..letter.clone()
        };
        Self::of(self.letters.iter().map(cut).collect(), self.at, self.turn, self.rest)
    }
}

/// Cells that any of these hold, on the least patch that has them all.
pub(super) fn joined<'a>(patches: impl IntoIterator<Item = &'a Cells>) -> Cells {
    let patches: Vec<&Cells> = patches.into_iter().filter(|patch| !patch.across().is_empty()).collect();
    let filled = || patches.iter();
    let (Some(left), Some(right)) =
        (filled().map(|one| one.across().start).min(), filled().map(|one| one.across().end).max())
    else {
        return Cells::default();
    };
    let top = filled().map(|one| one.down().start).min().unwrap_or(0);
    let bottom = filled().map(|one| one.down().end).max().unwrap_or(0);
    let mut all = Cells::default().on(left..right, top..bottom);
    filled().for_each(|patch| all.join(patch, (0, 0)));
    all
}

/// Letters' cells and, word by word, each row along the line filled from its first to its last: rows are 1 mm high and
/// counted from the feet of the first letter.
fn body(letters: &[CarriedLetter], turn: Angle, rest: (f64, f64)) -> Cells {
    let (sin, cos) = turn.sin_cos();
    let on_strip = |x: i32, y: i32| {
        let (dx, dy) = (f64::from(x) + 0.5 - rest.0, f64::from(y) + 0.5 - rest.1);
        let up = dx * sin - dy * cos;
        #[expect(clippy::cast_possible_truncation, reason = "everything lies within some metres")]
        let towards_0 = up as i32;
        // Rounded down; the library's own floor is a call on many machines.
        (towards_0 - i32::from(f64::from(towards_0) > up), dx * cos + dy * sin)
    };
    let mut words: Vec<Cells> = Vec::new();
    for word in letters.chunk_by(|a, b| a.word == b.word) {
        let mut filled = joined(word.iter().map(|letter| &letter.cells));
        if sin == 0.0 {
            // The rows along a straight strip are the page's.
            filled.fill_rows();
            words.push(filled);
            continue;
        }
        let (across, down) = (filled.across(), filled.down());
        let corners = [across.start, across.end].map(|x| [down.start, down.end].map(|y| on_strip(x, y).0));
        let lowest = corners.as_flattened().iter().min().copied().unwrap_or(0) - 1;
        let highest = corners.as_flattened().iter().max().copied().unwrap_or(0) + 1;
        let place = |row: i32| usize::try_from(row - lowest).unwrap_or(0);
        let mut rows = vec![(f64::INFINITY, f64::NEG_INFINITY); place(highest) + 1];
        for (x, y) in filled.iter() {
            let (row, along) = on_strip(x, y);
            let ends = &mut rows[place(row)];
            *ends = (ends.0.min(along), ends.1.max(along));
        }
        for y in down {
            for x in across.clone() {
                let (row, along) = on_strip(x, y);
                let (from, to) = rows[place(row)];
                if from <= along && along <= to {
                    filled.hold(y, x..x + 1);
                }
            }
        }
        words.push(filled);
    }
    joined(words.iter())
}
