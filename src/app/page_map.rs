//! The page to scale: which cell of the screen shows which place on it.
//!
//! A cell is taken to be twice as high as wide, so one scale serves both directions; the page's edges fall between cells,
//! for which a scale may give way by half a cell. Must not know how anything is drawn.

use crate::measure::Extent;

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
