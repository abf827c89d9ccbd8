//! The outline of every letter where it stands on its strip: what is stuck down, and what is printed on it.
//!
//! Must not know the page.

use crate::letter::{Character, Face, StandInKind, Turn};
use crate::measure::{Angle, Polygon};
use crate::stash::{Form, Stash};

use super::{Layout, LetterBox, Sticker, Strip};

/// What a tile's print keeps clear all round, over the tile (common practice, no source).
const CLEAR: f64 = 0.2;

/// The outline of one letter, in mm along the strip and up from the feet of its first letter, turned and tilted as it
/// stands. Polygons are taken together by the non-zero rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// The slot that it stands in.
    pub slot: usize,
    /// Which word it belongs to.
    pub word: usize,
    /// What is stuck down: a tile's box, a die-cut letter's outline.
    pub edge: Vec<Polygon>,
    /// The letter on a tile.
    pub print: Option<Vec<Polygon>>,
    /// The area of its box in square millimetres.
    pub box_area: f64,
}

/// The outlines of all letters on `strip`, laid out so; slots with nothing in them have none.
#[must_use]
pub fn cuts(strip: &Strip, layout: &Layout, stash: &Stash) -> Vec<Cut> {
    let words = strip.wording().words().enumerate();
    let slots = words.flat_map(|(word, slots)| slots.map(move |slot| (word, slot)));
    slots.filter_map(|(word, slot)| cut(strip, slot, word, layout.letters.get(slot)?, stash)).collect()
}

fn cut(strip: &Strip, slot: usize, word: usize, letter: &LetterBox, stash: &Stash) -> Option<Cut> {
    let block = || vec![vec![(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]];
    let (edge, print) = match &strip.letter(slot)?.sticker {
        Sticker::Hand(_) => (block(), None),
        Sticker::Chip { id, stands_in } => {
            let chip = stash.chip(stash.find(id)?);
            let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
            // What is left of a letter after trimming is the one that it stands for.
            let seen =
                if *stands_in == Some(StandInKind::Trimmed) { &wanted } else { &chip.letter.character };
            match chip.sheet.make.form {
                Form::Tile => (block(), Some(print(seen, letter.turn))),
                Form::DieCut => (outline(seen, letter.turn), None),
            }
        }
    };
    let lay = |shape: Vec<Polygon>| shape.iter().map(|polygon| lay(letter, polygon)).collect();
    let box_area = letter.width.mm() * letter.height.mm();
    Some(Cut { slot, word, edge: lay(edge), print: print.map(lay), box_area })
}

/// The outline of what the wording asks of `slot`, on the room that is kept for it: what is missing there. A tail hangs below
/// that room and a comma fills little of it, as on any sheet of letters. Nothing where there is no such slot.
#[must_use]
pub fn wished(strip: &Strip, layout: &Layout, slot: usize) -> Vec<Polygon> {
    let (Some(asked), Some(letter)) = (strip.wording().slots().get(slot), layout.letters.get(slot)) else {
        return Vec::new();
    };
    let (wanted, face) = (strip.rules.wanted(&asked.character), Face::reference());
    let (bottom, top) = (face.ink_bottom(&wanted), face.ink_top(&wanted));
    // The room is as high as the character's body.
    let body = face.body(&wanted);
    let in_room = |&(x, y): &(f64, f64)| (x, (bottom + y * (top - bottom)) / body);
    let in_room = |polygon: Polygon| polygon.iter().map(in_room).collect::<Polygon>();
    outline(&wanted, Turn::None).into_iter().map(|polygon| lay(letter, &in_room(polygon))).collect()
}

/// A character's outline from the reference face, stretched to a box from 0 to 1 in both directions, y up. One that the
/// face cannot draw is a block.
fn outline(character: &Character, turn: Turn) -> Vec<Polygon> {
    let Some(outline) = Face::reference().outline(character) else {
        return vec![vec![(0.1, 0.0), (0.9, 0.0), (0.9, 1.0), (0.1, 1.0)]];
    };
    let (width, bottom, height) = (outline.width(), outline.bottom(), outline.top() - outline.bottom());
    let within = |(x, y): (f64, f64)| {
        let (x, y) = (x / width, (y - bottom) / height);
        match turn {
            Turn::None => (x, y),
            Turn::Half => (1.0 - x, 1.0 - y),
            Turn::Quarter => (y, 1.0 - x),
        }
    };
    outline.contours().into_iter().map(|contour| contour.into_iter().map(within).collect()).collect()
}

/// What is printed on a tile.
fn print(character: &Character, turn: Turn) -> Vec<Polygon> {
    let within = |(x, y): (f64, f64)| (CLEAR + x * (1.0 - 2.0 * CLEAR), CLEAR + y * (1.0 - 2.0 * CLEAR));
    outline(character, turn).into_iter().map(|polygon| polygon.into_iter().map(within).collect()).collect()
}

/// A shape of a letter's box on the strip: scaled, and tilted about the box's centre.
fn lay(letter: &LetterBox, shape: &Polygon) -> Polygon {
    let (sin, cos) = letter.tilt.sin_cos();
    let (width, height) = (letter.width.mm(), letter.height.mm());
    if letter.tilt == Angle::ZERO {
        let (left, bottom) = (letter.left.mm(), letter.bottom.mm());
        return shape.iter().map(|&(x, y)| (left + x * width, bottom + y * height)).collect();
    }
    let centre = (letter.left.mm() + width / 2.0, letter.bottom.mm() + height / 2.0);
    let place = |&(x, y): &(f64, f64)| {
        let (dx, dy) = ((x - 0.5) * width, (y - 0.5) * height);
        // Clockwise is the positive sense as seen; here y runs up.
        (centre.0 + dx * cos + dy * sin, centre.1 + dy * cos - dx * sin)
    };
    shape.iter().map(place).collect()
}
