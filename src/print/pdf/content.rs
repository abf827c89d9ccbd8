//! What is drawn on a page: marks in the order in which they are read, each piece marked as what it is.
//!
//! Must not know the tree of what is read, nor how fonts are embedded.

use pdf_writer::types::LineJoinStyle;
use pdf_writer::{Buf, Content, Name, Str};

use crate::measure::{Colour, Polygon};
use crate::print::{Mark, Pen, Piece, Sense, Shape, Sheet, Words};

use super::lettering::{self, Lettering};
use super::points::{millimetres, points, side};
use super::tags::Tags;

/// No string of a page is longer, in bytes (ISO 32000-1, annex C: 32,767).
const LONGEST: usize = 32_000;

/// A gap on one line is a space from this part of the size of the face on.
const SPACE: f64 = 0.15;

/// The content of a page. Its unit is the millimetre, y down, as on the sheet.
pub(super) fn content(sheet: &Sheet, tags: &Tags, lettering: &Lettering) -> Buf {
    let mut brush = Brush { content: Content::new(), lettering, pen: None, fill: Colour::BLACK };
    let scale = points(1.0);
    brush.content.transform([scale, 0.0, 0.0, -scale, 0.0, points(side(sheet.size.height))]);
    brush.content.set_line_join(LineJoinStyle::RoundJoin);
    for (piece, tag) in sheet.pieces.iter().zip(&tags.pieces) {
        match tag {
            Some((role, number)) => {
                let mut marked = brush.content.begin_marked_content_with_properties(role.to_name());
                marked.properties().identify(*number);
            }
            None => {
                brush.content.begin_marked_content(Name(b"Artifact"));
            }
        }
        brush.piece(piece);
        brush.content.end_marked_content();
    }
    brush.content.finish()
}

/// Draws, and knows what was last drawn with.
struct Brush<'a> {
    content: Content,
    lettering: &'a Lettering,
    pen: Option<Pen>,
    fill: Colour,
}

impl Brush<'_> {
    fn piece(&mut self, piece: &Piece) {
        for (place, mark) in piece.marks.iter().enumerate() {
            match mark {
                Mark::Words(words) => {
                    // A swatch may stand between, and an item may go on on the next sheet.
                    let next = piece.marks[place + 1..].iter().find_map(|mark| match mark {
                        Mark::Words(next) => Some(next),
                        _ => None,
                    });
                    let parted = next.map_or(piece.sense == Sense::Item, |next| are_parted(words, next));
                    self.words(words, parted);
                }
                Mark::Shape(shape) => self.shape(shape),
                Mark::Line { from, to, pen } => {
                    self.pen(*pen);
                    self.content.move_to(millimetres(from.0), millimetres(from.1));
                    self.content.line_to(millimetres(to.0), millimetres(to.1)).stroke();
                }
            }
        }
    }

    /// Words stand upright though y runs down.
    fn words(&mut self, words: &Words, parted: bool) {
        let mut codes = self.lettering.codes(words.face, &words.as_seen());
        let size = millimetres(words.size);
        if codes.is_empty() || size <= 0.0 {
            return;
        }
        if parted {
            codes.extend(self.lettering.codes(words.face, " "));
        }
        self.fill(Colour::BLACK);
        self.content.begin_text().set_font(lettering::name(words.face), size);
        let (x, y) = (millimetres(words.at.0), millimetres(words.at.1));
        self.content.set_text_matrix([1.0, 0.0, 0.0, -1.0, x, y]);
        for part in codes.chunks(LONGEST) {
            self.content.show(Str(part));
        }
        self.content.end_text();
    }

    fn shape(&mut self, shape: &Shape) {
        let outlines: Vec<&Polygon> = shape.outline.iter().filter(|corners| corners.len() > 1).collect();
        if outlines.is_empty() || (shape.fill.is_none() && shape.pen.is_none()) {
            return;
        }
        if let Some(colour) = shape.fill {
            self.fill(colour);
        }
        if let Some(pen) = shape.pen {
            self.pen(pen);
        }
        for corners in outlines {
            for (place, &(x, y)) in corners.iter().enumerate() {
                let (x, y) = (millimetres(x), millimetres(y));
                if place == 0 {
                    self.content.move_to(x, y)
                } else {
                    self.content.line_to(x, y)
                };
            }
            self.content.close_path();
        }
        match (shape.fill, shape.pen) {
            (Some(_), Some(_)) => self.content.fill_nonzero_and_stroke(),
            (Some(_), None) => self.content.fill_nonzero(),
            (None, _) => self.content.stroke(),
        };
    }

    fn fill(&mut self, colour: Colour) {
        if self.fill != colour {
            let [r, g, b] = [colour.r, colour.g, colour.b].map(|channel| f32::from(channel) / 255.0);
            self.content.set_fill_rgb(r, g, b);
            self.fill = colour;
        }
    }

    fn pen(&mut self, pen: Pen) {
        if self.pen == Some(pen) {
            return;
        }
        self.content.set_line_width(millimetres(pen.width).max(0.0));
        self.content.set_stroke_gray(millimetres(pen.grey).clamp(0.0, 1.0));
        let dash = pen.dash.map(|(dash, space)| [millimetres(dash), millimetres(space)]);
        self.content.set_dash_pattern(
            dash.filter(|dash| dash.iter().all(|&length| length > 0.0)).into_iter().flatten(),
            0.0,
        );
        self.pen = Some(pen);
    }
}

/// Whether a space is read between words that follow each other: on another line, or at a distance.
fn are_parted(words: &Words, next: &Words) -> bool {
    let gap = next.at.0 - (words.at.0 + words.width());
    let spaced = words.text.ends_with(char::is_whitespace) || next.text.starts_with(char::is_whitespace);
    !spaced && ((words.at.1 - next.at.1).abs() > 0.01 || gap > SPACE * words.size)
}
