//! Trapped space: bare paper caught between the title and what it hovers over.
//!
//! Closing by a disc fills whatever no disc of bare paper reaches. What it fills of both together, and of neither alone, is
//! caught between them. Must not know what it costs.

use std::ops::Range;

use super::carried::Carried;
use super::cells::Cells;
use super::disc::Disc;

/// What is raised and what is carried, each grown and closed once; then any place of the strip costs one shrinking.
#[derive(Debug, Clone)]
pub(super) struct Trap {
    disc: Disc,
    raised: (Cells, Cells),
    body: (Cells, Cells),
}

impl Trap {
    /// For `carried` at any place on the page.
    pub(super) fn anywhere(raised: &Cells, carried: &Carried, disc: Disc) -> Self {
        Self { body: grown_and_closed(&carried.body, &disc), raised: grown_and_closed(raised, &disc), disc }
    }

    /// For `carried` where it was laid and nowhere else.
    pub(super) fn here(raised: &Cells, carried: &Carried, disc: Disc) -> Self {
        let reach = 4 * disc.radius();
        let (x, y) = carried.at;
        let window = |own: Range<i32>, by: i32, frame: Range<i32>| {
            (own.start + by - reach).max(frame.start)..(own.end + by + reach).min(frame.end)
        };
        let across = window(carried.body.across(), x, raised.across());
        let down = window(carried.body.down(), y, raised.down());
        Self::anywhere(&raised.on(across, down), carried, disc)
    }

    /// The same page under another strip, or the same turned.
    pub(super) fn under(&self, carried: &Carried) -> Self {
        Self { body: grown_and_closed(&carried.body, &self.disc), ..self.clone() }
    }

    /// The trapped cells with the strip moved by whole millimetres.
    pub(super) fn cells(&self, moved: (i32, i32)) -> Cells {
        let ((raised, raised_closed), (body, body_closed)) = (&self.raised, &self.body);
        let radius = self.disc.radius();
        // `body` has grown by the radius. Nothing further than two radii from the strip is caught by it, and what is
        // further than three does not matter to that.
        let patch = |own: Range<i32>, by: i32, more: i32| own.start + by - more..own.end + by + more;
        let on = |cells: &Cells, more: i32| {
            cells.on(patch(body.across(), moved.0, more), patch(body.down(), moved.1, more))
        };
        let mut all = on(raised, 2 * radius);
        all.join(body, moved);
        let mut caught = self.disc.shrunk(&all);
        caught.bare_where(raised_closed, (0, 0));
        caught.bare_where(body_closed, moved);
        on(&caught, radius)
    }
}

/// What a disc grows cells to, and what it closes them to: nothing beyond the cells' own patch, where shrinking would not
/// see the gaps that lie further out.
fn grown_and_closed(cells: &Cells, disc: &Disc) -> (Cells, Cells) {
    let grown = disc.grown(cells);
    let closed = disc.shrunk(&grown).on(cells.across(), cells.down());
    (grown, closed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_closes_to_itself() {
        let mut bar = Cells::bare(3, -2, 20, 4);
        (-2..2).for_each(|y| bar.hold(y, 3..23));
        for radius in [1, 6, 25] {
            assert_eq!(grown_and_closed(&bar, &Disc::new(radius)).1, bar, "radius {radius}");
        }
    }
}
