//! The drawing of a part of a template: outlines, the carrier line, cross marks, and what the strip lies beside.
//!
//! Must not know how the strip is parted.

use crate::measure::{Colour, Extent, Polygon};
use crate::order::{Drawn, FeetLine, Step, StripOrder, Used};
use crate::print::clear::{Clear, RISE, beside, bounds, cut_to, lines, off};
use crate::print::clip;
use crate::print::clip::Dot;
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen, Piece, Sense, Shape, Words};

use super::joins::{ARM, cross};
use super::stroke;
use super::view::View;

/// Pens: of what is stuck down, of what is printed on a tile, of what is missing, of the carrier line, of what the strip lies
/// beside.
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
/// What they keep from its sides, and from one line of them to the next, over their size.
const WITHIN: f64 = 0.6;
const LEADING: f64 = 1.25;
/// What the line of feet is called, and the spots that are measured from the page's edges.
const CALLED: &str = "carrier line";
const MEASURED: &str = "measure to here";

/// A letter that is seen: its step, its outline.
type Seen<'a> = (&'a Step, &'a Drawn);

/// The drawing of `strip` in `view`, in room that is `clear`; `joins` draws the marks of joins before any words are set.
pub(super) fn drawing(
    strip: &StripOrder,
    view: &View,
    clear: &mut Clear,
    joins: impl FnOnce(&mut Clear) -> Vec<Mark>,
) -> Piece {
    let seen = letters(strip, view, clear);
    let (mut fills, mut outlines) = (Vec::new(), Vec::new());
    for &(step, drawn) in &seen {
        letter(step, drawn, view, &mut fills, &mut outlines);
    }
    let near = near(strip, view, clear);
    let carrier = carrier_lines(strip, view, clear);
    let (crosses, measured) = crosses(strip, view, clear);
    let joins = joins(clear);
    let mut words = numbers(&seen, view, clear);
    words.extend(names(&measured, &near, &carrier, clear));
    let told = Sense::Drawing(told(&seen, &near));
    let edges = near.iter().flat_map(|near| stroke::along(&near.lines, EDGE)).collect();
    let groups = [fills, edges, carrier, outlines, crosses, joins, words];
    Piece { sense: told, marks: groups.into_iter().flatten().collect() }
}

/// The letters of `strip` in `view`; their room is taken from `clear`.
fn letters<'a>(strip: &'a StripOrder, view: &View, clear: &mut Clear) -> Vec<Seen<'a>> {
    let all = strip.steps.iter().zip(&strip.template.letters);
    let seen = all.filter(|(_, drawn)| {
        drawn.extent().is_some_and(|extent| {
            let shows = clip::meet(extent, view.own);
            if shows {
                clear.take(view.place(extent));
            }
            shows
        })
    });
    seen.collect()
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
    let sides = polygons.iter().flat_map(|polygon| stroke::along(&sides(polygon, view), pen));
    (cut.filter(|polygon| !polygon.is_empty()).collect(), Some(sides.collect()))
}

/// The sides of an outline as far as they are in `view`, where they are on the sheet.
fn sides(polygon: &Polygon, view: &View) -> Vec<(Dot, Dot)> {
    let corners = polygon.iter().zip(polygon.iter().cycle().skip(1));
    let seen = corners.filter_map(|(&from, &to)| clip::line(from, to, view.window));
    seen.map(|(from, to)| (view.at(from), view.at(to))).collect()
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

/// Cross marks on the lines of feet at the spots that are measured, where the strip has a place; and where on the sheet
/// those are.
fn crosses(strip: &StripOrder, view: &View, clear: &mut Clear) -> (Vec<Mark>, Vec<Dot>) {
    let on_line = |(number, line): (usize, &FeetLine)| {
        let mut steps = strip.steps.iter().filter(|step| step.line == number);
        let first = steps.next().filter(|_| !strip.carriers.is_empty());
        let last = steps.next_back().filter(|_| strip.is_turned());
        let down = line.down;
        first.into_iter().chain(last).map(move |step| (step.stance.left.mm(), down)).collect::<Vec<_>>()
    };
    let spots = strip.template.feet.iter().enumerate().flat_map(on_line);
    let spots: Vec<Dot> = spots.filter(|&spot| view.keeps(spot)).map(|spot| view.at(spot)).collect();
    let marks = spots.iter().flat_map(|&at| cross(at, clear)).collect();
    (marks, spots)
}

/// The outline of a thing that the strip lies beside, as far as it is seen.
struct Near {
    name: String,
    lines: Vec<(Dot, Dot)>,
}

/// What the strip lies beside, where it is seen.
fn near(strip: &StripOrder, view: &View, clear: &mut Clear) -> Vec<Near> {
    let mut near = Vec::new();
    for edge in &strip.template.edges {
        let lines = sides(&edge.outline, view);
        for &(from, to) in &lines {
            clear.take_line(from, to);
        }
        if !lines.is_empty() {
            let name = if edge.name == "page" { "edge of the page" } else { &edge.name };
            near.push(Near { name: cut_to(name, Face::Plain, SIZE, 45.0), lines });
        }
    }
    near
}

/// Small words at what is neither a letter nor a join.
fn names(measured: &[Dot], near: &[Near], carrier: &[Mark], clear: &mut Clear) -> Vec<Mark> {
    let mut words = Vec::new();
    for &(x, y) in measured {
        let half = Face::Plain.width(MEASURED, LABEL) / 2.0;
        let (under, aside) = (ARM + off(LABEL), half + 0.8);
        let below = [under, under + 2.5, under + 5.0].map(|down| (x, y + down));
        let beside = [off(LABEL), ARM + 0.5, -off(LABEL), -ARM - 0.5]
            .into_iter()
            .flat_map(|down| [-aside, aside, -aside - ARM].map(|over| (x + over, y + down)));
        words.extend(clear.set(MEASURED, LABEL, below.into_iter().chain(beside)));
    }
    if let Some(&Mark::Line { from, to, .. }) = carrier.first() {
        let half = Face::Plain.width(CALLED, LABEL) / 2.0;
        let rows = [off(LABEL) + 0.2, -off(LABEL) - 0.2];
        let columns =
            (0..40_u8).map(|step| to.0 - half - 4.0 * f64::from(step)).take_while(|&x| x > from.0 + half);
        let columns: Vec<f64> = columns.collect();
        let spots = rows.into_iter().flat_map(|row| columns.iter().map(move |&x| (x, to.1 + row)));
        words.extend(clear.set(CALLED, LABEL, spots));
    }
    for Near { name, lines } in near {
        words.extend(clear.set(name, SIZE, beside(name, SIZE, lines)));
    }
    words
}

/// The number of each letter, above those of the first line, below those of the second; or else where there is room.
fn numbers(seen: &[Seen<'_>], view: &View, clear: &mut Clear) -> Vec<Mark> {
    let mut marks = Vec::new();
    for &(step, drawn) in seen {
        let Some(extent) = drawn.extent() else { continue };
        // A letter that a join runs through is named where its middle is seen.
        if !view.keeps(extent.middle()) {
            continue;
        }
        let number = step.number.to_string();
        let within = view.place(extent);
        let mut label = number.clone();
        match &step.used {
            Used::Thing(thing) => match in_box(&thing.label, within, clear) {
                Some(words) => marks.extend(words),
                None => label = cut_to(&format!("{number}: {}", thing.label), Face::Plain, SIZE, 40.0),
            },
            Used::Letter(_) | Used::Missing(_) => {}
        }
        let spots = around(within, step.line);
        let set = clear.set(&label, SIZE, spots.clone()).or_else(|| clear.set(&number, SIZE, spots));
        marks.push(set.unwrap_or_else(|| on_it(&number, within, clear)));
    }
    marks
}

/// Spots around a letter, the best first.
fn around(letter: Extent, line: usize) -> Vec<Dot> {
    let (x, y) = letter.middle();
    let asides = [0.0, -2.0, 2.0, -4.0, 4.0, -7.0, 7.0];
    let above = |far: f64| asides.map(|aside| (x + aside, letter.top - off(SIZE) - far));
    let below = |far: f64| asides.map(|aside| (x + aside, letter.bottom + off(SIZE) + far));
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
fn on_it(number: &str, letter: Extent, clear: &mut Clear) -> Mark {
    let (x, y) = letter.middle();
    let (wide, high) = ((letter.right - letter.left) / 8.0, (letter.bottom - letter.top) / 8.0);
    let steps = [0.0, -1.0, 1.0, -2.0, 2.0, -3.0, 3.0];
    let spots = steps.into_iter().flat_map(|down| steps.map(|over| (x + over * wide, y + down * high)));
    clear.set_on(letter, number, SIZE, spots.collect::<Vec<_>>()).unwrap_or_else(|| {
        let at = (x - Face::Plain.width(number, SIZE) / 2.0, y + SIZE * RISE / 2.0);
        Mark::Words(Words { at, size: SIZE, face: Face::Plain, text: number.to_owned() })
    })
}

/// `label` in the box of a thing; `None` where it is too large for it.
fn in_box(label: &str, thing: Extent, clear: &mut Clear) -> Option<Vec<Mark>> {
    let (wide, high) = (thing.right - thing.left - 2.0 * WITHIN, thing.bottom - thing.top - 2.0 * WITHIN);
    let step = LABEL * LEADING;
    let lines = lines(label, Face::Plain, LABEL, wide.max(0.0), usize::MAX);
    let count = f64::from(u32::try_from(lines.len()).unwrap_or(u32::MAX));
    let broken = lines.len() > label.split_whitespace().count();
    if broken || count * step > high || lines.iter().any(|line| Face::Plain.width(line, LABEL) > wide) {
        return None;
    }
    let (x, y) = thing.middle();
    let mut down = y - (count - 1.0) * step / 2.0 + LABEL * RISE / 2.0;
    let mut marks = Vec::new();
    for text in lines {
        let at = (x - Face::Plain.width(&text, LABEL) / 2.0, down);
        clear.take(bounds(at, Face::Plain.width(&text, LABEL), LABEL));
        marks.push(Mark::Words(Words { at, size: LABEL, face: Face::Plain, text }));
        down += step;
    }
    Some(marks)
}

/// The drawing in words.
fn told(seen: &[Seen<'_>], near: &[Near]) -> String {
    let one = |&(step, drawn): &Seen<'_>| {
        let missing = if drawn.missing { " (missing, dashed)" } else { "" };
        let wanted = match &step.used {
            Used::Thing(thing) => format!("{} for {}", thing.label, step.wanted.spoken()),
            Used::Letter(_) | Used::Missing(_) => step.wanted.spoken(),
        };
        format!("{} {wanted}{missing}", step.number)
    };
    let letters: Vec<String> = seen.iter().map(one).collect();
    let letters = if letters.is_empty() { "none".to_owned() } else { letters.join(", ") };
    let near: Vec<&str> = near.iter().map(|near| near.name.as_str()).collect();
    let beside =
        if near.is_empty() { String::new() } else { format!(" Dashed in grey: {}.", near.join(", ")) };
    Face::legible(&format!(
        "Letters outlined at true size on the carrier line, from left to right: {letters}.{beside}"
    ))
}
