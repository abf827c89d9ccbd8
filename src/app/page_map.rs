//! The page to scale: which cell of the screen shows which place on it.
//!
//! A cell is taken to be twice as high as wide, so one scale serves both directions; the page's edges fall between cells,
//! for which a scale may give way by half a cell. Must not know how anything is drawn.

use crate::measure::{Extent, Polygon};
use crate::page::{Element, Outline};
use crate::title::{Layout, Place, Strip};

use super::panes::Area;

/// How the page lies on the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PageMap {
    /// The cells that it is drawn on.
    pub area: Area,
    /// Millimetres that a column and a row show.
    pub scale: (f64, f64),
    /// The place on the page of the area's upper left corner, in mm.
    pub corner: (f64, f64),
}

impl PageMap {
    /// Shows `extent` as large as can be, in the middle of `area`.
    pub(super) fn fit(area: Area, extent: Extent) -> Self {
        let (columns, rows) = (f64::from(area.width.max(1)), f64::from(area.height.max(1)));
        let (width, height) = (extent.right - extent.left, extent.bottom - extent.top);
        let mm_per_column = (width / columns).max(height / rows / 2.0).max(0.1);
        let scale = (mm_per_column, mm_per_column * 2.0);
        let left = extent.left - (columns * scale.0 - width) / 2.0;
        let top = extent.top - (rows * scale.1 - height) / 2.0;
        Self { area, scale, corner: (left, top) }
    }

    /// The place on the screen of a place on the page in mm: columns and rows from the area's corner, as fractions.
    #[must_use]
    pub fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        ((x - self.corner.0) / self.scale.0, (y - self.corner.1) / self.scale.1)
    }

    /// The place on the page, in mm, that lies at columns and rows from the area's corner.
    #[must_use]
    pub fn on_page(&self, (across, down): (f64, f64)) -> (f64, f64) {
        (self.corner.0 + across * self.scale.0, self.corner.1 + down * self.scale.1)
    }

    /// The place on the page, in mm, of the middle of a cell of the screen.
    #[must_use]
    pub fn at_cell(&self, column: u16, row: u16) -> (f64, f64) {
        let from = |cell: u16, edge: u16| f64::from(cell) - f64::from(edge) + 0.5;
        self.on_page((from(column, self.area.x), from(row, self.area.y)))
    }
}

/// Where a point of a strip lies on the page, in mm; `None` where it is not placed. The page's y runs down: along the strip
/// is (cos, sin), up from its feet is (sin, -cos).
#[must_use]
pub fn laid(place: &Place, (along, up): (f64, f64)) -> Option<(f64, f64)> {
    let (at, (sin, cos)) = (place.at?, place.turn.sin_cos());
    Some((at.x.mm() + along * cos + up * sin, at.y.mm() + along * sin - up * cos))
}

/// The box around a strip's letters where it lies, in mm, from the lower left corner clockwise; `None` where it is not
/// placed.
#[must_use]
pub fn strip_box(strip: &Strip, layout: &Layout) -> Option<Polygon> {
    let (left, bottom, right, top) = layout.bounds();
    let [left, bottom, right, top] = [left, bottom, right, top].map(crate::measure::Length::mm);
    let corners = [(left, bottom), (left, top), (right, top), (right, bottom)];
    corners.into_iter().map(|corner| laid(&strip.place, corner)).collect()
}

/// The outline of an element where it lies, in mm, clockwise; one that is round has 48 corners.
#[must_use]
pub fn element_outline(element: &Element) -> Polygon {
    let lie = &element.lie;
    let half = (lie.size.width.mm() / 2.0, lie.size.height.mm() / 2.0);
    let centre = (lie.at.x.mm() + half.0, lie.at.y.mm() + half.1);
    let (sin, cos) = lie.turn.sin_cos();
    let laid = |(x, y): (f64, f64)| {
        let (x, y) = (x * half.0, y * half.1);
        (centre.0 + x * cos - y * sin, centre.1 + x * sin + y * cos)
    };
    match lie.outline {
        Outline::Rect => [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(laid).to_vec(),
        Outline::Round => {
            (0..48).map(|step| libm::sincos(f64::from(step) * 7.5_f64.to_radians())).map(laid).collect()
        }
    }
}
