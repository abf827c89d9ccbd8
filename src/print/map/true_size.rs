//! A sheet as large as the page, to lay on it: every letter outlined where it comes to stand.
//!
//! Must not know how a carrier is lined up.

use crate::checks::tell_length;
use crate::measure::{Colour, Extent, Length, Polygon, Unit};
use crate::order::{Map, Order, StripOrder};
use crate::print::bars;
use crate::print::clear::{Clear, beside, block, cut_to, lines, off};
use crate::print::clip::{self, Dot};
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen, Piece, Sense, Shape, Sheet};

use super::letters::spots;

const LETTER: Pen = Pen { width: 0.25, dash: None, grey: 0.0 };
const PRINT: Pen = Pen { width: 0.12, dash: None, grey: 0.0 };
const THING: Pen = Pen { width: 0.15, dash: None, grey: 0.6 };
const CROSS: Pen = Pen { width: 0.15, dash: None, grey: 0.0 };

/// What words keep from the page's edges, in mm; with check bars beside it they fit the smallest page that is printed on.
const MARGIN: f64 = 10.0;
/// How far a cross mark reaches from its middle.
const ARM: f64 = 4.0;
/// The room that the number of the sheet may take in the lower right corner: its upper left corner, from that of the page.
const NUMBER: (f64, f64) = (30.0, 9.5);
/// The size of numbers and names, and of the sentences.
const SIZE: f64 = 2.6;
const BODY: f64 = 3.0;

/// One sheet as large as the page of `map`, with what lies on it and the letters of all its strips where they come to lie;
/// lengths told in `unit`.
#[must_use]
pub fn true_size(order: &Order, map: &Map, unit: Unit) -> Sheet {
    let (width, height) = (map.size.width.mm(), map.size.height.mm());
    let page = Extent { left: 0.0, top: 0.0, right: width, bottom: height };
    let mut clear = Clear::new(clip::grown(page, -5.0));
    let mut marks = things(map, page);
    let letters = letters(order, map, page, &mut clear, &mut marks);
    let inside = inside(unit).mm();
    let corners = [inside, width - inside].map(|x| [inside, height - inside].map(|y| (x, y))).concat();
    for at in corners {
        marks.extend(cross(at, &mut clear));
    }
    clear.take(Extent { left: width - NUMBER.0, top: height - NUMBER.1, right: width, bottom: height });
    let words = words(map, unit, &mut clear, &letters);
    marks.extend(numbers(&letters, &mut clear));
    marks.extend(names(map, page, &mut clear));
    let drawing = Piece { sense: Sense::Drawing(told(map, unit)), marks };
    let pieces = std::iter::once(drawing).chain(words).collect();
    Sheet { size: map.size, told: "the page at its true size".to_owned(), pieces }
}

/// How far the cross marks are from both edges of the page's corners: above the number at the sheet's foot, and a length that
/// a ruler has.
const fn inside(unit: Unit) -> Length {
    match unit {
        Unit::Millimetre => Length::from_mm(15),
        // 5/8 in.
        Unit::Inch => Length::from_nm(15_875_000),
    }
}

/// The outlines of what lies on the page.
fn things(map: &Map, page: Extent) -> Vec<Mark> {
    let outlines = map.things.iter().map(|thing| clip::polygon(&thing.outline, page));
    let shape = |outline: Polygon| {
        Mark::Shape(Shape { outline: vec![outline], fill: Some(Colour::WHITE), pen: Some(THING) })
    };
    outlines.filter(|outline| !outline.is_empty()).map(shape).collect()
}

/// Outlines the letters; gives each one's number and the box around it.
fn letters(
    order: &Order,
    map: &Map,
    page: Extent,
    clear: &mut Clear,
    marks: &mut Vec<Mark>,
) -> Vec<(usize, Extent)> {
    let mut found = Vec::new();
    let placed = order.strips.iter().filter(|strip| !strip.carriers.is_empty());
    for (strip, laid) in placed.zip(&map.strips) {
        for (number, outline) in standing(strip).zip(&laid.letters) {
            let cut: Vec<Polygon> = outline.iter().map(|one| clip::polygon(one, page)).collect();
            let cut: Vec<Polygon> = cut.into_iter().filter(|one| !one.is_empty()).collect();
            if let Some(extent) = Extent::of(&cut) {
                clear.take(extent);
                found.push((number, extent));
                marks.push(Mark::Shape(Shape { outline: cut, fill: None, pen: Some(LETTER) }));
            }
        }
        for print in &laid.prints {
            let cut: Vec<Polygon> = print.iter().map(|one| clip::polygon(one, page)).collect();
            let outline: Vec<Polygon> = cut.into_iter().filter(|one| !one.is_empty()).collect();
            if !outline.is_empty() {
                marks.push(Mark::Shape(Shape { outline, fill: None, pen: Some(PRINT) }));
            }
        }
    }
    found
}

/// The numbers of the letters that stand: a map has no others.
fn standing(strip: &StripOrder) -> impl Iterator<Item = usize> {
    (1..).zip(&strip.template.letters).filter(|(_, drawn)| !drawn.missing).map(|(number, _)| number)
}

fn cross((x, y): Dot, clear: &mut Clear) -> [Mark; 2] {
    clear.take(clip::grown(Extent { left: x, top: y, right: x, bottom: y }, ARM));
    [
        Mark::Line { from: (x - ARM, y), to: (x + ARM, y), pen: CROSS },
        Mark::Line { from: (x, y - ARM), to: (x, y + ARM), pen: CROSS },
    ]
}

fn numbers(letters: &[(usize, Extent)], clear: &mut Clear) -> Vec<Mark> {
    let off = off(SIZE);
    let mut set = Vec::new();
    for &(number, extent) in letters {
        let (x, y) = extent.middle();
        let far = [0.0, 1.5, 3.0, 6.0];
        let rows =
            far.into_iter().flat_map(|far| [(x, extent.top - off - far), (x, extent.bottom + off + far)]);
        let beside =
            far.into_iter().flat_map(|far| [(extent.left - 2.5 - far, y), (extent.right + 2.5 + far, y)]);
        set.extend(clear.set(&number.to_string(), SIZE, rows.chain(beside).collect::<Vec<_>>()));
    }
    set
}

/// The name of each thing in it.
fn names(map: &Map, page: Extent, clear: &mut Clear) -> Vec<Mark> {
    let outlines: Vec<Polygon> = map.things.iter().map(|thing| clip::polygon(&thing.outline, page)).collect();
    for outline in &outlines {
        for (&from, &to) in outline.iter().zip(outline.iter().cycle().skip(1)) {
            clear.take_line(from, to);
        }
    }
    let mut set = Vec::new();
    for (place, thing) in map.things.iter().enumerate() {
        let width = Extent::of(&outlines[place..=place]).map_or(0.0, |extent| extent.right - extent.left);
        let name = cut_to(&thing.name, Face::Plain, SIZE, (width - 2.0).max(20.0));
        let own = clear.set(&name, SIZE, spots(&outlines[place], &outlines[place + 1..], SIZE / 2.0));
        let edge: Vec<(Dot, Dot)> =
            outlines[place].iter().copied().zip(outlines[place].iter().copied().cycle().skip(1)).collect();
        set.extend(own.or_else(|| clear.set(&name, SIZE, beside(&name, SIZE, &edge))));
    }
    set
}

/// What to do with the sheet, and the check bars: where no letter is, from the top down; else at the foot.
fn words(map: &Map, unit: Unit, clear: &mut Clear, letters: &[(usize, Extent)]) -> Vec<Piece> {
    let (width, height) = (map.size.width.mm(), map.size.height.mm());
    let wide = bars::WIDTH.min(width - 2.0 * MARGIN);
    let text = format!(
        "Print at true size ({} x {}), lay it on the page so that its corners and the things in grey lie on the page's own: \
         the letters of the strips come to stand where they are outlined. Each cross mark is {} from both edges of a corner.",
        tell_length(map.size.width, unit),
        tell_length(map.size.height, unit),
        tell_length(inside(unit), unit)
    );
    let lines = lines(&text, Face::Plain, BODY, wide, 6);
    let (_, high) = block(Sense::Paragraph, &lines, Face::Plain, BODY, (0.0, 0.0));
    let bars_fit = width >= bars::WIDTH + 2.0 * MARGIN;
    let tall = high + if bars_fit { bars::HEIGHT } else { 0.0 };
    let free = |&(x, y): &Dot| {
        let room = Extent { left: x, top: y, right: x + wide, bottom: y + tall };
        clear.is_free(room) && !letters.iter().any(|(_, letter)| clip::meet(room, *letter))
    };
    let steps = |from: f64, to: f64| {
        (0..=40_u8).map(move |step| from + (to - from).max(0.0) * f64::from(step) / 40.0)
    };
    let foot = (((width - wide) / 2.0), height - MARGIN - tall);
    let (x, y) = steps(MARGIN, height - MARGIN - tall)
        .flat_map(|y| steps(MARGIN, width - MARGIN - wide).map(move |x| (x, y)))
        .find(free)
        .unwrap_or(foot);
    clear.take(Extent { left: x, top: y, right: x + wide, bottom: y + tall });
    let (piece, _) = block(Sense::Paragraph, &lines, Face::Plain, BODY, (x, y));
    let bars = if bars_fit { bars::check_bars((x, y + high)) } else { Vec::new() };
    std::iter::once(piece).chain(bars).collect()
}

fn told(map: &Map, unit: Unit) -> String {
    let things: Vec<&str> = map.things.iter().map(|thing| thing.name.as_str()).collect();
    let roles: Vec<String> = map.strips.iter().map(|strip| format!("the {}", strip.role)).collect();
    let list = |list: Vec<String>| if list.is_empty() { "nothing".to_owned() } else { list.join(", ") };
    let things = list(things.into_iter().map(str::to_owned).collect());
    Face::legible(&format!(
        "The page at its true size, cross marks {} inside its corners. In grey: {things}. The letters of {} are outlined where \
         they come to stand, each with its number.",
        tell_length(inside(unit), unit),
        list(roles)
    ))
}
