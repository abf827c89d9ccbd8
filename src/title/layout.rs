//! Where each letter of a strip lies, in lengths, from the feet of the first.
//!
//! Must not know the page.

use std::ops::Range;

use crate::letter::Turn;
use crate::measure::{Angle, Length, Polygon};
use crate::stash::Stash;

use super::shape::Shape;
use super::{Joint, LineUp, Place, Setting, Spacing, Strip};

/// Scan lines at which two shapes are compared for optical spacing.
const SCANS: i64 = 32;

/// The height of a capital that an empty slot is drawn for where nothing else tells: a common size of title letters.
const USUAL_HEIGHT: Length = Length::from_mm(24);

/// Where the letters of a strip lie. `x` runs along the strip from the left edge of the first slot, before it is
/// nudged; `y` runs up from the feet of the first line.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// One box a slot.
    pub letters: Vec<LetterBox>,
    /// One box a line.
    pub lines: Vec<LineBox>,
}

/// The box of one letter, before its tilt about the box's centre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LetterBox {
    /// Left edge.
    pub left: Length,
    /// Width.
    pub width: Length,
    /// Lower edge; below the feet for a descender.
    pub bottom: Length,
    /// Where its feet stand, raised or not.
    pub feet: Length,
    /// Height of the box.
    pub height: Length,
    /// Its tilt.
    pub tilt: Angle,
    /// How it is turned to stand in for another.
    pub turn: Turn,
    /// Whether the width is the reference face's estimate.
    pub estimated: bool,
    /// Whether anything stands there.
    pub filled: bool,
}

impl LetterBox {
    /// Right edge.
    #[must_use]
    pub fn right(&self) -> Length {
        self.left + self.width
    }

    /// Upper edge.
    #[must_use]
    pub fn top(&self) -> Length {
        self.bottom + self.height
    }
}

/// One line of a strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineBox {
    /// Its slots.
    pub slots: Range<usize>,
    /// Where its feet stand.
    pub feet: Length,
    /// From its leftmost to its rightmost letter.
    pub length: Length,
}

impl Layout {
    /// Lays out `strip`. A slot with nothing in it keeps the room of its character at the height of the letters around
    /// (their median; 24 mm where there are none).
    #[must_use]
    pub fn of(strip: &Strip, stash: &Stash) -> Self {
        let found: Vec<Option<Shape>> = (0..strip.len()).map(|slot| Shape::of(strip, slot, stash)).collect();
        let capital = capital_around(strip, &found);
        let shape = |(slot, found): (usize, &Option<Shape>)| {
            let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
            found.clone().unwrap_or_else(|| Shape::missing(&wanted, capital))
        };
        let shapes: Vec<Shape> = found.iter().enumerate().map(shape).collect();
        let mut layout = Self { letters: Vec::with_capacity(shapes.len()), lines: Vec::new() };
        let mut feet = Length::ZERO;
        for slots in strip.wording().lines() {
            let tallest = tallest(&shapes[slots.clone()]);
            if slots.start > 0 {
                feet = -(strip.setting.line_gap + tallest);
            }
            layout.set_line(strip, &shapes, slots, feet, tallest);
        }
        for (letter, found) in layout.letters.iter_mut().zip(&found) {
            letter.filled = found.is_some();
        }
        layout
    }

    fn set_line(
        &mut self,
        strip: &Strip,
        shapes: &[Shape],
        slots: Range<usize>,
        feet: Length,
        tallest: Length,
    ) {
        let mut left = Length::ZERO;
        for slot in slots.clone() {
            let shape = &shapes[slot];
            if slot > slots.start {
                left += step(strip, shapes, slot);
            }
            let lift = match strip.setting.line_up {
                LineUp::Feet => Length::ZERO,
                LineUp::Middle => (tallest - shape.body) / 2,
            };
            let (nudge, raise, tilt) = strip
                .letter(slot)
                .map_or_else(Default::default, |stood| (stood.nudge, stood.raise, stood.tilt));
            self.letters.push(LetterBox {
                left: left + nudge,
                width: shape.width,
                bottom: feet + lift + raise + shape.bottom,
                feet: feet + lift + raise,
                height: shape.top - shape.bottom,
                tilt,
                turn: shape.turn,
                estimated: shape.estimated,
                filled: false,
            });
        }
        let set = &self.letters[slots.clone()];
        let leftmost = set.iter().map(|letter| letter.left).min().unwrap_or_default();
        let rightmost = set.iter().map(LetterBox::right).max().unwrap_or_default();
        self.lines.push(LineBox { slots, feet, length: rightmost - leftmost });
    }

    /// The longest line, as laid out.
    #[must_use]
    pub fn length(&self) -> Length {
        self.lines.iter().map(|line| line.length).max().unwrap_or_default()
    }

    /// The line that `slot` stands on.
    #[must_use]
    pub fn line_of(&self, slot: usize) -> Option<&LineBox> {
        self.lines.iter().find(|line| line.slots.contains(&slot))
    }

    /// Leftmost, lowest, rightmost and highest point of all boxes; all 0 without letters.
    #[must_use]
    pub fn bounds(&self) -> (Length, Length, Length, Length) {
        let over = |edge: fn(&LetterBox) -> Length| self.letters.iter().map(edge);
        (
            over(|letter| letter.left).min().unwrap_or_default(),
            over(|letter| letter.bottom).min().unwrap_or_default(),
            over(LetterBox::right).max().unwrap_or_default(),
            over(LetterBox::top).max().unwrap_or_default(),
        )
    }

    /// The box around all letters where the strip lies, in mm, from the lower left corner clockwise; `None` where it is not
    /// placed.
    #[must_use]
    pub fn box_on_page(&self, place: &Place) -> Option<Polygon> {
        let (left, bottom, right, top) = self.bounds();
        let [left, bottom, right, top] = [left, bottom, right, top].map(Length::mm);
        let corners = [(left, bottom), (left, top), (right, top), (right, bottom)];
        corners.into_iter().map(|corner| place.on_page(corner)).collect()
    }
}

/// From the left edge of the letter before `slot` to the left edge of its own.
fn step(strip: &Strip, shapes: &[Shape], slot: usize) -> Length {
    let Setting { gap, word_gap, spacing, .. } = strip.setting;
    let (before, here) = (&shapes[slot - 1], &shapes[slot]);
    match (strip.wording().joint(slot - 1), spacing) {
        (Some(Joint::Word), Spacing::Optical) => optical_step(before, here, gap),
        (Some(Joint::Word), Spacing::Even) => before.width + gap,
        _ => before.width + word_gap,
    }
}

/// The offset at which the mean, over scan lines that both shapes have, of the lesser of the clearance and three gaps
/// equals `gap`. Shapes that would so run into each other (L before T) are kept half a gap apart at every line.
/// Without a shared line: box to box.
fn optical_step(before: &Shape, here: &Shape, gap: Length) -> Length {
    let (low, high) = (before.bottom.max(here.bottom), before.top.min(here.top));
    let line = |scan: i64| low + (high - low) * (2 * scan + 1) / (2 * SCANS);
    // How far the left edge of `here` is from the right edge of `before` at each line, were both at the same place.
    let shared: Vec<Length> =
        (0..SCANS).map(line).filter_map(|y| Some(here.edges_at(y)?.0 - before.edges_at(y)?.1)).collect();
    let (Some(closest), Some(widest)) = (shared.iter().min(), shared.iter().max()) else {
        return before.width + gap;
    };
    let count = i64::try_from(shared.len()).unwrap_or(1);
    let mean =
        |offset: Length| shared.iter().map(|&apart| (apart + offset).min(gap * 3)).sum::<Length>() / count;
    // The mean rises with the offset: at the first end no line is further than `gap`, at the last none is nearer.
    let (mut near, mut far) = (gap - *widest, gap - *closest);
    while far - near > Length::from_nm(1) {
        let middle = near + (far - near) / 2;
        if mean(middle) < gap { near = middle } else { far = middle }
    }
    far.max(gap / 2 - *closest)
}

fn tallest(shapes: &[Shape]) -> Length {
    shapes.iter().map(|shape| shape.body).max().unwrap_or_default()
}

/// The capital height that empty slots are drawn for: the median of what stands, else the middle of the heights that
/// suit, else [`USUAL_HEIGHT`].
fn capital_around(strip: &Strip, found: &[Option<Shape>]) -> Length {
    let mut heights: Vec<Length> = found.iter().flatten().map(|shape| shape.body).collect();
    heights.sort_unstable();
    let suits = || strip.rules.tall.map(|(least, most)| (least + most) / 2);
    heights.get(heights.len() / 2).copied().or_else(suits).unwrap_or(USUAL_HEIGHT)
}
