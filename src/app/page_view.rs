//! What is chosen on the page, how near it is looked at, and what the mouse holds.
//!
//! Must not know how the page is drawn.

use crate::page::Element;
use crate::title::Place;

use super::page_map::PageMap;

/// What is chosen on the page, and how near it is looked at.
#[derive(Debug, Clone, Default)]
pub struct PageView {
    /// The place of the chosen element; `None`: the strip in hand is chosen.
    pub element: Option<usize>,
    /// Whether it is looked at from near.
    pub near: bool,
    /// What the mouse holds.
    pub(super) held: Option<Held>,
}

/// Something on the page, by its place in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thing {
    /// A strip.
    Strip(usize),
    /// An element.
    Element(usize),
}

/// What the mouse holds since it was pressed. The map stays as it was then, so that the page keeps still under a thing
/// that is dragged.
#[derive(Debug, Clone)]
pub(super) struct Held {
    pub(super) map: PageMap,
    /// Where it was taken, in mm.
    pub(super) from: (f64, f64),
    /// How it lay then.
    pub(super) lay: Lay,
}

/// How a thing lay when it was taken.
#[derive(Debug, Clone)]
pub(super) enum Lay {
    Strip(Place),
    Element(Element),
}
