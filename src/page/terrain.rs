//! The page in cells: what stands on the bare paper, and what of each thing is seen.
//!
//! Must not know what is carried over it.

use crate::measure::{Length, Size};

use super::cells::{Cells, first_centre};
use super::{Cover, Footprint, Page};

/// A page in cells of 1 mm, a cell taken by its centre. Made once for a page and looked at many times.
#[derive(Debug, Clone)]
pub struct Terrain {
    /// Width and height of the page, where it has a size.
    pub(super) size: Option<Size>,
    /// Kept clear along its edges.
    pub(super) margin: Length,
    /// Under the things that are no beds.
    pub(super) raised: Cells,
    /// Seen of things that no letter may lie on.
    pub(super) never: Cells,
    /// Each thing, lowest first.
    pub(super) things: Vec<Thing>,
    /// Square millimetres of the page that nothing lies on.
    bare: u32,
}

/// One thing of the page in cells.
#[derive(Debug, Clone)]
pub(super) struct Thing {
    /// What is seen of it.
    pub(super) seen: Cells,
    pub(super) footprint: Footprint,
    pub(super) cover: Cover,
    pub(super) is_bed: bool,
}

impl Terrain {
    /// Of `page`; one without a size reaches as far as the things on it.
    #[must_use]
    pub fn of(page: &Page) -> Self {
        let footprints = page.footprints();
        let frame = frame(page.size, &footprints);
        let (mut covered, mut raised, mut never) = (frame.like(), frame.like(), frame.like());
        let mut things = Vec::with_capacity(footprints.len());
        for (element, footprint) in page.elements.iter().zip(footprints).rev() {
            let mut seen = footprint.cells(&frame);
            let (cover, is_bed) = (element.cover(), element.is_bed(page.size));
            if !is_bed {
                raised.join(&seen, (0, 0));
            }
            let whole = seen.clone();
            seen.bare_where(&covered, (0, 0));
            covered.join(&whole, (0, 0));
            if cover == Cover::Never {
                never.join(&seen, (0, 0));
            }
            things.push(Thing { seen, footprint, cover, is_bed });
        }
        things.reverse();
        let all = frame.across().len() * frame.down().len();
        let bare = u32::try_from(all).unwrap_or(u32::MAX) - covered.count();
        Self { size: page.size, margin: page.margin, raised, never, things, bare }
    }

    /// Square millimetres of the page that nothing lies on.
    #[must_use]
    pub const fn bare(&self) -> u32 {
        self.bare
    }

    /// Square millimetres that are seen of each thing, lowest first.
    pub fn seen(&self) -> impl Iterator<Item = u32> + '_ {
        self.things.iter().map(|thing| thing.seen.count())
    }
}

fn frame(size: Option<Size>, footprints: &[Footprint]) -> Cells {
    let whole = |cells: i32| usize::try_from(cells).unwrap_or(0);
    if let Some(size) = size {
        let cells = |side: Length| whole(first_centre(side.mm()));
        return Cells::bare(0, 0, cells(size.width), cells(size.height));
    }
    let bounds = footprints.iter().map(Footprint::bounds);
    let joined = bounds.reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])]);
    joined.map_or_else(Cells::default, |[left, top, right, bottom]| {
        Cells::bare(left, top, whole(right - left), whole(bottom - top))
    })
}
