//! The small map: the page to scale, with a key to what lies on it.
//!
//! Must not know where on a sheet it is set.

use crate::measure::{Colour, Extent, Polygon};
use crate::order::{Map, MapStrip, MapThing};
use crate::print::clear::{Clear, block, cut_to, lines, off};
use crate::print::clip::{self, Dot, within};
use crate::print::face::Face;
use crate::print::named::name;
use crate::print::sheet::{Mark, Pen, Piece, Sense, Shape};

use super::letters::{shade, spots};

const PAGE: Pen = Pen { width: 0.3, dash: None, grey: 0.0 };
const THING: Pen = Pen { width: 0.15, dash: None, grey: 0.3 };
const ORIGINAL: Pen = Pen { width: 0.6, dash: None, grey: 0.0 };
const STRIP: Pen = Pen { width: 0.15, dash: Some((1.0, 0.8)), grey: 0.0 };
const MISSING: Pen = Pen { width: 0.1, dash: None, grey: 0.0 };
const LEADER: Pen = Pen { width: 0.1, dash: None, grey: 0.0 };

/// The size of letters on the map and of the key, in mm.
const LETTER: f64 = 2.8;
/// Letters where a thing shows too little of itself for those.
const SMALL: f64 = 2.1;
const KEY: f64 = 3.0;
/// Between the map and its key.
const SPACE: f64 = 5.0;
/// The least width of a key beside the map.
const BESIDE: f64 = 48.0;

/// The map of a page in a room whose upper left corner is `at` and whose width and height are `room`, in mm: the drawing,
/// then its scale and its key. Never larger than the page; the key may need more height than the room has. Also how high it is.
#[must_use]
pub fn map_piece(map: &Map, at: (f64, f64), room: (f64, f64)) -> (Vec<Piece>, f64) {
    let beside = room.0 >= 2.0 * (BESIDE + SPACE) && !map.things.is_empty();
    let wide = if beside { room.0 - BESIDE - SPACE } else { room.0 };
    let below = if beside { 0.0 } else { SPACE + key_height(map, room.0) };
    let scale = Scale::of(map, at, (wide, (room.1 - below).max(room.1 / 3.0)));
    let (width, height) = (scale.long(map.size.width.mm()), scale.long(map.size.height.mm()));
    let mut pieces = vec![drawing(map, &scale)];
    let (key_at, key_wide) = if beside {
        ((at.0 + width + SPACE, at.1), room.0 - width - SPACE)
    } else {
        ((at.0, at.1 + height + SPACE), room.0)
    };
    let key_high = key(map, scale.one_to, key_at, key_wide, &mut pieces);
    (pieces, if beside { height.max(key_high) } else { height + SPACE + key_high })
}

/// From the page to the map.
struct Scale {
    at: Dot,
    /// So many mm of the page are one of the map: whole halves, at least 1.
    one_to: f64,
    page: Extent,
}

impl Scale {
    fn of(map: &Map, at: Dot, room: (f64, f64)) -> Self {
        let (width, height) = (map.size.width.mm(), map.size.height.mm());
        let least = (width / room.0).max(height / room.1).max(1.0);
        let one_to = (least * 2.0 - 1e-9).ceil() / 2.0;
        let page =
            Extent { left: at.0, top: at.1, right: at.0 + width / one_to, bottom: at.1 + height / one_to };
        Self { at, one_to, page }
    }

    fn long(&self, mm: f64) -> f64 {
        mm / self.one_to
    }

    /// An outline on the map, cut off at the page's edges; empty where it is off the page.
    fn outline(&self, polygon: &Polygon) -> Polygon {
        let laid =
            polygon.iter().map(|&(x, y)| (self.at.0 + self.long(x), self.at.1 + self.long(y))).collect();
        clip::polygon(&laid, self.page)
    }
}

fn drawing(map: &Map, scale: &Scale) -> Piece {
    let page = scale.page;
    let corners = vec![
        (page.left, page.top),
        (page.right, page.top),
        (page.right, page.bottom),
        (page.left, page.bottom),
    ];
    let shape = |outline: Vec<Polygon>, fill: Option<Colour>, pen: Option<Pen>| {
        Mark::Shape(Shape { outline, fill, pen })
    };
    let mut clear = Clear::new(page);
    let mut marks = vec![shape(vec![corners], None, Some(PAGE))];
    let things: Vec<Polygon> = map.things.iter().map(|thing| scale.outline(&thing.outline)).collect();
    for (thing, outline) in map.things.iter().zip(&things).filter(|(_, outline)| !outline.is_empty()) {
        let grey = shade(thing.kind);
        let fill = Colour { r: grey, g: grey, b: grey };
        let pen = if thing.original { ORIGINAL } else { THING };
        marks.push(shape(vec![outline.clone()], Some(fill), Some(pen)));
    }
    let rooms: Vec<Extent> =
        map.strips.iter().filter_map(|strip| lay(strip, scale, &mut clear, &mut marks)).collect();
    name_strips(map, scale, &mut clear, &mut marks);
    name_things(&things, &rooms, &mut clear, &mut marks);
    Piece { sense: Sense::Drawing(told(map)), marks }
}

/// Draws a strip: its room, its letters, what is printed on tiles, what is missing; gives its room, where it is on the page.
fn lay(strip: &MapStrip, scale: &Scale, clear: &mut Clear, marks: &mut Vec<Mark>) -> Option<Extent> {
    let corners = scale.outline(&strip.corners);
    let room = Extent::of(std::slice::from_ref(&corners));
    if !corners.is_empty() {
        marks.push(Mark::Shape(Shape { outline: vec![corners], fill: None, pen: Some(STRIP) }));
    }
    let kinds = [
        (&strip.letters, Some(Colour::BLACK), None),
        (&strip.prints, Some(Colour::WHITE), None),
        (&strip.missing, None, Some(MISSING)),
    ];
    for (outlines, fill, pen) in kinds {
        for outline in outlines {
            let outline: Vec<Polygon> =
                outline.iter().map(|polygon| scale.outline(polygon)).filter(|one| !one.is_empty()).collect();
            if let Some(extent) = Extent::of(&outline) {
                clear.take(extent);
                marks.push(Mark::Shape(Shape { outline, fill, pen }));
            }
        }
    }
    room
}

/// Each strip's role beside it.
fn name_strips(map: &Map, scale: &Scale, clear: &mut Clear, marks: &mut Vec<Mark>) {
    for strip in &map.strips {
        let corners = scale.outline(&strip.corners);
        let Some(extent) = Extent::of(&[corners]) else { continue };
        let role = cut_to(strip.role.as_str(), Face::Plain, LETTER, scale.page.right - scale.page.left);
        let half = Face::Plain.width(&role, LETTER) / 2.0;
        let off = off(LETTER);
        let rows = [0.0, 2.0, 4.0, 7.0, 10.0];
        let columns = [extent.left + half, extent.middle().0, extent.right - half];
        let spots = rows.into_iter().flat_map(|row| {
            columns
                .into_iter()
                .flat_map(move |x| [(x, extent.top - off - row), (x, extent.bottom + off + row)])
        });
        marks.extend(clear.set(&role, LETTER, spots.collect::<Vec<_>>()));
    }
}

/// The letter of each thing in it; where it has no room of its own, beside it with a line to it. Out of the `rooms` of strips if it
/// can be, so that it does not seem to name one. The topmost first.
fn name_things(things: &[Polygon], rooms: &[Extent], clear: &mut Clear, marks: &mut Vec<Mark>) {
    let is_apart = |from: Dot, to: Dot| {
        !rooms.iter().any(|&room| clip::line(from, to, clip::grown(room, LETTER)).is_some())
    };
    for (place, outline) in things.iter().enumerate().rev().filter(|(_, outline)| !outline.is_empty()) {
        let letter = name(place);
        let own = |size: f64| spots(outline, &things[place + 1..], size / 2.0);
        let apart = |size: f64| own(size).into_iter().filter(|&(x, y)| is_apart((x, y), (x + 0.1, y)));
        let set = clear.set(&letter, LETTER, apart(LETTER));
        let set = set.or_else(|| clear.set(&letter, SMALL, apart(SMALL)));
        let set = set.or_else(|| clear.set(&letter, LETTER, own(LETTER)));
        if let Some(words) = set.or_else(|| clear.set(&letter, SMALL, own(SMALL))) {
            marks.push(words);
            continue;
        }
        // A rim that is all there is to see: the line ends on its edge.
        let ends: Vec<(Dot, Dot)> = outline
            .iter()
            .zip(outline.iter().cycle().skip(1))
            .flat_map(|(&a, &b)| [0.5, 0.25, 0.75, 0.1, 0.9].map(|share| between(a, b, share)))
            .flat_map(|end| {
                let far = [4.0, 6.0, 9.0, 12.0];
                let ways = [(0.0, -1.0), (0.0, 1.0), (-1.0, 0.0), (1.0, 0.0)];
                far.into_iter()
                    .flat_map(move |far| ways.map(|(dx, dy)| (end, (end.0 + far * dx, end.1 + far * dy))))
            })
            .filter(|&(_, spot)| is_clear_of(outline, spot))
            .collect();
        let (apart, other): (Vec<_>, Vec<_>) = ends.into_iter().partition(|&(end, spot)| is_apart(end, spot));
        for (end, spot) in apart.into_iter().chain(other) {
            if let Some(words) = clear.set(&letter, LETTER, [spot]) {
                let from = between(spot, end, 1.9 / libm::hypot(spot.0 - end.0, spot.1 - end.1));
                marks.push(Mark::Line { from, to: end, pen: LEADER });
                marks.push(words);
                break;
            }
        }
    }
}

/// Whether a letter about `spot` lies out of `outline` and not across it.
fn is_clear_of(outline: &Polygon, (x, y): Dot) -> bool {
    let half = 0.75 * LETTER;
    let spots = [(-half, -half), (half, -half), (half, half), (-half, half), (0.0, 0.0)];
    !spots.into_iter().any(|(over, down)| within(outline, (x + over, y + down)))
}

fn between(a: Dot, b: Dot, share: f64) -> Dot {
    (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
}

/// `The page, about 1 to 2.5.`, and what is drawn how.
fn scale_told(map: &Map, one_to: f64) -> String {
    let scale = if (one_to - 1.0).abs() < 1e-9 {
        "The page at its true size.".to_owned()
    } else {
        format!("The page, about 1 to {one_to}.")
    };
    let room = match map.strips.len() {
        0 => return scale,
        1 => "the strip's room",
        _ => "the strips' room",
    };
    let lacks = map.strips.iter().any(|strip| !strip.missing.is_empty());
    let missing = if lacks { "; in thin outline: missing letters" } else { "" };
    format!("{scale} Letters in black; dashed: {room}{missing}.")
}

fn key_line(place: usize, thing: &MapThing) -> String {
    let kind = if thing.name == thing.kind.as_str() { String::new() } else { format!(", {}", thing.kind) };
    let original = if thing.original { ", an original (thick outline): nothing sticks to it" } else { "" };
    format!("{}: {}{kind}{original}", name(place), thing.name)
}

/// Sets the scale and the key below each other; how high they are.
fn key(map: &Map, one_to: f64, at: Dot, width: f64, pieces: &mut Vec<Piece>) -> f64 {
    let mut down = 0.0;
    let told = [scale_told(map, one_to)];
    let all =
        told.into_iter().chain(map.things.iter().enumerate().map(|(place, thing)| key_line(place, thing)));
    for text in all {
        let lines = lines(&text, Face::Plain, KEY, width, 3);
        let (piece, high) = block(Sense::Paragraph, &lines, Face::Plain, KEY, (at.0, at.1 + down));
        pieces.push(piece);
        down += high + 0.6;
    }
    down
}

fn key_height(map: &Map, width: f64) -> f64 {
    key(map, 100.5, (0.0, 0.0), width, &mut Vec::new())
}

/// The map in words.
fn told(map: &Map) -> String {
    let things: Vec<String> = (0..).zip(&map.things).map(|(place, thing)| key_line(place, thing)).collect();
    let roles: Vec<String> = map.strips.iter().map(|strip| format!("the {}", strip.role)).collect();
    let list = |list: &[String]| if list.is_empty() { "nothing".to_owned() } else { list.join("; ") };
    let text = format!("A map of the page. On it lie {}. Strips on it: {}.", list(&things), list(&roles));
    Face::legible(&text)
}
