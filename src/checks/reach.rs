//! What a check may look at, and how it says what it wants: its reach.
//!
//! A check is one of four kinds. A letter's check sees one letter in its slot; a pair's check two neighbours; checks of
//! positions and of counts make demands, plain data that one evaluator scores and a search can bound.
//! Must not know any check by name.

use std::ops::Range;

use crate::measure::{Length, Points};
use crate::title::{Joint, Mix};

use super::look::Fill;
use super::palette::{Family, Palette};
use super::taste::Taste;
use super::view::StripView;

/// From this many letters on a line is long enough for its colours to be arranged.
pub const LONG: usize = 5;

/// A check: what it is called, what it may look at, and how it is told.
#[derive(Debug, Clone, Copy)]
pub struct Check {
    /// Its id, as plans accept it and taste names it.
    pub id: &'static str,
    /// Whose rule it is.
    pub origin: Origin,
    /// What it looks at.
    pub reach: Reach,
    /// In which mixes it has a say.
    pub heard: Heard,
    /// Whether it has a say only where the page's colours are known.
    pub needs_page: bool,
    /// The sentence for its finding: figures and what would help.
    pub tell: fn(&StripView<'_>, &[usize]) -> String,
}

/// Whose rule a check is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Common practice in the craft, no published source.
    Practice,
    /// A choice of this program.
    House,
    /// A published source.
    Published(&'static str),
}

/// In which mixes a check has a say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heard {
    /// In all.
    Always,
    /// Not where the strip is plain.
    NotPlain,
    /// Only where it is lively.
    Lively,
}

/// What a check looks at.
#[derive(Debug, Clone, Copy)]
pub enum Reach {
    /// One letter in its slot.
    Letter(fn(&Bearings<'_>, &Fill) -> Points),
    /// Two neighbours of one line, both filled.
    Pair(fn(&Taste, &Fill, &Fill, Between) -> Points),
    /// Where colours stand in the strip.
    Position(fn(&Bearings<'_>) -> Vec<Demand>),
    /// How many letters have which colour.
    Counts(fn(&Bearings<'_>) -> Vec<Demand>),
}

/// What a check knows of the strip besides the letter.
#[derive(Debug, Clone, Copy)]
pub struct Bearings<'a> {
    /// How many slots there are, filled or not.
    pub slots: usize,
    /// How many words there are.
    pub words: usize,
    /// The height that the line is compared by; `None` without letters.
    pub height: Option<Length>,
    /// The form rule's answer to tiles and to die-cuts.
    pub forms: crate::title::FormRule,
    /// How mixed it is meant to look.
    pub mix: Mix,
    /// The page colours.
    pub palette: &'a Palette,
    /// The user's thresholds.
    pub taste: &'a Taste,
}

/// What lies between two neighbours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Between {
    /// One word, or a gap.
    pub joint: Joint,
    /// Whether the whole word is filled from one sheet.
    pub whole: bool,
}

/// Something wanted of the strip's colours, and what it costs not to have it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Demand {
    /// If this slot is filled, then in the main colour.
    Lead {
        /// The slot.
        slot: usize,
        /// Otherwise.
        points: Points,
    },
    /// The main colour (first colours count) somewhere in these slots.
    MainIn {
        /// The slots.
        slots: Range<usize>,
        /// Otherwise.
        points: Points,
    },
    /// A family somewhere in these slots.
    FamilyIn {
        /// The slots.
        slots: Range<usize>,
        /// The family.
        family: Family,
        /// Otherwise.
        points: Points,
    },
    /// A family on at least this many letters.
    AtLeast {
        /// The family.
        family: Family,
        /// How many.
        letters: usize,
        /// Otherwise.
        points: Points,
    },
    /// No family on more than this many letters.
    AtMost {
        /// How many.
        letters: usize,
        /// Otherwise.
        points: Points,
    },
    /// At least this many families.
    Families {
        /// How many.
        families: usize,
        /// Whether families that are not on the page count.
        strays: bool,
        /// Whether a word counts as one, by the family that all of it has.
        by_word: bool,
        /// For each that lacks.
        points: Points,
    },
}

impl Heard {
    /// Whether the check has a say in this mix.
    #[must_use]
    pub const fn in_mix(self, mix: Mix) -> bool {
        match (self, mix) {
            (Self::Always, _) | (Self::NotPlain, Mix::Lively | Mix::Words) | (Self::Lively, Mix::Lively) => {
                true
            }
            (Self::NotPlain, Mix::Plain) | (Self::Lively, Mix::Words | Mix::Plain) => false,
        }
    }
}
