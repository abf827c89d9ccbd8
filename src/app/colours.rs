//! How many colours there are to draw with.
//!
//! Must not know how a terminal says so, or what is drawn.

/// How many colours the screen can show, from the fewest to the most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Colours {
    /// No colour at all, by the terminal or by the user's wish: bold, reverse and underline remain.
    None,
    /// The sixteen named colours, whose exact shades are the user's own setting.
    Sixteen,
    /// The 256 of the common palette: a 6 x 6 x 6 cube and 24 greys beside the sixteen.
    Palette,
    /// Any red, green and blue of eight bits each.
    True,
}
