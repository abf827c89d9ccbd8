//! What of a strip a sheet shows, and where on it.
//!
//! Must not know what is drawn.

use crate::measure::{Extent, Polygon};
use crate::print::clip::{self, Dot, holds};

use super::parting::Parting;

/// How far around the letters the edges of what they lie beside are drawn, in mm.
const BESIDE: f64 = 15.0;

/// A part of a template.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Part {
    /// From 1: row by row, from left to right.
    pub(super) number: usize,
    /// What it reaches over of the strip.
    pub(super) span: Extent,
    /// What of that no other part is laid over.
    pub(super) own: Extent,
    /// Whether nothing lies before it, above, behind and below it.
    pub(super) outer: Outer,
}

/// The sides of a part at which the template ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "one for each side")]
pub(super) struct Outer {
    pub(super) left: bool,
    pub(super) top: bool,
    pub(super) right: bool,
    pub(super) bottom: bool,
}

/// A window on the strip, and how far it is moved to come to its place on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct View {
    /// What is seen, in the strip's own place.
    pub(super) window: Extent,
    /// What of that is still seen when the parts are joined.
    pub(super) own: Extent,
    /// From the strip to the sheet.
    pub(super) by: Dot,
}

/// All parts of `parting`.
pub(super) fn numbered(parting: &Parting) -> Vec<Part> {
    let mut parts = Vec::with_capacity(parting.len());
    for (line, row) in parting.rows.iter().enumerate() {
        for (column, along) in row.along.iter().enumerate() {
            let down = row.down;
            parts.push(Part {
                number: parts.len() + 1,
                span: Extent { left: along.from, top: down.from, right: along.to, bottom: down.to },
                own: Extent { left: along.from, top: down.from, right: along.join, bottom: down.join },
                outer: Outer {
                    left: column == 0,
                    top: line == 0,
                    right: column + 1 == row.along.len(),
                    bottom: line + 1 == parting.rows.len(),
                },
            });
        }
    }
    parts
}

impl View {
    /// Of `part` in `room` on its sheet, with as much around the `letters` as there is room for.
    pub(super) fn of(part: &Part, letters: Extent, room: Extent) -> Self {
        let Part { span, own, outer, .. } = part;
        let wide = room.right - room.left - (span.right - span.left);
        let high = room.bottom - room.top - (span.bottom - span.top);
        let (left, right) =
            shared(wide, outer.left, span.left - letters.left, outer.right, letters.right - span.right);
        let (top, bottom) =
            shared(high, outer.top, span.top - letters.top, outer.bottom, letters.bottom - span.bottom);
        let window = Extent {
            left: span.left - left,
            top: span.top - top,
            right: span.right + right,
            bottom: span.bottom + bottom,
        };
        let own = Extent {
            left: window.left,
            top: window.top,
            right: if outer.right { window.right } else { own.right },
            bottom: if outer.bottom { window.bottom } else { own.bottom },
        };
        let spare = (wide - left - right, high - top - bottom);
        // A part that is cut off is cut at the left of the room, clear of the words.
        let before = if outer.left { spare.0 / 2.0 } else { 0.0 };
        let by = (room.left + before - window.left, room.top + (spare.1 / 3.0).clamp(0.0, 12.0) - window.top);
        Self { window, own, by }
    }

    /// Where a point of the strip is on the sheet.
    pub(super) fn at(&self, (x, y): Dot) -> Dot {
        (x + self.by.0, y + self.by.1)
    }

    /// An outline of the strip on the sheet.
    pub(super) fn outline(&self, polygon: &Polygon) -> Polygon {
        polygon.iter().map(|&dot| self.at(dot)).collect()
    }

    /// The sides of an outline of the strip as far as they are seen, where they are on the sheet.
    pub(super) fn sides(&self, polygon: &Polygon) -> Vec<(Dot, Dot)> {
        let corners = polygon.iter().zip(polygon.iter().cycle().skip(1));
        let seen = corners.filter_map(|(&from, &to)| clip::line(from, to, self.window));
        seen.map(|(from, to)| (self.at(from), self.at(to))).collect()
    }

    /// A box of the strip on the sheet.
    pub(super) fn place(&self, extent: Extent) -> Extent {
        extent.moved(self.by.0, self.by.1)
    }

    /// Whether a point of the strip is seen.
    pub(super) fn shows(&self, dot: Dot) -> bool {
        holds(self.window, point(dot))
    }

    /// Whether a point of the strip is still seen when the parts are joined.
    pub(super) fn keeps(&self, dot: Dot) -> bool {
        holds(self.own, point(dot))
    }
}

const fn point((x, y): Dot) -> Extent {
    Extent { left: x, top: y, right: x, bottom: y }
}

/// How much a span grows before and behind where `spare` is left for both: at its open ends until it reaches [`BESIDE`]
/// beyond the letters, from which it starts `before` and ends `behind` already (below 0).
fn shared(spare: f64, opens: bool, before: f64, ends: bool, behind: f64) -> (f64, f64) {
    let wish = |open: bool, has: f64| if open { (BESIDE + has).max(0.0) } else { 0.0 };
    let (start, end) = (wish(opens, before), wish(ends, behind));
    let share = if start + end > spare.max(0.0) { spare.max(0.0) / (start + end) } else { 1.0 };
    (start * share, end * share)
}
