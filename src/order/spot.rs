//! From the strip to the page: where a point of the carrier comes to lie.
//!
//! Must not know what stands there.

use crate::measure::{Length, Point};
use crate::page::Page;
use crate::title::Place;

/// A point on the page, measured as a ruler does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// From the page's left edge.
    pub left: Length,
    /// From the page's top edge.
    pub down: Length,
    /// From the page's bottom edge; `None` where the page has no size.
    pub up: Option<Length>,
}

/// How a placed strip lies on its page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lying {
    at: Point,
    sin_cos: (f64, f64),
    page_height: Option<Length>,
}

impl Lying {
    /// How a strip placed so lies on `page`; `None` where it is not placed.
    pub(super) fn of(place: &Place, page: &Page) -> Option<Self> {
        let page_height = page.size.map(|size| size.height);
        Some(Self { at: place.at?, sin_cos: place.turn.sin_cos(), page_height })
    }

    /// Where the point `along` the strip and `over` the feet of its first line lies. The page's y runs down: along the
    /// strip is (cos, sin), up from its feet is (sin, -cos).
    pub(super) fn spot(&self, along: Length, over: Length) -> Spot {
        let (sin, cos) = self.sin_cos;
        let left = self.at.x + along.scale(cos) + over.scale(sin);
        let down = self.at.y + along.scale(sin) - over.scale(cos);
        Spot { left, down, up: self.page_height.map(|height| height - down) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Angle, Size};

    #[test]
    fn a_strip_turned_by_a_quarter_runs_down_the_page() {
        let (at, turn) =
            (Point { x: Length::from_mm(40), y: Length::from_mm(50) }, Angle::from_thousandths(90_000));
        let size = Size { width: Length::from_mm(200), height: Length::from_mm(300) };
        let page = Page { size: Some(size), ..Page::default() };
        let lying = Lying::of(&Place { at: Some(at), turn }, &page);
        let (left, down, up) = (Length::from_mm(45), Length::from_mm(60), Some(Length::from_mm(240)));
        let spot = lying.map(|lying| lying.spot(Length::from_mm(10), Length::from_mm(5)));
        assert_eq!(spot, Some(Spot { left, down, up }));
        assert!(Lying::of(&Place { at: None, turn }, &page).is_none());
    }
}
