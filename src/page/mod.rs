//! The album page: its paper, the things on it, and which colours show.
//!
//! Must not know titles' letters beyond their outlines.

mod element;
mod shares;
mod size;
mod surface;

pub use element::{Cover, Element, Footprint, Kind, Lie, Outline};
pub use shares::{ColourShare, visible_shares};
pub use size::{PAGE_SIZES, PageSizeError, page_size};
pub use surface::Page;
