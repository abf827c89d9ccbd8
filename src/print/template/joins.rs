//! The join marks: where the parts of a template are cut and laid on each other so that they meet exactly.
//!
//! Must not know what stands on the strip.

use crate::measure::Extent;
use crate::print::clear::Clear;
use crate::print::clip;
use crate::print::clip::Dot;
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen, Piece, Sense};

use super::parting::Parting;
use super::view::{Part, View};

/// How far a cross mark reaches from its middle, in mm.
pub(super) const ARM: f64 = 3.0;

/// The pen of cross marks.
pub(super) const FINE: Pen = Pen { width: 0.15, dash: None, grey: 0.0 };
const CUT: Pen = Pen { width: 0.5, dash: Some((4.0, 2.0)), grey: 0.0 };
const LAY: Pen = Pen { width: 0.35, dash: None, grey: 0.0 };
const SIZE: f64 = 2.6;

/// A line along which parts are joined.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Join {
    /// `joint 1`: on both sides.
    pub(super) name: String,
    /// Its ends, in the strip's own place: left before right, upper before lower.
    pub(super) ends: [Dot; 2],
    /// Whether it runs from above to below: it joins parts of one row.
    pub(super) upright: bool,
    /// The numbers of the parts that it is laid on.
    earlier: Vec<usize>,
    /// The numbers of the parts that are cut along it.
    later: Vec<usize>,
}

/// All joins: in each row from left to right, then each row to the one above it.
pub(super) fn joins(parting: &Parting) -> Vec<Join> {
    let (mut joins, mut before) = (Vec::new(), 0);
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for row in &parting.rows {
        let numbers: Vec<usize> = (before + 1..=before + row.along.len()).collect();
        before += row.along.len();
        for (pair, span) in numbers.windows(2).zip(row.along.iter().skip(1)) {
            joins.push(Join {
                name: called(joins.len()),
                ends: [(span.from, row.down.from), (span.from, row.down.to)],
                upright: true,
                earlier: vec![pair[0]],
                later: vec![pair[1]],
            });
        }
        rows.push(numbers);
    }
    for (numbers, pair) in rows.windows(2).zip(parting.rows.windows(2)) {
        // So that the cross mark at its right end has room on the sheet.
        let reach = |row: &super::parting::Row| {
            let from = row.along.first().map_or(0.0, |span| span.from);
            (from, row.along.last().map_or(from, |span| span.to - ARM))
        };
        let (above, below) = (reach(&pair[0]), reach(&pair[1]));
        let y = pair[1].down.from;
        joins.push(Join {
            name: called(joins.len()),
            ends: [(above.0.max(below.0), y), (above.1.min(below.1), y)],
            upright: false,
            earlier: numbers[0].clone(),
            later: numbers[1].clone(),
        });
    }
    joins
}

fn called(place: usize) -> String {
    format!("joint {}", place + 1)
}

/// The line along which `part` is cut for `join`, where it is: all over `paper`, the sheet without its margins, since that is how
/// a sheet is cut.
pub(super) fn cut(join: &Join, part: &Part, view: &View, paper: Extent) -> Option<Piece> {
    let (from, to) = join.later.contains(&part.number).then(|| cut_line(join, view, paper))?;
    Some(Piece { sense: Sense::Ornament, marks: vec![Mark::Line { from, to, pen: CUT }] })
}

/// What is done at `join` on `part`, in words.
pub(super) fn told(join: &Join, part: &Part) -> Option<String> {
    let name = &join.name;
    if join.later.contains(&part.number) {
        let side = if join.upright { "left" } else { "upper" };
        return Some(format!("At its {side} edge is {name}: cut here."));
    }
    let side = if join.upright { "right" } else { "lower" };
    let laid = lay_told(join).into_iter().next().filter(|_| join.earlier.contains(&part.number))?;
    Some(format!("At its {side} edge is {laid}."))
}

fn cut_line(join: &Join, view: &View, paper: Extent) -> (Dot, Dot) {
    let (x, y) = view.at(join.ends[0]);
    if join.upright { ((x, paper.top), (x, paper.bottom)) } else { ((paper.left, y), (paper.right, y)) }
}

/// What of `join` is printed on `part` besides the line that it is cut along; what both cover is taken from `clear`.
pub(super) fn marks(join: &Join, part: &Part, view: &View, paper: Extent, clear: &mut Clear) -> Vec<Mark> {
    let (lies_on_it, is_cut) = (join.earlier.contains(&part.number), join.later.contains(&part.number));
    let Some((from, to)) = clip::line(join.ends[0], join.ends[1], clip::grown(part.span, 1e-9)) else {
        return Vec::new();
    };
    if !lies_on_it && !is_cut {
        return Vec::new();
    }
    let (from, to) = (view.at(from), view.at(to));
    let mut marks = Vec::new();
    if is_cut {
        let (from, to) = cut_line(join, view, paper);
        clear.take_line(from, to);
    } else {
        marks.push(Mark::Line { from, to, pen: LAY });
        clear.take_line(from, to);
    }
    // Not at an end that shows only where another part is laid over this one, too close to the paper's edge for a cross mark.
    let has_room = |&end: &Dot| view.shows(end) && end.0 + ARM <= view.window.right + 1e-9;
    for end in join.ends.into_iter().filter(has_room) {
        marks.extend(cross(view.at(end), clear));
    }
    let side = Side { upright: join.upright, is_cut };
    let told = if is_cut { vec![format!("{}: cut here", join.name)] } else { lay_told(join) };
    let told = told.iter().chain([&join.name]).find_map(|told| named(told, from, to, side, clear));
    marks.extend(told);
    if join.upright {
        marks.extend(named(&join.name, to, from, side, clear));
    }
    marks
}

/// A cross mark, its middle at `at` on the sheet.
pub(super) fn cross(at: Dot, clear: &mut Clear) -> [Mark; 2] {
    let (x, y) = at;
    clear.take(Extent { left: x - ARM, top: y - 0.2, right: x + ARM, bottom: y + 0.2 });
    clear.take(Extent { left: x - 0.2, top: y - ARM, right: x + 0.2, bottom: y + ARM });
    [
        Mark::Line { from: (x - ARM, y), to: (x + ARM, y), pen: FINE },
        Mark::Line { from: (x, y - ARM), to: (x, y + ARM), pen: FINE },
    ]
}

/// Which side of a join line words stand at.
#[derive(Clone, Copy)]
struct Side {
    upright: bool,
    is_cut: bool,
}

/// What is laid on it, told at length and in short.
fn lay_told(join: &Join) -> Vec<String> {
    let name = &join.name;
    match join.later.as_slice() {
        [first, .., last] => vec![
            format!("{name}: lay the cut edges of parts {first} to {last} here"),
            format!("{name}: lay parts {first} to {last} here"),
        ],
        [one] => {
            vec![format!("{name}: lay part {one}'s cut edge here"), format!("{name}: lay part {one} here")]
        }
        [] => Vec::new(),
    }
}

/// `text` near the end `at` of a line that runs on to `other`: beside an upright line on the side that is kept, else on the
/// side that is cut off or covered.
fn named(text: &str, at: Dot, other: Dot, side: Side, clear: &mut Clear) -> Option<Mark> {
    let half = Face::Plain.width(text, SIZE) / 2.0;
    let spots: Vec<Dot> = if side.upright {
        let outward = if at.1 <= other.1 { -1.0 } else { 1.0 };
        let beside = if side.is_cut { half + 0.8 } else { -half - 0.8 };
        let rows = [2.3, -2.3, -4.5, -7.0, -10.0, -14.0];
        let spots = |sign: f64| rows.map(move |row| (at.0 + sign * beside, at.1 + outward * row));
        spots(1.0).into_iter().chain(spots(-1.0)).collect()
    } else {
        let over = if side.is_cut { -2.3 } else { 2.3 };
        let along = (0..60_u8).map(|step| at.0 + half + 4.0 + 3.0 * f64::from(step));
        let beside = along.flat_map(|x| [(x, at.1 + over), (x, at.1 - over)]);
        // Where letters stand close to both sides: over or under the cross mark at an end.
        let off = ARM + 2.2;
        let ends = [at.0, other.0].into_iter().flat_map(|x| [(x, at.1 - off), (x, at.1 + off)]);
        beside.chain(ends).collect()
    };
    clear.set(text, SIZE, spots)
}
