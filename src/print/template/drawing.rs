//! The drawing of a part of a template: outlines, the carrier line, cross marks, and what the strip lies beside.
//!
//! Must not know how the strip is parted.

use crate::measure::{Colour, Extent, Polygon};
use crate::order::{Drawn, Step, StripOrder, Used};
use crate::print::clear::{Clear, RISE, bounds, cut_to, lines, off};
use crate::print::clip;
use crate::print::clip::Dot;
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen, Piece, Sense, Shape, Words};

use super::joins::cross;
use super::labels::{self, SIZE};
use super::near;
use super::spoken;
use super::stroke;
use super::view::View;

/// Pens: of what is stuck down, of what is printed on a tile, of what is missing, in fine dashes, and of the carrier line.
const OUTLINE: Pen = Pen { width: 0.25, dash: None, grey: 0.0 };
const PRINT: Pen = Pen { width: 0.12, dash: None, grey: 0.0 };
const MISSING: Pen = Pen { width: 0.2, dash: Some((0.7, 0.6)), grey: 0.0 };
const CARRIER: Pen = Pen { width: 0.2, dash: None, grey: 0.0 };

/// How far the carrier line runs on beyond the letters, in mm.
const RUN: f64 = 8.0;
/// The size of words in a box.
const LABEL: f64 = 2.2;
/// What they keep from its sides, and from one line of them to the next, over their size.
const WITHIN: f64 = 0.6;
const LEADING: f64 = 1.25;

/// A letter that is seen: its step, its outline.
type Seen<'a> = (&'a Step, &'a Drawn);

/// The drawing of `strip` in `view`, in room that is `clear`; `joins` draws the marks of joins before any words are set,
/// `joints` tell them.
pub(super) fn drawing(
    strip: &StripOrder,
    view: &View,
    clear: &mut Clear,
    joints: &[String],
    joins: impl FnOnce(&mut Clear) -> Vec<Mark>,
) -> Piece {
    let seen = letters(strip, view, clear);
    let (mut fills, mut outlines) = (Vec::new(), Vec::new());
    for &(step, drawn) in &seen {
        letter(step, drawn, view, &mut fills, &mut outlines);
    }
    let near = near::near(&strip.template, view, clear);
    let carrier = carrier_lines(strip, view, clear);
    let (crosses, measured) = crosses(strip, view, clear);
    let joins = joins(clear);
    let mut words: Vec<Mark> = measured.into_iter().flat_map(|at| labels::measured(at, clear)).collect();
    for line in &carrier {
        if let &Mark::Line { from, to, .. } = line {
            words.extend(labels::carrier(from, to, clear));
        }
    }
    words.extend(numbers(&seen, view, clear));
    words.extend(near::names(&near, clear));
    let told = Sense::Drawing(spoken::told(strip, &seen, view, joints, &near));
    let groups = [fills, near::edges(&near), carrier, outlines, crosses, joins, words];
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
    let sides =
        polygons.iter().flat_map(|polygon| stroke::along(&view.sides(polygon), pen, pen.dash.as_slice()));
    (cut.filter(|polygon| !polygon.is_empty()).collect(), Some(sides.collect()))
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
    let spot = |step: &Step| {
        let down = strip.template.feet.get(step.line).map_or(0.0, |line| line.down);
        (step.stance.left.mm(), down)
    };
    let spots = strip.measured().into_iter().map(spot);
    let spots: Vec<Dot> = spots.filter(|&spot| view.keeps(spot)).map(|spot| view.at(spot)).collect();
    let marks = spots.iter().flat_map(|&at| cross(at, clear)).collect();
    (marks, spots)
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
