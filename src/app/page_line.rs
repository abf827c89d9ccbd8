//! The lines that are typed on the page's view: what each is for, and what is asked.
//!
//! Must not know what becomes of them.

use crate::page::PAGE_SIZES;

/// What a line typed on the page's view is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PageLine {
    /// A thing to be added.
    Add,
    /// The chosen thing, but for its place.
    Change,
    /// What it is called.
    Name,
    /// Its size.
    Size,
    /// Its colours.
    Colours,
    /// The mat to be put under it.
    Mat,
    /// Where it lies.
    At,
    /// The page's size.
    PageSize,
    /// The colour of the paper under everything.
    Ground,
    /// What is kept clear along the page's edges.
    Margin,
}

/// How many page sizes can be chosen by their numbers.
pub(super) const NUMBERED: usize = 6;

impl PageLine {
    /// What to type, in a few words.
    #[must_use]
    pub const fn prompt(self) -> &'static str {
        match self {
            Self::Add => "Add: what, size, colours (such as: photo 6 x 4 in teal tan on kraft)",
            Self::Change => "What it is, its size, its colours, called NAME",
            Self::Name => "What it is called (nothing: what it is)",
            Self::Size => "Width x height (such as: 6 x 4 in)",
            Self::Colours => "Colours, the main one first (such as: teal, tan)",
            Self::Mat => "Colours of the mat, and how much larger (such as: kraft 4 mm)",
            Self::At => "From the left and the top edge, and the turn (such as: 40, 110 mm; 40, 110, 2)",
            Self::PageSize => "Page: a number, or width x height (such as: 30 x 20 cm)",
            Self::Ground => "Colour of the paper under everything (nothing: not known)",
            Self::Margin => "Kept clear along the page's edges (such as: 6 mm)",
        }
    }

    /// What stands below the line while nothing is wrong with it.
    #[must_use]
    pub fn hint(self) -> String {
        match self {
            Self::PageSize => {
                let sizes = PAGE_SIZES.iter().take(NUMBERED).zip(1..);
                let named = sizes.map(|((name, _), number)| format!("{number} {}", name.replace(" x ", "x")));
                named.collect::<Vec<_>>().join("  ")
            }
            Self::Add => "p photo  m mat  pa paper  b border  e embellishment  j journaling  l label".into(),
            _ => "enter: done   esc: leave it".into(),
        }
    }
}
