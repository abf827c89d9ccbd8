//! A second opinion on a page's colours and on what lies under a strip, written from the rules alone.
//!
//! Must not know `oddment::checks`.

use oddment::measure::{Colour, Length};
use oddment::page::{Kind, Page};
use oddment::title::Strip;

/// A family: page colour (0, place), neutral stray (1, shade) or coloured stray (2, sector).
pub(crate) type Family = (u8, usize);

/// The page's colours, in order.
pub(crate) struct Colours {
    pub(crate) list: Vec<Colour>,
    pub(crate) main: Option<usize>,
    pub(crate) second: Option<usize>,
    /// How many there are without the ground's.
    pub(crate) without_ground: usize,
}

struct Share {
    colour: Colour,
    /// Quarters of square millimetres.
    area: i64,
    ground: bool,
    /// Neither the ground's nor a photo's only.
    placed: bool,
}

fn alike(a: Colour, b: Colour) -> bool {
    a.lab().difference(b.lab()).get() <= 600
}

/// `None` where the page has no colours: neither a list nor things on it.
pub(crate) fn page_colours(page: &Page) -> Option<Colours> {
    if !page.colours.is_empty() {
        let list: Vec<Colour> = page.colours.iter().map(|tint| tint.colour).collect();
        let ground = page.ground.as_ref().map(|tint| tint.colour);
        let without_ground = list.iter().filter(|&&c| ground.is_none_or(|ground| !alike(ground, c))).count();
        return Some(Colours { second: (list.len() > 1).then_some(1), main: Some(0), list, without_ground });
    }
    if page.elements.is_empty() {
        return None;
    }
    let mut shares = parted(page);
    // What is wholly hidden is not on the page.
    shares.retain(|share| share.area > 0 || (share.ground && page.size.is_none()));
    let mut shares = summed(shares);
    shares.sort_by_key(|share| -share.area);
    let joined = joined(shares);
    let mut lead: Vec<usize> = (0..joined.len())
        .filter(|&place| joined[place].area > 0 && joined[place].colour.lab().chroma() >= 12.0)
        .collect();
    lead.sort_by_key(|&place| (!joined[place].placed, -joined[place].area));
    (!joined.is_empty()).then(|| Colours {
        main: lead.first().copied(),
        second: lead.get(1).copied(),
        without_ground: joined.iter().filter(|share| !share.ground).count(),
        list: joined.into_iter().map(|share| share.colour).collect(),
    })
}

/// Sides of a thing in whole millimetres: left, top, right, bottom.
fn sides(page: &Page, place: usize) -> [i64; 4] {
    let lie = page.elements[place].lie;
    let mm = |length: Length| length.nm() / 1_000_000;
    let (left, top) = (mm(lie.at.x), mm(lie.at.y));
    [left, top, left + mm(lie.size.width), top + mm(lie.size.height)]
}

fn parted(page: &Page) -> Vec<Share> {
    let count = page.elements.len();
    let boxes: Vec<[i64; 4]> = (0..count).map(|place| sides(page, place)).collect();
    let mut visible = vec![0_i64; count];
    let mut bare = 0;
    if let Some(size) = page.size {
        for y in 0..size.height.nm() / 1_000_000 {
            for x in 0..size.width.nm() / 1_000_000 {
                let top =
                    boxes.iter().rposition(|[l, t, r, b]| (*l..*r).contains(&x) && (*t..*b).contains(&y));
                match top {
                    Some(place) => visible[place] += 1,
                    None => bare += 1,
                }
            }
        }
    } else {
        visible = boxes.iter().map(|[l, t, r, b]| (r - l) * (b - t)).collect();
    }
    let ground = page.ground.iter().map(|tint| Share {
        colour: tint.colour,
        area: bare * 4,
        ground: true,
        placed: false,
    });
    let mut shares: Vec<Share> = ground.collect();
    for (element, area) in page.elements.iter().zip(visible) {
        let others = i64::try_from(element.colours.len()).unwrap() - 1;
        for (place, tint) in element.colours.iter().enumerate() {
            let area = if others == 0 {
                area * 4
            } else if place == 0 {
                area * 2
            } else {
                area * 2 / others
            };
            let placed = element.kind != Kind::Photo;
            shares.push(Share { colour: tint.colour, area, ground: false, placed });
        }
    }
    shares
}

fn add(to: &mut Share, share: &Share) {
    to.area += share.area;
    to.ground |= share.ground;
    to.placed |= share.placed;
}

fn summed(shares: Vec<Share>) -> Vec<Share> {
    let mut sums: Vec<Share> = Vec::new();
    for share in shares {
        match sums.iter_mut().find(|earlier| earlier.colour == share.colour) {
            Some(earlier) => add(earlier, &share),
            None => sums.push(share),
        }
    }
    sums
}

fn joined(shares: Vec<Share>) -> Vec<Share> {
    let mut joined: Vec<Share> = Vec::new();
    for share in shares {
        match joined.iter_mut().find(|earlier| alike(earlier.colour, share.colour)) {
            Some(earlier) => add(earlier, &share),
            None => joined.push(share),
        }
    }
    joined
}

/// What lies under a strip.
#[derive(Clone, Copy)]
pub(crate) enum Under {
    Known(Colour),
    Unknown,
    /// Two things cover the band about equally: a raster and a sum of rectangles may differ.
    TooClose,
}

/// What lies under a strip that is compared by `height`: its own `on`; the ground while it is not placed; else the first
/// colour of what covers most of its band.
pub(crate) fn under(strip: &Strip, page: &Page, length: Length, height: Option<i64>) -> Under {
    let known = |colour: Option<Colour>| colour.map_or(Under::Unknown, Under::Known);
    if let Some(on) = &strip.rules.on {
        return Under::Known(on.colour);
    }
    let ground = page.ground.as_ref().map(|tint| tint.colour);
    let Some(at) = strip.place.at.filter(|_| !page.elements.is_empty()) else { return known(ground) };
    let Some(height) = height else { return Under::TooClose };
    let (left, top) = (at.x.mm(), at.y.mm() - Length::from_nm(height).mm());
    let (right, bottom) = (left + length.mm(), at.y.mm());
    let areas = covered(page, [left, top, right, bottom]);
    let mut order: Vec<usize> = (0..areas.len()).collect();
    order.sort_by(|&a, &b| areas[b].total_cmp(&areas[a]));
    let margin = areas[order[0]] - areas[order[1]];
    if margin < 0.15 * (right - left) * (bottom - top) {
        return Under::TooClose;
    }
    match order[0].checked_sub(1) {
        Some(place) => known(page.elements[place].colours.first().map(|tint| tint.colour)),
        None => known(ground),
    }
}

/// Areas of a band that show the ground, then each thing: the band is cut along the sides of all things, and each piece
/// belongs to the topmost thing at its middle.
fn covered(page: &Page, [left, top, right, bottom]: [f64; 4]) -> Vec<f64> {
    let mm = |nm: Length| nm.mm();
    let edges: Vec<[f64; 4]> = page
        .elements
        .iter()
        .map(|element| element.lie)
        .map(|lie| {
            [mm(lie.at.x), mm(lie.at.y), mm(lie.at.x + lie.size.width), mm(lie.at.y + lie.size.height)]
        })
        .collect();
    let cuts = |low: f64, high: f64, a: usize, b: usize| {
        let inner = edges.iter().flat_map(|edge| [edge[a], edge[b]]).filter(|cut| (low..high).contains(cut));
        let mut cuts: Vec<f64> = inner.chain([low, high]).collect();
        cuts.sort_by(f64::total_cmp);
        cuts
    };
    let (xs, ys) = (cuts(left, right, 0, 2), cuts(top, bottom, 1, 3));
    let mut areas = vec![0.0; page.elements.len() + 1];
    for x in xs.windows(2) {
        for y in ys.windows(2) {
            let (mid_x, mid_y) = (f64::midpoint(x[0], x[1]), f64::midpoint(y[0], y[1]));
            let on = |edge: &[f64; 4]| {
                (edge[0]..=edge[2]).contains(&mid_x) && (edge[1]..=edge[3]).contains(&mid_y)
            };
            let top = edges.iter().rposition(on).map_or(0, |place| place + 1);
            areas[top] += (x[1] - x[0]) * (y[1] - y[0]);
        }
    }
    areas
}
