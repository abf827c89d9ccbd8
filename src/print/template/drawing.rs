//! The drawing of a part of a template: outlines, the carrier line, cross marks, and what the strip lies beside.
//!
//! Must not know how the strip is parted.

use crate::measure::{Colour, Extent, Polygon};
use crate::order::{Drawn, Step, StripOrder, Used};
use crate::print::clear::{Clear, cut_to, lines};
use crate::print::clip;
use crate::print::clip::Dot;
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen, Piece, Sense, Shape, Words};

use super::joins::cross;
use super::view::View;

/// Pens: of what is stuck down, of what is printed on a tile, of what is missing, of the carrier line.
const OUTLINE: Pen = Pen { width: 0.25, dash: None, grey: 0.0 };
const PRINT: Pen = Pen { width: 0.12, dash: None, grey: 0.0 };
const MISSING: Pen = Pen { width: 0.25, dash: Some((1.2, 1.0)), grey: 0.0 };
const CARRIER: Pen = Pen { width: 0.2, dash: None, grey: 0.0 };
const EDGE: Pen = Pen { width: 0.25, dash: Some((2.5, 1.5)), grey: 0.5 };

/// How far the carrier line runs on beyond the letters, in mm.
const RUN: f64 = 8.0;
/// The size of numbers and names, in mm.
const SIZE: f64 = 2.6;
/// The size of words in a box.
const LABEL: f64 = 2.2;
/// From the middle of words to what they stand beside.
const OFF: f64 = 0.61 * SIZE + 0.6;

/// A letter that is seen: its place in the strip, its step, its outline.
type Seen<'a> = (usize, &'a Step, &'a Drawn);

/// The letters of `strip` in `view`; their room is taken from `clear`.
pub(super) fn letters<'a>(strip: &'a StripOrder, view: &View, clear: &mut Clear) -> Vec<Seen<'a>> {
    let all = strip.steps.iter().zip(&strip.template.letters).enumerate();
    let seen = all.filter_map(|(slot, (step, drawn))| {
        let extent = drawn.extent()?;
        clip::meet(extent, view.window).then(|| {
            clear.take(view.place(extent));
            (slot, step, drawn)
        })
    });
    seen.collect()
}

/// The drawing of `strip` in `view`: the letters `seen`, and the marks of joins.
pub(super) fn drawing(
    strip: &StripOrder,
    view: &View,
    clear: &mut Clear,
    seen: &[Seen<'_>],
    joined: Vec<Mark>,
) -> Piece {
    let mut fills = Vec::new();
    let mut outlines = Vec::new();
    for &(_, step, drawn) in seen {
        letter(step, drawn, view, &mut fills, &mut outlines);
    }
    let carrier = carrier_lines(strip, view, clear);
    let crosses = crosses(strip, view, clear);
    let (edges, names) = beside(strip, view, clear, |clear| numbers(seen, view, clear));
    let groups = [fills, edges, carrier, outlines, crosses, names, joined];
    Piece { sense: Sense::Drawing(told(strip, seen)), marks: groups.into_iter().flatten().collect() }
}

/// The fill and the outlines of a letter; one that reaches out of the window is cut off there.
fn letter(step: &Step, drawn: &Drawn, view: &View, fills: &mut Vec<Mark>, outlines: &mut Vec<Mark>) {
    let colour = match &step.used {
        Used::Letter(letter) => letter.colours.first().map(|tint| tint.colour),
        Used::Thing(thing) => thing.colour.as_ref().map(|tint| tint.colour),
        Used::Missing(_) => None,
    };
    let light = |tenths: u8| colour.map(|colour| colour.mixed(Colour::WHITE, tenths));
    let pen = if drawn.missing { MISSING } else { OUTLINE };
    let mut draw = |polygons: &[Polygon], fill: Option<Colour>, pen: Pen| {
        let (shape, lines) = cut_out(polygons, view, pen);
        fills.extend(
            fill.map(|fill| Mark::Shape(Shape { outline: shape.clone(), fill: Some(fill), pen: None })),
        );
        match lines {
            None => outlines.push(Mark::Shape(Shape { outline: shape, fill: None, pen: Some(pen) })),
            Some(lines) => outlines.extend(lines),
        }
    };
    draw(&drawn.edge, if drawn.missing { None } else { light(8) }, pen);
    if let Some(print) = &drawn.print {
        draw(print, light(6), PRINT);
    }
}

/// Outlines as they are in `view`; with the lines that draw them where the window cuts them off.
fn cut_out(polygons: &[Polygon], view: &View, pen: Pen) -> (Vec<Polygon>, Option<Vec<Mark>>) {
    if Extent::of(polygons).is_none_or(|extent| clip::holds(view.window, extent)) {
        return (polygons.iter().map(|polygon| view.outline(polygon)).collect(), None);
    }
    let cut = polygons.iter().map(|polygon| view.outline(&clip::polygon(polygon, view.window)));
    let sides = polygons.iter().flat_map(|polygon| sides(polygon, view, pen));
    (cut.filter(|polygon| !polygon.is_empty()).collect(), Some(sides.collect()))
}

/// The sides of an outline as far as they are in `view`.
fn sides<'a>(polygon: &'a Polygon, view: &'a View, pen: Pen) -> impl Iterator<Item = Mark> + 'a {
    polygon.iter().zip(polygon.iter().cycle().skip(1)).filter_map(move |(&from, &to)| {
        let (from, to) = clip::line(from, to, view.window)?;
        Some(Mark::Line { from: view.at(from), to: view.at(to), pen })
    })
}

/// The lines that feet stand on.
fn carrier_lines(strip: &StripOrder, view: &View, clear: &mut Clear) -> Vec<Mark> {
    let mut marks = Vec::new();
    for line in &strip.template.feet {
        let ends = ((line.left - RUN, line.down), (line.right + RUN, line.down));
        if let Some((from, to)) = clip::line(ends.0, ends.1, view.window) {
            let (from, to) = (view.at(from), view.at(to));
            clear.take(Extent { left: from.0, top: from.1 - 0.2, right: to.0, bottom: to.1 + 0.2 });
            marks.push(Mark::Line { from, to, pen: CARRIER });
        }
    }
    marks
}

/// Cross marks on the first line of feet: at the spots that are measured, and at its right end.
fn crosses(strip: &StripOrder, view: &View, clear: &mut Clear) -> Vec<Mark> {
    let mut line = strip.steps.iter().filter(|step| step.line == 0);
    let first = line.next();
    let last = line.next_back().filter(|_| strip.is_turned());
    let spots: Vec<f64> = first.into_iter().chain(last).map(|step| step.stance.left.mm()).collect();
    let end = strip.template.feet.first().map(|feet| feet.right);
    let seen = |x: &f64| view.shows((*x, 0.0));
    let mut marks: Vec<Mark> =
        spots.iter().copied().chain(end).filter(seen).flat_map(|x| cross(view.at((x, 0.0)), clear)).collect();
    if strip.carrier.is_some() {
        for x in spots.into_iter().filter(seen) {
            let (x, y) = view.at((x, 0.0));
            let rows = [4.6, 7.0, 9.4].map(|down| (x, y + down));
            let beside = [4.0, 8.0, 12.0].map(|off| (x - 8.0 - off, y + OFF));
            marks.extend(clear.set("measured", LABEL, rows.into_iter().chain(beside)));
        }
    }
    marks
}

/// What the strip lies beside, dashed, and the names of it; between both `names` sets what matters more.
fn beside(
    strip: &StripOrder,
    view: &View,
    clear: &mut Clear,
    names: impl FnOnce(&mut Clear) -> Vec<Mark>,
) -> (Vec<Mark>, Vec<Mark>) {
    let mut marks = Vec::new();
    let mut named: Vec<(String, Vec<(Dot, Dot)>)> = Vec::new();
    for edge in &strip.template.edges {
        let drawn: Vec<Mark> = sides(&edge.outline, view, EDGE).collect();
        let lines: Vec<(Dot, Dot)> = drawn
            .iter()
            .filter_map(|mark| match mark {
                Mark::Line { from, to, .. } => Some((*from, *to)),
                Mark::Words(_) | Mark::Shape(_) => None,
            })
            .collect();
        for &(from, to) in &lines {
            take_line(from, to, clear);
        }
        if !lines.is_empty() {
            let name = if edge.name == "page" { "edge of the page" } else { &edge.name };
            named.push((cut_to(name, Face::Plain, SIZE, 45.0), lines));
        }
        marks.extend(drawn);
    }
    let mut set = names(clear);
    for (name, lines) in named {
        set.extend(clear.set(&name, SIZE, along(&name, &lines)));
    }
    (marks, set)
}

/// No words shall lie across a line: its room in small boxes.
fn take_line(from: Dot, to: Dot, clear: &mut Clear) {
    let steps = ((to.0 - from.0).abs().min((to.1 - from.1).abs()) / 2.0).ceil().clamp(1.0, 200.0);
    let mut step = 0.0;
    while step < steps {
        let at = |share: f64| (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
        let (a, b) = (at(step / steps), at((step + 1.0) / steps));
        let (left, right) = (a.0.min(b.0), a.0.max(b.0));
        let (top, bottom) = (a.1.min(b.1), a.1.max(b.1));
        clear.take(Extent { left: left - 0.1, top: top - 0.1, right: right + 0.1, bottom: bottom + 0.1 });
        step += 1.0;
    }
}

/// Spots for a name beside lines: from their middles outward, first close to them.
fn along(name: &str, lines: &[(Dot, Dot)]) -> Vec<Dot> {
    let half = Face::Plain.width(name, SIZE) / 2.0;
    let mut spots = Vec::new();
    for far in [0.2, 2.5, 5.0, 8.0, 11.0] {
        for &(from, to) in lines {
            for share in [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.02, 0.98] {
                let (x, y) = (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
                let (down, over) = (OFF + far, half + 0.8 + far);
                spots.extend([(x, y + down), (x, y - down), (x + over, y), (x - over, y)]);
            }
        }
    }
    spots
}

/// The number of each letter, above those of the first line, below those of the second; or else where there is room.
fn numbers(seen: &[Seen<'_>], view: &View, clear: &mut Clear) -> Vec<Mark> {
    let mut marks = Vec::new();
    for &(_, step, drawn) in seen {
        let Some(extent) = drawn.extent() else { continue };
        let number = step.number.to_string();
        let within = view.place(extent);
        let mut label = number.clone();
        match &step.used {
            Used::Missing(_) => label.push_str(" missing"),
            Used::Thing(thing) => match in_box(&thing.label, within) {
                Some(words) => marks.extend(words),
                None => label = cut_to(&format!("{number} {}", thing.label), Face::Plain, SIZE, 40.0),
            },
            Used::Letter(_) => {}
        }
        // A letter that a part's edge cuts off is named where most of it is seen.
        if !view.shows(extent.middle()) && !clip::holds(view.window, extent) {
            continue;
        }
        let spots = around(within, step.line);
        let set = clear.set(&label, SIZE, spots.clone()).or_else(|| clear.set(&number, SIZE, spots));
        marks.push(set.unwrap_or_else(|| on_it(&number, within)));
    }
    marks
}

/// Spots around a letter, the best first.
fn around(letter: Extent, line: usize) -> Vec<Dot> {
    let (x, y) = letter.middle();
    let asides = [0.0, -2.0, 2.0, -4.0, 4.0, -7.0, 7.0];
    let above = |far: f64| asides.map(|aside| (x + aside, letter.top - OFF - far));
    let below = |far: f64| asides.map(|aside| (x + aside, letter.bottom + OFF + far));
    let rows = [0.0, 1.0, 2.0, 3.0, 6.0, 9.0, 12.0];
    let (best, other): (Vec<Dot>, Vec<Dot>) = if line == 0 {
        (rows.into_iter().flat_map(above).collect(), rows.into_iter().flat_map(below).collect())
    } else {
        (rows.into_iter().flat_map(below).collect(), rows.into_iter().flat_map(above).collect())
    };
    let beside = [(letter.left - 2.5, y), (letter.right + 2.5, y)];
    best.into_iter().chain(other).chain(beside).collect()
}

/// A number on its own letter: where nothing around it is free.
fn on_it(number: &str, letter: Extent) -> Mark {
    let (x, y) = letter.middle();
    let at = (x - Face::Plain.width(number, SIZE) / 2.0, y + SIZE * 0.365);
    Mark::Words(Words { at, size: SIZE, face: Face::Plain, text: number.to_owned() })
}

/// `label` in the box of a thing; `None` where it is too large for it.
fn in_box(label: &str, thing: Extent) -> Option<Vec<Mark>> {
    let (wide, high) = (thing.right - thing.left - 1.2, thing.bottom - thing.top - 1.2);
    let step = LABEL * 1.25;
    let lines = lines(label, Face::Plain, LABEL, wide.max(0.0), usize::MAX);
    let count = f64::from(u32::try_from(lines.len()).unwrap_or(u32::MAX));
    let broken = lines.len() > label.split_whitespace().count();
    if broken || count * step > high || lines.iter().any(|line| Face::Plain.width(line, LABEL) > wide) {
        return None;
    }
    let (x, y) = thing.middle();
    let mut down = y - (count - 1.0) * step / 2.0 + LABEL * 0.365;
    let mut marks = Vec::new();
    for text in lines {
        let at = (x - Face::Plain.width(&text, LABEL) / 2.0, down);
        marks.push(Mark::Words(Words { at, size: LABEL, face: Face::Plain, text }));
        down += step;
    }
    Some(marks)
}

/// The drawing in words.
fn told(strip: &StripOrder, seen: &[Seen<'_>]) -> String {
    let one = |&(_, step, drawn): &Seen<'_>| {
        let missing = if drawn.missing { " (missing, dashed)" } else { "" };
        let wanted = match &step.used {
            Used::Thing(thing) => format!("{} for {}", thing.label, step.wanted.spoken()),
            Used::Letter(_) | Used::Missing(_) => step.wanted.spoken(),
        };
        format!("{} {wanted}{missing}", step.number)
    };
    let letters: Vec<String> = seen.iter().map(one).collect();
    let edges: Vec<&str> = strip.template.edges.iter().map(|edge| edge.name.as_str()).collect();
    let beside = if edges.is_empty() {
        String::new()
    } else {
        format!(" Dashed in grey, where near: {}.", edges.join(", "))
    };
    let text = format!(
        "Outlines at true size, standing on the carrier line, with cross marks on it. From left to right: {}.{beside}",
        if letters.is_empty() { "none".to_owned() } else { letters.join(", ") }
    );
    Face::legible(&text)
}
