//! The page itself: its size, its ground, and the things on it from the lowest to the topmost.
//!
//! Must not know strips.

use crate::measure::{Length, Size, Tint};

use super::{Element, Footprint};

/// An album page. All of it may be absent: a title needs no page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// Width and height after trimming.
    pub size: Option<Size>,
    /// The paper under everything.
    pub ground: Option<Tint>,
    /// Kept clear along the edges.
    pub margin: Length,
    /// Main colour, second colour and accents as the eye sees them; empty: what the things on the page suggest.
    pub colours: Vec<Tint>,
    /// The things on it, lowest first.
    pub elements: Vec<Element>,
}

impl Default for Page {
    /// No size, no ground, nothing on it; a margin of 6 mm, a house choice near a quarter inch.
    fn default() -> Self {
        Self {
            size: None,
            ground: None,
            margin: Length::from_mm(6),
            colours: Vec::new(),
            elements: Vec::new(),
        }
    }
}

impl Page {
    /// The longest line that stays within the margins; `None` without a page or where the margins leave nothing.
    #[must_use]
    pub fn room(&self) -> Option<Length> {
        let room = self.size?.width - self.margin * 2;
        (room > Length::ZERO).then_some(room)
    }

    /// The page's shorter side.
    #[must_use]
    pub fn shorter_side(&self) -> Option<Length> {
        self.size.map(|size| size.width.min(size.height))
    }

    /// The topmost thing at a point in mm from the left and top edge.
    #[must_use]
    pub fn topmost_at(&self, x: f64, y: f64) -> Option<&Element> {
        self.elements.iter().rev().find(|element| element.lie.footprint().covers(x, y))
    }

    /// The footprints of the things on it, lowest first.
    #[must_use]
    pub fn footprints(&self) -> Vec<Footprint> {
        self.elements.iter().map(|element| element.lie.footprint()).collect()
    }
}
