//! How much of the page shows each colour.
//!
//! Must not know which of them lead.

use crate::measure::Tint;

use super::{Kind, Page, Terrain};

/// A colour that shows, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct ColourShare {
    /// The colour, as the thing that shows it names it.
    pub tint: Tint,
    /// Area in square millimetres.
    pub area: f64,
    /// Whether something shows it that is neither the ground nor a photo.
    pub placed: bool,
    /// Whether it is the ground's.
    pub ground: bool,
}

/// The visible area of each colour, in file order, the ground first. A thing's visible area goes half to its first
/// colour and the rest equally to the others; all to a single one. Measured over cells of 1 mm, a cell taken by its
/// centre. Without a page size every thing shows whole and the ground has no area.
#[must_use]
pub fn visible_shares(page: &Page) -> Vec<ColourShare> {
    let (bare, visible) = visible_areas(page);
    let mut shares: Vec<ColourShare> = Vec::new();
    if let Some(ground) = &page.ground {
        shares.push(ColourShare { tint: ground.clone(), area: bare, placed: false, ground: true });
    }
    for (element, area) in page.elements.iter().zip(visible) {
        let others = element.colours.len().saturating_sub(1);
        for (place, tint) in element.colours.iter().enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "a thing has a handful of colours")]
            let part = match (place, others) {
                (_, 0) => area,
                (0, _) => area / 2.0,
                _ => area / 2.0 / others as f64,
            };
            let placed = element.kind != Kind::Photo;
            shares.push(ColourShare { tint: tint.clone(), area: part, placed, ground: false });
        }
    }
    shares
}

/// Bare area of the ground, then the visible area of each thing, in square millimetres.
fn visible_areas(page: &Page) -> (f64, Vec<f64>) {
    if page.size.is_none() {
        let whole = |element: &super::Element| element.lie.size.width.mm() * element.lie.size.height.mm();
        return (0.0, page.elements.iter().map(whole).collect());
    }
    let terrain = Terrain::of(page);
    (f64::from(terrain.bare()), terrain.seen().map(f64::from).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Angle, Colour, Length, Point, Size};
    use crate::page::{Element, Lie, Outline};

    fn page(outline: Outline, turn: i32) -> Page {
        let mm = Length::from_mm;
        let at = Point { x: mm(30), y: mm(40) };
        let size = Size { width: mm(80), height: mm(40) };
        let element = Element {
            name: None,
            kind: Kind::Mat,
            original: false,
            lie: Lie { at, size, turn: Angle::from_thousandths(turn), outline },
            colours: vec![Tint::plain(Colour::BLACK)],
            cover: None,
            bed: None,
        };
        let ground = Some(Tint::plain(Colour::WHITE));
        let size = Some(Size { width: mm(150), height: mm(120) });
        Page { size, ground, elements: vec![element], ..Page::default() }
    }

    #[test]
    fn turned_and_round_things_show_their_area() {
        for (outline, area) in [(Outline::Rect, 3200.0), (Outline::Round, std::f64::consts::PI * 40.0 * 20.0)]
        {
            for turn in [0, 17_000, -45_000, 90_000] {
                let shares = visible_shares(&page(outline, turn));
                let shown = shares.iter().find(|share| !share.ground).map_or(0.0, |share| share.area);
                assert!((shown / area - 1.0).abs() < 0.01, "{outline} turned by {turn}: {shown}");
                assert!((shares.iter().map(|share| share.area).sum::<f64>() - 18_000.0).abs() < 0.5);
            }
        }
    }
}
