//! How the things on a map are told from their neighbours: how light they are, and where their names have room.
//!
//! Must not know how a map is scaled.

use crate::measure::{Extent, Polygon};
use crate::page::Kind;
use crate::print::clip::{Dot, within};

/// How light a thing is filled, from 0, black, to 255: what lies lower is lighter, so that what lies on it shows.
pub(super) const fn shade(kind: Kind) -> u8 {
    match kind {
        Kind::Photo => 205,
        Kind::Mat => 230,
        Kind::Paper => 242,
        Kind::Border => 224,
        Kind::Embellishment => 214,
        Kind::Journaling => 250,
        Kind::Label => 236,
    }
}

/// Spots in `outline` where something of `half` width and height to each side lies within it and none of `above`, those
/// nearest to its middle first.
pub(super) fn spots(outline: &Polygon, above: &[Polygon], half: f64) -> Vec<Dot> {
    let Some(extent) = Extent::of(std::slice::from_ref(outline)) else { return Vec::new() };
    let middle = extent.middle();
    let whole = |polygon: &Polygon, (x, y): Dot| {
        let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
        corners.map(|(dx, dy)| within(polygon, (x + dx, y + dy)))
    };
    let steps = |from: f64, to: f64| (0..=40_u8).map(move |step| from + (to - from) * f64::from(step) / 40.0);
    let mut spots: Vec<Dot> = steps(extent.top, extent.bottom)
        .flat_map(|y| steps(extent.left, extent.right).map(move |x| (x, y)))
        .filter(|&dot| whole(outline, dot).iter().all(|&inside| inside))
        .filter(|&dot| above.iter().all(|other| whole(other, dot).iter().all(|&inside| !inside)))
        .collect();
    let far = |&(x, y): &Dot| libm::hypot(x - middle.0, y - middle.1);
    spots.sort_by(|a, b| far(a).total_cmp(&far(b)));
    spots
}
