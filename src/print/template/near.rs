//! What a strip lies beside, as far as it is seen: outlines and names.
//!
//! Must not know the strip's letters.

use crate::measure::Polygon;
use crate::order::{Edge, Template};
use crate::print::clear::{Clear, RISE, beside, cut_to};
use crate::print::clip::{self, Dot};
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen};

use super::labels::{SIZE, led};
use super::stroke;
use super::view::View;

/// Pens: of the edges of things, and of the page's, in dashes and dots.
const THING: Pen = Pen { width: 0.2, dash: None, grey: 0.5 };
const PAGE: Pen = Pen { width: 0.3, dash: None, grey: 0.45 };
const DASH_DOT: [(f64, f64); 2] = [(4.0, 1.2), (0.4, 1.2)];

/// How far in a thing the line ends that leads from its name to it.
const INSIDE: f64 = 1.5;
/// The longest name.
const NAME: f64 = 45.0;

/// The outline of a thing that the strip lies beside, as far as it is seen.
pub(super) struct Near {
    /// What it is called.
    pub(super) name: String,
    /// Whether it is the page itself.
    pub(super) is_page: bool,
    /// All of it, where it would lie on the sheet.
    outline: Polygon,
    /// What is seen of it there.
    lines: Vec<(Dot, Dot)>,
}

/// What the strip of `template` lies beside, where it is seen; its lines are taken from `clear`.
pub(super) fn near(template: &Template, view: &View, clear: &mut Clear) -> Vec<Near> {
    let mut near = Vec::new();
    for edge in &template.edges {
        let lines = view.sides(&edge.outline);
        for &(from, to) in &lines {
            clear.take_line(from, to);
        }
        if !lines.is_empty() {
            let is_page = edge.name == "page";
            near.push(Near {
                name: name(edge, is_page),
                is_page,
                outline: view.outline(&edge.outline),
                lines,
            });
        }
    }
    near
}

fn name(edge: &Edge, is_page: bool) -> String {
    if is_page {
        return "edge of the page".to_owned();
    }
    let mark = if edge.original { " (original)" } else { "" };
    cut_to(&edge.name, Face::Plain, SIZE, NAME - Face::Plain.width(mark, SIZE)) + mark
}

/// The edges.
pub(super) fn edges(near: &[Near]) -> Vec<Mark> {
    let drawn = |near: &Near| {
        if near.is_page {
            stroke::along(&near.lines, PAGE, &DASH_DOT)
        } else {
            stroke::along(&near.lines, THING, &[])
        }
    };
    near.iter().flat_map(drawn).collect()
}

/// The names, each on its own side of its edge, or with a line that ends there.
pub(super) fn names(near: &[Near], clear: &mut Clear) -> Vec<Mark> {
    let mut words = Vec::new();
    for Near { name, outline, lines, .. } in near {
        let half = (Face::Plain.width(name, SIZE) / 2.0, SIZE * RISE / 2.0);
        let is_in = |&(x, y): &Dot| {
            let spots = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (0.0, 0.0)];
            spots.iter().all(|(over, down)| clip::within(outline, (x + over * half.0, y + down * half.1)))
        };
        let own = beside(name, SIZE, lines).into_iter().filter(is_in);
        match clear.set(name, SIZE, own) {
            Some(set) => words.push(set),
            None => words.extend(inside(outline, lines).into_iter().flat_map(|at| led(name, at, 0.0, clear))),
        }
    }
    words
}

/// A spot within an outline, at the longest of its lines that are seen.
fn inside(outline: &Polygon, lines: &[(Dot, Dot)]) -> Option<Dot> {
    let long = |&&(from, to): &&(Dot, Dot)| libm::hypot(to.0 - from.0, to.1 - from.1);
    let &(from, to) = lines.iter().max_by(|a, b| long(a).total_cmp(&long(b)))?;
    let long = long(&&(from, to));
    let (x, y) = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
    let (over, down) = ((to.1 - from.1) / long * INSIDE, (from.0 - to.0) / long * INSIDE);
    [(x + over, y + down), (x - over, y - down)].into_iter().find(|&spot| clip::within(outline, spot))
}
