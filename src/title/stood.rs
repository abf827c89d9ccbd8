//! What stands in a slot.
//!
//! Must not know the slot.

use crate::letter::StandInKind;
use crate::measure::{Angle, Length, Tint};
use crate::stash::ChipId;

/// A thing that stands in a slot, and how.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stood {
    /// The thing.
    pub sticker: Sticker,
    /// Moved along the strip, right positive.
    pub nudge: Length,
    /// Moved off its line, up positive.
    pub raise: Length,
    /// Turned a little, clockwise positive.
    pub tilt: Angle,
    /// Suggestions leave it alone.
    pub pinned: bool,
    /// On a strip that is stuck down: it is not stuck down yet.
    pub loose: bool,
}

/// A letter of the stash, or something else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sticker {
    /// A letter of the stash.
    Chip {
        /// Which.
        id: ChipId,
        /// How it stands in for another character; `None`: as itself.
        stands_in: Option<StandInKind>,
    },
    /// No sticker: a button for an O.
    Hand(ByHand),
}

/// A thing that is no sticker and fills a slot all the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ByHand {
    /// What it is.
    pub label: String,
    /// Its width.
    pub width: Length,
    /// Its height; absent: as high as wide.
    pub height: Option<Length>,
    /// Its colour, if it has one.
    pub colour: Option<Tint>,
}

impl Stood {
    /// Stands `sticker` straight, on its line, unpinned.
    #[must_use]
    pub const fn straight(sticker: Sticker) -> Self {
        Self {
            sticker,
            nudge: Length::ZERO,
            raise: Length::ZERO,
            tilt: Angle::ZERO,
            pinned: false,
            loose: false,
        }
    }

    /// The same manner of standing, with another sticker: a swap keeps what was nudged, raised and tilted.
    #[must_use]
    pub fn with(&self, sticker: Sticker) -> Self {
        Self { sticker, ..self.clone() }
    }

    /// The chip, unless it is a thing by hand.
    #[must_use]
    pub const fn chip(&self) -> Option<&ChipId> {
        match &self.sticker {
            Sticker::Chip { id, .. } => Some(id),
            Sticker::Hand(_) => None,
        }
    }
}
