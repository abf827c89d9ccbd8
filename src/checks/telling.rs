//! The words that findings share: how a slot, a height, a colour is named.
//!
//! Must not know what is wrong with it.

use crate::measure::{Length, Unit};
use crate::page::{Side, Touch, Touched};
use crate::plan::Plan;

use super::view::StripView;

impl StripView<'_> {
    /// A slot by its character, and by its number where the character stands more than once.
    #[must_use]
    pub fn name(&self, slot: usize) -> String {
        let character = &self.wanted[slot];
        let spoken = character.spoken();
        let alone = self.wanted.iter().filter(|other| *other == character).count() == 1;
        if alone { spoken } else { format!("{spoken} ({})", slot + 1) }
    }

    /// Two heights, always told the same way: `19 mm beside 25 mm: 1.32 to 1`.
    #[must_use]
    pub fn beside(&self, own: Length, line: Length) -> String {
        format!("{} beside {}: {} to 1", self.told(own), self.told(line), own.ratio(line))
    }

    /// A length in the user's unit, whole millimetres without a decimal.
    #[must_use]
    pub fn told(&self, length: Length) -> String {
        tell_length(length, self.scene.unit)
    }

    /// What the colour of the letter in `slot` is called.
    pub(super) fn colour_name(&self, slot: usize) -> String {
        let chip = self.fills[slot].look().map(|look| self.stash.chip(look.chip));
        chip.and_then(|chip| chip.colours().first()).map_or_else(String::new, |tint| tint.name().into_owned())
    }

    /// What the main colour is called.
    pub(super) fn main_name(&self) -> String {
        let palette = &self.scene.palette;
        palette.main().map_or_else(String::new, |family| palette.name(family))
    }

    /// A run of slots: `letters 5 to 8`.
    pub(super) fn span(&self, slots: &[usize]) -> String {
        match slots {
            [] => "no letter".into(),
            [only] => self.name(*only),
            [first, .., last] => format!("letters {} to {}", first + 1, last + 1),
        }
    }

    /// Pairs of neighbours, slot by slot: `A N, R N`.
    pub(super) fn pairs(&self, slots: &[usize]) -> String {
        let pair = |pair: &[usize]| pair.iter().map(|&slot| self.name(slot)).collect::<Vec<_>>().join(" ");
        slots.chunks(2).map(pair).collect::<Vec<_>>().join(", ")
    }
}

/// What a strip touches, and where: `harbour mat (top)`, `wave paper (on it)`.
#[must_use]
pub fn tell_touch(plan: &Plan, touch: &Touch) -> String {
    let side = touch.side.map(|side| match side {
        Side::Top => "top",
        Side::Bottom => "bottom",
        Side::Left => "left",
        Side::Right => "right",
    });
    let how = match (side, touch.over) {
        (Some(side), false) => format!(" ({side})"),
        (Some(side), true) => format!(" ({side}, and on it)"),
        (None, true) => " (on it)".to_owned(),
        (None, false) => String::new(),
    };
    format!("{}{how}", tell_touched(plan, touch.what))
}

/// What something on the page is called.
#[must_use]
pub fn tell_touched(plan: &Plan, what: Touched) -> String {
    match what {
        Touched::Element(place) => plan.page.elements[place].called().to_owned(),
        Touched::Strip(place) => format!("the {}", plan.strips()[place].role()),
    }
}

/// A length as findings tell it: one decimal of a millimetre, none where it is whole; inches to the sixteenth.
#[must_use]
pub fn tell_length(length: Length, unit: Unit) -> String {
    length.show(unit).replace(".0 mm", " mm")
}
