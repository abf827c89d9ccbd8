//! What can be measured: lengths, angles, places, colours, and the figures of the score.
//!
//! Must not know anything else of the program.

mod angle;
mod arithmetic;
mod colour;
mod length;
mod names;
mod points;
mod polygon;
mod shape;
mod spelling;
mod tint;
mod unit;

pub use angle::Angle;
pub use colour::{Colour, Lab, css_names};
pub use length::{Length, LengthError};
pub use names::ColourNames;
pub use points::{Hundredths, Points};
pub use polygon::{Extent, Lines, Polygon};
pub use shape::{Point, Size};
pub use tint::Tint;
pub use unit::Unit;
