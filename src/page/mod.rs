//! The album page: its paper, the things on it, and which colours show.
//!
//! Must not know titles' letters beyond their outlines.

mod carried;
mod cells;
mod disc;
mod element;
mod footprint;
mod meeting;
mod paper;
mod prices;
mod resting;
mod shares;
mod site;
mod size;
mod surface;
mod terrain;
mod trapped;

pub use carried::{Carried, LetterShape};
pub use cells::Cells;
pub use element::{Cover, Element, Kind, Lie, Outline};
pub use footprint::{Footprint, Side};
pub use meeting::Meeting;
pub use paper::{Paper, PaperError, SHORTEST_SIDE};
pub use prices::{Amiss, Counts, Prices};
pub use resting::{Rest, Resting, Sought, radius};
pub use shares::{ColourShare, visible_shares};
pub use site::{Site, Touch, Touched};
pub use size::{PAGE_SIZES, PageSizeError, page_size, two_sides};
pub use surface::Page;
pub use terrain::Terrain;
