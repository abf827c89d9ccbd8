//! Letters as such: characters, the proportions of the reference face, what serves for what, and how often each is needed.
//!
//! Must not know sheets or strips.

mod character;
mod class;
mod face;
mod frequency;
mod outline;
mod stand_in;

pub use character::{Character, CharacterError, characters, normalise};
pub use class::Class;
pub use face::{Face, Proportion};
pub use frequency::{share, weight};
pub use outline::{Outline, SCAN_LINES, Silhouette, Stroke};
pub use stand_in::{Evidence, Row, STAND_INS, StandIn, StandInKind, Turn, find_stand_in, stand_ins};
