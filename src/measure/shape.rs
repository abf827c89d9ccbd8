//! Points and boxes on a page: x runs right, y runs down, from the left and top edge.
//!
//! Must not know what lies there.

use super::Length;

/// A place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Point {
    /// From the left edge.
    pub x: Length,
    /// From the top edge.
    pub y: Length,
}

/// A width and a height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Size {
    /// Across.
    pub width: Length,
    /// Down.
    pub height: Length,
}
