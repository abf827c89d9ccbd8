//! The page colours and the families of letters, slowly and plainly, from the rules.
//!
//! Must not know how the checks are written.
#![expect(clippy::unwrap_used, reason = "a case that the rules do not cover fails the test")]

use oddment::measure::{Colour, Hundredths};
use oddment::page::{Element, Kind, Outline, Page};

/// The page colours: colour, whether it is the ground's; and the places of main and second.
pub(super) struct Colours {
    pub(super) all: Vec<(Colour, bool)>,
    pub(super) main: Option<usize>,
    pub(super) second: Option<usize>,
}

fn area_shown(page: &Page) -> (f64, Vec<f64>) {
    let inside = |element: &Element, x: f64, y: f64| {
        let lie = element.lie;
        let (w, h) = (lie.size.width.mm() / 2.0, lie.size.height.mm() / 2.0);
        let (cx, cy) = (lie.at.x.mm() + w, lie.at.y.mm() + h);
        let (sin, cos) = lie.turn.sin_cos();
        let (dx, dy) = (x - cx, y - cy);
        let (u, v) = ((dx * cos + dy * sin) / w, (dy * cos - dx * sin) / h);
        match lie.outline {
            Outline::Rect => u.abs() <= 1.0 && v.abs() <= 1.0,
            Outline::Round => u * u + v * v <= 1.0,
        }
    };
    let Some(size) = page.size else {
        let whole = |e: &Element| e.lie.size.width.mm() * e.lie.size.height.mm();
        return (0.0, page.elements.iter().map(whole).collect());
    };
    let (mut bare, mut shown) = (0.0, vec![0.0; page.elements.len()]);
    let cells =
        |mm: f64| (0..2000).map(|cell| f64::from(cell) + 0.5).take_while(|c| *c < mm).collect::<Vec<_>>();
    for &y in &cells(size.height.mm()) {
        for &x in &cells(size.width.mm()) {
            match page.elements.iter().rposition(|element| inside(element, x, y)) {
                Some(place) => shown[place] += 1.0,
                None => bare += 1.0,
            }
        }
    }
    (bare, shown)
}

pub(super) fn page_colours(page: &Page) -> Colours {
    let near = |a: Colour, b: Colour| a.lab().difference(b.lab()) <= Hundredths::new(600);
    if !page.colours.is_empty() {
        let ground = |colour: Colour| page.ground.as_ref().is_some_and(|ground| near(ground.colour, colour));
        let all: Vec<(Colour, bool)> =
            page.colours.iter().map(|tint| (tint.colour, ground(tint.colour))).collect();
        let second = (all.len() > 1).then_some(1);
        return Colours { all, main: Some(0), second };
    }
    if page.elements.is_empty() {
        return Colours { all: Vec::new(), main: None, second: None };
    }
    // Colour, area, shown by neither ground nor photo, shown by the ground.
    let mut shares: Vec<(Colour, f64, bool, bool)> = Vec::new();
    let mut add = |colour: Colour, area: f64, placed: bool, ground: bool| match shares
        .iter_mut()
        .find(|s| s.0 == colour)
    {
        Some(share) => *share = (colour, share.1 + area, share.2 || placed, share.3 || ground),
        None => shares.push((colour, area, placed, ground)),
    };
    let (bare, shown) = area_shown(page);
    // What is wholly hidden is not on the page; without a size the ground has no area, and shows.
    let hidden = |area: f64| page.size.is_some() && area <= 0.0;
    if let Some(ground) = page.ground.as_ref().filter(|_| !hidden(bare)) {
        add(ground.colour, bare, false, true);
    }
    for (element, area) in page.elements.iter().zip(shown).filter(|(_, area)| !hidden(*area)) {
        for (place, tint) in element.colours.iter().enumerate() {
            let others = element.colours.len() - 1;
            let part = if others == 0 {
                area
            } else if place == 0 {
                area / 2.0
            } else {
                area / 2.0 / f64::from(u8::try_from(others).unwrap())
            };
            add(tint.colour, part, element.kind != Kind::Photo, false);
        }
    }
    shares.sort_by(|a, b| b.1.partial_cmp(&a.1).unwrap());
    let mut joined: Vec<(Colour, f64, bool, bool)> = Vec::new();
    for share in shares {
        match joined.iter_mut().find(|earlier| near(earlier.0, share.0)) {
            Some(earlier) => {
                *earlier = (earlier.0, earlier.1 + share.1, earlier.2 || share.2, earlier.3 || share.3);
            }
            None => joined.push(share),
        }
    }
    let strong: Vec<usize> = (0..joined.len())
        .filter(|&p| {
            joined[p].1 > 0.0 && Hundredths::from_f64(joined[p].0.lab().chroma()) >= Hundredths::new(1200)
        })
        .collect();
    let mut order = strong;
    order
        .sort_by(|&a, &b| joined[b].2.cmp(&joined[a].2).then(joined[b].1.partial_cmp(&joined[a].1).unwrap()));
    Colours {
        main: order.first().copied(),
        second: order.get(1).copied(),
        all: joined.iter().map(|s| (s.0, s.3)).collect(),
    }
}

pub(super) fn nearest(colours: &Colours, colour: Colour) -> Option<(Hundredths, usize)> {
    (0..colours.all.len()).map(|place| (colours.all[place].0.lab().difference(colour.lab()), place)).min()
}

pub(super) fn family(colours: &Colours, tints: &[Colour]) -> (String, bool) {
    let best = tints.iter().filter_map(|&colour| nearest(colours, colour)).min();
    let reach = Hundredths::new(1500);
    let first = tints[0];
    let name = match best {
        Some((apart, place)) if apart <= reach => format!("page {place}"),
        _ => stray_family(first),
    };
    let main =
        nearest(colours, first).is_some_and(|(apart, place)| apart <= reach && Some(place) == colours.main);
    (name, main)
}

fn stray_family(colour: Colour) -> String {
    let lab = colour.lab();
    if Hundredths::from_f64(lab.chroma()) < Hundredths::new(1200) {
        return if lab.l() >= 70.0 {
            "light"
        } else if lab.l() >= 30.0 {
            "mid"
        } else {
            "dark"
        }
        .into();
    }
    let sector = (0..8).find(|&s| {
        let centre = f64::from(s) * 45.0;
        let off = (lab.hue_degrees() - centre + 540.0) % 360.0 - 180.0;
        (-22.5..22.5).contains(&off)
    });
    format!("sector {}", sector.unwrap())
}
