//! The template of a strip: sheets to lay under the clear carrier, its letters outlined at true size.
//!
//! Must not know in which form a sheet is written.

mod drawing;
mod head;
mod joins;
mod labels;
mod near;
mod parting;
mod parts;
mod spoken;
mod stroke;
#[cfg(test)]
mod tests;
mod view;

use crate::measure::{Extent, Size, Unit};
use crate::order::{Drawn, Order, StripOrder};

use super::bars;
use super::clear::Clear;
use super::sheet::{Piece, Sheet};

use head::{Hand, Head};
use parting::{Around, Parting};
use view::View;

/// What stays empty at a sheet's edges, in mm.
const MARGIN: f64 = 10.0;
/// A part is never parted smaller than this.
const LEAST: f64 = 8.0;
/// No template has a number of parts that is longer in print.
const LONGEST: usize = 999;
/// Between the words, the drawing and the check bars.
const SPACE: f64 = 2.0;
/// What the marks of a join reach beyond a part's edge above, below, and at the side where it is cut.
const BEYOND: f64 = 4.2;
const BEFORE: f64 = joins::ARM + 0.2;
/// From the line along which a part is cut to words.
const BEHIND: f64 = 3.0;
/// What the drawing keeps around the letters: numbers above and below, the carrier line's ends at the sides.
const AROUND: Around = Around { along: 9.0, down: 6.5 };

/// The template of `strip` of `order` on sheets of `paper` (given upright), lengths told in `unit`. Each sheet is upright or
/// across, whichever needs fewer; none for a strip that is stuck down already.
#[must_use]
pub fn template_sheets(order: &Order, strip: &StripOrder, paper: Size, unit: Unit) -> Vec<Sheet> {
    if strip.stuck.is_some() {
        return Vec::new();
    }
    let across = Size { width: paper.height, height: paper.width };
    let upright = Planned::of(order, strip, paper, unit);
    let across = Planned::of(order, strip, across, unit);
    if across.cost() < upright.cost() { across.sheets(strip) } else { upright.sheets(strip) }
}

/// A template parted for sheets of a size.
struct Planned {
    size: Size,
    head: Head,
    hand: Hand,
    parting: Parting,
    letters: Vec<Extent>,
}

impl Planned {
    fn of(order: &Order, strip: &StripOrder, size: Size, unit: Unit) -> Self {
        let letters: Vec<Extent> = strip.template.letters.iter().filter_map(Drawn::extent).collect();
        let planned = |joined: bool, hand: Hand| {
            let head = Head::of(order, strip, unit, if joined { LONGEST } else { 1 });
            let mut planned = Self {
                size,
                head,
                hand,
                parting: Parting { rows: Vec::new(), cuts: 0 },
                letters: letters.clone(),
            };
            let room = planned.drawing_room(planned.body(joined).1, joined);
            let room = ((room.right - room.left).max(LEAST), (room.bottom - room.top).max(LEAST));
            planned.parting = Parting::of(&planned.letters, AROUND, room);
            // With two parts the words are fewer.
            planned.head = Head::of(order, strip, unit, planned.parting.len());
            planned
        };
        for hand in [Hand::Usual, Hand::Small] {
            let whole = planned(false, hand);
            if whole.parting.len() == 1 {
                return whole;
            }
        }
        let least = |best: Self, other: Self| if other.cost() < best.cost() { other } else { best };
        [Hand::Small, Hand::Before]
            .into_iter()
            .map(|hand| planned(true, hand))
            .fold(planned(true, Hand::Usual), least)
    }

    /// Letters that are cut, then sheets.
    fn cost(&self) -> (usize, usize) {
        (self.parting.cuts, self.parting.len() + usize::from(self.hand == Hand::Before))
    }

    /// The sheet without its margins.
    fn paper(&self) -> Extent {
        let (width, height) = (self.size.width.mm(), self.size.height.mm());
        Extent { left: MARGIN, top: MARGIN, right: width - MARGIN, bottom: height - MARGIN }
    }

    /// Where small words may stand in the drawing on a sheet under words that end at `top`.
    fn room(&self, top: f64) -> Extent {
        let paper = self.paper();
        Extent { top: top + SPACE, bottom: paper.bottom - bars::HEIGHT - SPACE, ..paper }
    }

    /// The room for the drawing itself: smaller where marks of joins may lie beside it. To the right a part reaches far enough
    /// beyond its join itself.
    fn drawing_room(&self, top: f64, joined: bool) -> Extent {
        let room = self.room(top);
        if !joined {
            return room;
        }
        Extent { left: room.left + BEFORE, top: room.top + BEYOND, bottom: room.bottom - BEYOND, ..room }
    }

    /// Where words begin: behind the line along which a part is cut.
    const fn words_from(joined: bool) -> f64 {
        if joined { MARGIN + BEFORE + BEHIND } else { MARGIN }
    }

    /// How wide words may be.
    fn width(&self, joined: bool) -> f64 {
        self.paper().right - Self::words_from(joined)
    }

    /// The check bars, behind that line too where the sheet is wide enough.
    fn bars(&self, joined: bool) -> Vec<Piece> {
        let paper = self.paper();
        let left = Self::words_from(joined).min(paper.right - bars::WIDTH);
        bars::check_bars((left, paper.bottom - bars::HEIGHT))
    }

    /// The words under the heading, which is set as high as the longest there can be; and where they end.
    fn body(&self, joined: bool) -> (Vec<Piece>, f64) {
        let parts = if joined { LONGEST } else { 1 };
        let (left, width) = (Self::words_from(joined), self.width(joined));
        let (_, heading) = self.head.heading(parts, parts, self.hand, (left, MARGIN), width);
        let (pieces, high) = self.head.body(self.hand, (left, MARGIN + heading), width);
        (pieces, MARGIN + heading + high)
    }

    fn sheets(&self, strip: &StripOrder) -> Vec<Sheet> {
        let parts = view::numbered(&self.parting);
        let joins = joins::joins(&self.parting);
        let joined = parts.len() > 1;
        let (body, end) = self.body(joined);
        let room = self.drawing_room(end, joined);
        let letters = self.letters.iter().copied().reduce(Extent::and);
        let letters = letters.unwrap_or(Extent { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
        let sheet = |part: &view::Part| {
            let (number, of) = (part.number, parts.len());
            let at = (Self::words_from(joined), MARGIN);
            let (heading, _) = self.head.heading(number, of, self.hand, at, self.width(joined));
            let mut pieces = vec![heading];
            pieces.extend(body.iter().cloned());
            let view = View::of(part, letters, room);
            let (mut clear, paper) = (Clear::new(self.room(end)), self.paper());
            let marks = |clear: &mut Clear| {
                joins.iter().flat_map(|join| joins::marks(join, part, &view, paper, clear)).collect()
            };
            let told: Vec<String> = joins.iter().filter_map(|join| joins::told(join, part)).collect();
            pieces.push(drawing::drawing(strip, &view, &mut clear, &told, marks));
            pieces.extend(joins.iter().filter_map(|join| joins::cut(join, part, &view, paper)));
            pieces.extend(self.bars(joined));
            Sheet { size: self.size, told: self.head.told(number, of), pieces }
        };
        let before = (self.hand == Hand::Before).then(|| self.words());
        before.into_iter().chain(parts.iter().map(sheet)).collect()
    }

    /// A sheet with the words that the parts have no room for.
    fn words(&self) -> Sheet {
        let width = self.width(false);
        let (heading, high) = self.head.heading_of_words((MARGIN, MARGIN), width);
        let (body, _) = self.head.body(Hand::Small, (MARGIN, MARGIN + high), width);
        let mut pieces = vec![heading];
        pieces.extend(body);
        pieces.extend(self.bars(false));
        Sheet { size: self.size, told: format!("{}, how it is used", self.head.told(1, 1)), pieces }
    }
}
