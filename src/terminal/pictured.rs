//! Sheets of a printed order as the screen draws them small.
//!
//! Must not know what an order is, nor how a picture is drawn.

use crate::app::{SheetPicture, Writing};
use crate::measure::{Colour, Extent, Polygon};
use crate::print::{Mark, Pen, Sense, Shape, Sheet, Words};

/// From this contrast with white paper on, in hundredths, a fill is seen as black: that of text (WCAG 2.2, success criterion
/// 1.4.3).
const DARK: i32 = 450;

/// Each sheet as it is drawn small: letters as closed outlines, boxes and what is missing as their edges, rules and tints left
/// out.
#[must_use]
pub fn pictures(sheets: &[Sheet]) -> Vec<SheetPicture> {
    sheets.iter().map(picture).collect()
}

fn picture(sheet: &Sheet) -> SheetPicture {
    let mut picture = SheetPicture {
        told: sheet.told.clone(),
        width: sheet.size.width.mm(),
        height: sheet.size.height.mm(),
        writing: Vec::new(),
        shapes: Vec::new(),
        lines: Vec::new(),
    };
    for piece in &sheet.pieces {
        // Rules between the rows of a table would hide the rows: no line of a picture is thinner than a point.
        let is_drawing = matches!(piece.sense, Sense::Drawing(_));
        let is_heading = matches!(piece.sense, Sense::Title | Sense::Heading | Sense::Subheading);
        for mark in &piece.marks {
            match mark {
                Mark::Words(words) => picture.writing.push(writing(words, is_heading)),
                Mark::Shape(shape) if is_solid(shape) => picture.shapes.push(shape.outline.clone()),
                Mark::Shape(shape) if is_drawing && shape.pen.is_some() => {
                    picture.lines.extend(edges(shape).iter().flat_map(sides));
                }
                Mark::Line { from, to, .. } if is_drawing => picture.lines.push((*from, *to)),
                // A tint under letters, or a rule.
                Mark::Shape(_) | Mark::Line { .. } => {}
            }
        }
    }
    picture
}

fn writing(words: &Words, strong: bool) -> Writing {
    Writing { at: words.at, width: words.width(), size: words.size, text: words.text.clone(), strong }
}

/// Whether a shape is seen best as a black one: what is filled with a dark colour; and the bare outline of a letter, which
/// would be no letter any more where a whole stroke takes two points.
fn is_solid(shape: &Shape) -> bool {
    match (shape.fill, shape.pen) {
        (Some(colour), _) => colour.contrast(Colour::WHITE).get() >= DARK,
        (None, Some(Pen { dash: None, .. })) => !is_box(&shape.outline),
        (None, _) => false,
    }
}

/// Whether an outline is that of a box, upright or turned: a tile, a thing on the page.
fn is_box(outline: &[Polygon]) -> bool {
    matches!(outline, [corners] if corners.len() == 4)
}

/// The edges of what is not solid. Of a letter that is missing, dashed on paper, the box that is kept for it: its own outline
/// would be a grating.
fn edges(shape: &Shape) -> Vec<Polygon> {
    let missing = shape.pen.is_some_and(|pen| pen.dash.is_some()) && !is_box(&shape.outline);
    let kept = Extent::of(&shape.outline).filter(|_| missing);
    kept.map_or_else(
        || shape.outline.clone(),
        |Extent { left, top, right, bottom }| {
            vec![vec![(left, top), (right, top), (right, bottom), (left, bottom)]]
        },
    )
}

fn sides(polygon: &Polygon) -> impl Iterator<Item = ((f64, f64), (f64, f64))> + '_ {
    polygon.iter().copied().zip(polygon.iter().copied().cycle().skip(1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Length, Size};
    use crate::print::Piece;

    const PEN: Pen = Pen { width: 0.25, dash: None, grey: 0.0 };

    fn square() -> Polygon {
        vec![(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)]
    }

    fn drawn(outline: Vec<Polygon>, fill: Option<Colour>, pen: Option<Pen>) -> (usize, usize) {
        let marks = vec![Mark::Shape(Shape { outline, fill, pen })];
        let size = Size { width: Length::from_mm(210), height: Length::from_mm(297) };
        let pieces = vec![Piece { sense: Sense::Drawing(String::new()), marks }];
        let picture = picture(&Sheet { size, told: "a trial".into(), pieces });
        (picture.shapes.len(), picture.lines.len())
    }

    #[test]
    fn letters_are_black_boxes_are_edges_and_tints_are_left_out() {
        let letter = || vec![square(), vec![(3.0, 3.0), (3.0, 6.0), (6.0, 6.0)]];
        let dashed = Pen { dash: Some((1.0, 1.0)), ..PEN };
        let grey = Colour { r: 220, g: 220, b: 220 };
        assert_eq!(drawn(letter(), None, Some(PEN)), (1, 0), "a letter on a template");
        assert_eq!(drawn(letter(), Some(Colour::BLACK), None), (1, 0), "a letter on the map");
        assert_eq!(drawn(letter(), None, Some(dashed)), (0, 4), "a letter that is missing");
        assert_eq!(drawn(vec![square()], None, Some(PEN)), (0, 4), "a tile");
        assert_eq!(drawn(vec![square()], Some(grey), Some(PEN)), (0, 4), "a thing on the map");
        assert_eq!(drawn(letter(), Some(grey), None), (0, 0), "a tint");
    }
}
