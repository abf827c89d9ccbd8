//! The size and silhouette of what stands in a slot, seen from its own feet.
//!
//! Must not know its neighbours.

use crate::letter::{Character, Face, Silhouette, StandInKind, Turn, find_stand_in};
use crate::measure::Length;
use crate::stash::{Chip, Form, Stash};

use super::{ByHand, Sticker, Strip};

/// The size of one letter as it stands: lengths from its left edge and from the line its feet stand on.
#[derive(Debug, Clone)]
pub(super) struct Shape {
    pub(super) width: Length,
    /// Lowest point; below 0 for a descender.
    pub(super) bottom: Length,
    /// Highest point.
    pub(super) top: Length,
    /// Top of the body: of a tile the tile, of a die-cut what counts as its height.
    pub(super) body: Length,
    /// Whether the width is the reference face's.
    pub(super) estimated: bool,
    /// How it is turned.
    pub(super) turn: Turn,
    /// The silhouette and its scale; `None`: the box.
    outline: Option<(Silhouette, Length)>,
}

/// The width that `chip` takes where it stands for `wanted`: lying on its side, its height.
#[must_use]
pub fn standing_width(chip: Chip<'_>, wanted: &Character, stands_in: Option<StandInKind>) -> Length {
    let row = stands_in.and_then(|kind| find_stand_in(wanted, &chip.letter.character, kind));
    if row.is_some_and(|row| row.turn.is_sideways()) {
        Shape::chip(chip, wanted, stands_in).width
    } else {
        chip.width().0
    }
}

impl Shape {
    /// What stands in `slot` of `strip`, or `None` where nothing does or its chip is gone.
    pub(super) fn of(strip: &Strip, slot: usize, stash: &Stash) -> Option<Self> {
        let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
        match &strip.letter(slot)?.sticker {
            Sticker::Hand(thing) => Some(Self::by_hand(thing)),
            Sticker::Chip { id, stands_in } => {
                Some(Self::chip(stash.chip(stash.find(id)?), &wanted, *stands_in))
            }
        }
    }

    /// An empty slot's room: as wide as `wanted` is at a capital height of `capital`.
    pub(super) fn missing(wanted: &Character, capital: Length) -> Self {
        let face = Face::reference();
        let body = capital.scale(face.body(wanted));
        let width = capital.scale(face.width(wanted).ratio);
        Self {
            width,
            bottom: Length::ZERO,
            top: body,
            body,
            estimated: true,
            turn: Turn::None,
            outline: None,
        }
    }

    fn by_hand(thing: &ByHand) -> Self {
        let top = thing.height.unwrap_or(thing.width);
        Self {
            width: thing.width,
            bottom: Length::ZERO,
            top,
            body: top,
            estimated: false,
            turn: Turn::None,
            outline: None,
        }
    }

    fn chip(chip: Chip<'_>, wanted: &Character, stands_in: Option<StandInKind>) -> Self {
        let turn = stands_in
            .and_then(|kind| find_stand_in(wanted, &chip.letter.character, kind))
            .map_or(Turn::None, |row| row.turn);
        let (width, estimated) = chip.width();
        let body = chip.shown_height();
        let tile = chip.sheet.make.form == Form::Tile;
        let (bottom, top) = if tile { (Length::ZERO, body) } else { ink(chip, wanted, stands_in) };
        let outline = (!tile && !turn.is_sideways())
            .then(|| (Face::reference().silhouette(&chip.letter.character), chip.face_scale()));
        let upright = Self { width, bottom, top, body, estimated, turn, outline };
        if turn.is_sideways() { upright.laid_down() } else { upright }
    }

    /// Turned by a quarter: width and height change places, the lowest point stays.
    fn laid_down(self) -> Self {
        let (width, height) = (self.top - self.bottom, self.width);
        Self { width, top: self.bottom + height, body: self.bottom + height, ..self }
    }

    /// Left and right edge of the ink at height `y` over the feet line; `None` where there is none.
    pub(super) fn edges_at(&self, y: Length) -> Option<(Length, Length)> {
        if y < self.bottom || y > self.top {
            return None;
        }
        let Some((silhouette, scale)) = &self.outline else { return Some((Length::ZERO, self.width)) };
        let up = if self.turn == Turn::Half { self.top + self.bottom - y } else { y };
        let (left, right) = silhouette.at(up.mm() / scale.mm())?;
        let drawn = scale.scale(silhouette.width());
        let stretch = |edge: f64| {
            if drawn == Length::ZERO {
                Length::ZERO
            } else {
                scale.scale(edge * self.width.mm() / drawn.mm())
            }
        };
        let (left, right) = (stretch(left), stretch(right));
        Some(if self.turn == Turn::Half { (self.width - right, self.width - left) } else { (left, right) })
    }
}

/// Lowest and highest point of a die-cut letter's ink. One that stands for another character by turning, or by being
/// raised, takes its feet from the character it stands for; one that is trimmed loses the tail that that one has not.
fn ink(chip: Chip<'_>, wanted: &Character, stands_in: Option<StandInKind>) -> (Length, Length) {
    let face = Face::reference();
    let own = &chip.letter.character;
    let scale = chip.face_scale();
    let (low, high) = (face.ink_bottom(own), face.ink_top(own));
    if stands_in == Some(StandInKind::Trimmed) {
        return (scale.scale(low.max(face.ink_bottom(wanted))), scale.scale(high));
    }
    let feet = if stands_in == Some(StandInKind::Turned) { face.ink_bottom(wanted) } else { low };
    (scale.scale(feet), scale.scale(feet + high - low))
}
