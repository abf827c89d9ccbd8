//! A strip as it looks on its carrier, at true size: the outlines that are printed to stand the letters on.
//!
//! Must not know paper.

use crate::measure::{Extent, Polygon};
use crate::page::Page;
use crate::stash::Stash;
use crate::title::{Layout, Strip, cuts, wished};

/// A strip drawn in mm: x along it from its first feet, y down from the feet of its first line.
#[derive(Debug, Clone, PartialEq)]
pub struct Template {
    /// Slot by slot, one for each.
    pub letters: Vec<Drawn>,
    /// The line that the feet of each line stand on.
    pub feet: Vec<FeetLine>,
    /// What may lie beside it, where it is placed: the page, then the things on it, lowest first.
    pub edges: Vec<Edge>,
}

/// The outline of what stands in a slot.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// What is stuck down: a letter's outline, the box of a tile or a thing; of a missing one the outline that is wanted.
    pub edge: Vec<Polygon>,
    /// The letter on a tile.
    pub print: Option<Vec<Polygon>>,
    /// Whether nothing stands there.
    pub missing: bool,
}

/// The line that letters' feet stand on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeetLine {
    /// The left edge of the line's first letter.
    pub left: f64,
    /// The right edge of its last.
    pub right: f64,
    /// How far below the feet of the first line.
    pub down: f64,
}

/// The outline of a thing that a strip may lie beside.
#[derive(Debug, Clone, PartialEq)]
pub struct Edge {
    /// What it is called.
    pub name: String,
    /// Whether it is a thing that cannot be reprinted.
    pub original: bool,
    /// Its outline.
    pub outline: Polygon,
}

impl Template {
    /// Of `strip` laid out so on `page`.
    pub(super) fn of(strip: &Strip, layout: &Layout, stash: &Stash, page: &Page) -> Self {
        let mut letters: Vec<Drawn> = (0..strip.len()).map(|slot| missing(strip, layout, slot)).collect();
        for cut in cuts(strip, layout, stash) {
            let print = cut.print.as_deref().map(flipped);
            letters[cut.slot] = Drawn { edge: flipped(&cut.edge), print, missing: false };
        }
        let feet = |line: &crate::title::LineBox| {
            let letters = &layout.letters[line.slots.clone()];
            let left = letters.iter().map(|letter| letter.left).min().unwrap_or_default();
            FeetLine { left: left.mm(), right: (left + line.length).mm(), down: -line.feet.mm() }
        };
        Self { letters, feet: layout.lines.iter().map(feet).collect(), edges: edges(strip, page) }
    }

    /// The least box around all letters.
    #[must_use]
    pub fn extent(&self) -> Option<Extent> {
        self.letters.iter().filter_map(Drawn::extent).reduce(Extent::and)
    }
}

impl Drawn {
    /// The least box around it.
    #[must_use]
    pub fn extent(&self) -> Option<Extent> {
        Extent::of(&self.edge)
    }
}

/// The edges of `page`, then of what lies on it, as they are seen from `strip`; none where that has no place.
fn edges(strip: &Strip, page: &Page) -> Vec<Edge> {
    let on_strip = |outline: &Polygon| -> Option<Polygon> {
        outline.iter().map(|&at| strip.place.on_strip(at).map(|(along, up)| (along, -up))).collect()
    };
    let of_page = page.size.and_then(|size| {
        let (width, height) = (size.width.mm(), size.height.mm());
        let outline = on_strip(&vec![(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])?;
        Some(Edge { name: "page".to_owned(), original: false, outline })
    });
    let of_things = page.elements.iter().filter_map(|element| {
        let outline = on_strip(&element.lie.polygon())?;
        Some(Edge { name: element.called().to_owned(), original: element.original, outline })
    });
    of_page.into_iter().chain(of_things).collect()
}

fn missing(strip: &Strip, layout: &Layout, slot: usize) -> Drawn {
    Drawn { edge: flipped(&wished(strip, layout, slot)), print: None, missing: true }
}

/// From y up to y down.
fn flipped(polygons: &[Polygon]) -> Vec<Polygon> {
    polygons.iter().map(|polygon| polygon.iter().map(|&(x, y)| (x, -y)).collect()).collect()
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::super::{Order, trial};

    #[test]
    fn a_tile_is_its_box_and_what_is_missing_keeps_its_room() {
        let plan = trial::placed("LA", &["blocks/L", "-"], 0);
        let order = Order::of(&plan, &trial::stash());
        let template = &order.strips[0].template;
        let box_of_l = template.letters[0].extent().unwrap();
        assert_eq!((box_of_l.left, box_of_l.top, box_of_l.right, box_of_l.bottom), (0.0, -12.0, 12.0, 0.0));
        assert!(template.letters[0].print.is_some() && !template.letters[0].missing);
        let missing = &template.letters[1];
        assert!(missing.missing && missing.extent().unwrap().left > 13.0);
        assert!((template.feet[0].left, template.feet[0].down) == (0.0, 0.0));
    }

    #[test]
    fn a_missing_letter_is_as_it_would_stand_and_not_stretched_over_its_room() {
        let order = Order::of(&trial::plan("HQg,", &[]), &trial::stash());
        let extents: Vec<_> =
            order.strips[0].template.letters.iter().map(|letter| letter.extent().unwrap()).collect();
        let [capital, round, tail, comma] = extents[..] else { return assert_eq!(extents.len(), 4) };
        // Nothing stands around it: capitals of 24 mm.
        assert!((capital.top + 24.0).abs() < 1e-6 && capital.bottom.abs() < 1e-6, "{capital:?}");
        assert!(round.top < -24.0, "what is round reaches a little above capitals: {round:?}");
        assert!(tail.bottom > 5.0 && (-20.0..-16.0).contains(&tail.top), "a tail hangs: {tail:?}");
        assert!(comma.bottom > 1.0 && comma.top > -8.0, "a comma is small and low: {comma:?}");
    }

    #[test]
    fn the_pages_edges_lie_where_they_are_seen_from_the_strip() {
        // Its first feet are 40 mm from the left and 109 mm from the top edge; a quarter turn clockwise puts the page's left
        // edge below it.
        let plan = trial::placed("LA", &["blocks/L", "blocks/A"], 90_000);
        let order = Order::of(&plan, &trial::stash());
        let page = &order.strips[0].template.edges[0];
        assert_eq!(page.name, "page");
        for (found, wanted) in
            page.outline.iter().zip([(-109.0, 40.0), (-109.0, -160.0), (191.0, -160.0), (191.0, 40.0)])
        {
            assert!((found.0 - wanted.0).abs() < 1e-9 && (found.1 - wanted.1).abs() < 1e-9, "{found:?}");
        }
    }

    #[test]
    fn what_may_lie_beside_it_is_named() {
        let plan = trial::on_photo("LA", &["blocks/L", "blocks/A"], false, 109);
        let order = Order::of(&plan, &trial::stash());
        let names: Vec<&str> = order.strips[0].template.edges.iter().map(|edge| edge.name.as_str()).collect();
        assert_eq!(names, ["page", "harbour photo"]);
    }
}
