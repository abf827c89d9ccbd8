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
        let grown = disc.grown(raised);
        let closed = disc.shrunk(&grown);
        Self { body: Self::body(carried, &disc), raised: (grown, closed), disc }
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
        Self { body: Self::body(carried, &self.disc), ..self.clone() }
    }

    fn body(carried: &Carried, disc: &Disc) -> (Cells, Cells) {
        let grown = disc.grown(&carried.body);
        let closed = disc.shrunk(&grown);
        (grown, closed)
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
