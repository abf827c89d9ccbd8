//! A sheet of paper from near: as wide as the screen, and how far down it is looked at.
//!
//! Must not know how it is drawn.

use super::order_view::OrderSide;
use super::state::State;

impl State {
    /// Looks at the chosen sheet from near, from its upper edge on; or at all of it again.
    pub(super) fn look_at_paper_near(&mut self) {
        if self.order.side == OrderSide::Near {
            self.order.side = OrderSide::Sheets;
        } else if !self.says_why_no_sheet() {
            (self.order.side, self.order.down) = (OrderSide::Near, 0);
        }
    }

    /// Goes `by` rows down the sheet, or up: never beyond its edges.
    pub(super) fn walk_down_paper(&mut self, by: isize) {
        let panes = self.order_panes();
        let seen = panes.picture.height.saturating_sub(2);
        let last = panes.sheet_rows.saturating_sub(seen);
        let down = usize::from(self.order.down.min(last)).saturating_add_signed(by);
        self.order.down = u16::try_from(down).map_or(last, |down| down.min(last));
    }

    /// `0 to 101.2 mm down`: what is seen of a sheet from near; `None` where all of it is.
    #[must_use]
    pub fn seen_of_paper(&self) -> Option<String> {
        let (map, sheet) = (self.order_map()?, self.order.sheet()?);
        let (_, bottom) = map.on_page((0.0, f64::from(map.area.height)));
        let is_whole = map.corner.1 <= 0.0 && bottom >= sheet.height - map.scale.1 / 2.0;
        (!is_whole).then(|| format!("{} down", self.two_told(map.corner.1, "to", bottom)))
    }
}
