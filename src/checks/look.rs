//! What the checks see of a letter: a few plain figures, whatever sticker they come from.
//!
//! Must not know the checks.

use crate::letter::{Character, Face, StandInKind, find_stand_in};
use crate::measure::{Hundredths, Length, Points, Tint};
use crate::stash::{Chip, ChipIx, Form, Stash};

use super::palette::{Family, Palette, at_least, family_at};
use super::taste::{Knob, Taste};

/// What stands in a slot, as the checks see it.
#[derive(Debug, Clone, PartialEq)]
pub enum Fill {
    /// Nothing.
    Empty,
    /// No sticker; it has the family of its colour, if it has one.
    Hand {
        /// The family of its colour.
        family: Option<Family>,
        /// Whether it is in the main colour.
        main: bool,
    },
    /// A letter of the stash.
    Letter(Look),
}

/// A letter of the stash in its slot, as the checks see it.
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// The chip.
    pub chip: ChipIx,
    /// The place of its sheet in the stash.
    pub sheet: usize,
    /// How it stands in for the wanted character; `None`: as itself.
    pub stands_in: Option<StandInKind>,
    /// The height that counts; `None`: too small a mark to be compared.
    pub height: Option<Length>,
    /// Its form.
    pub form: Form,
    /// Whether it is joined script.
    pub joined: bool,
    /// Its colours.
    pub tone: Tone,
    /// What does not depend on its neighbours or on the line's height.
    pub fixed: Fixed,
}

/// The colours of a letter, measured against the page's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tone {
    /// What its colours belong to.
    pub family: Family,
    /// Whether its first colour is the main colour.
    pub main: bool,
    /// Goes with any page.
    pub neutral: bool,
    /// Difference to the nearest page colour; `None` where the page has none.
    pub apart: Option<Hundredths>,
}

/// Costs that a letter brings into its slot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Fixed {
    /// For standing in.
    pub stand_in: Points,
    /// For being one of the last; nothing for a letter that is stuck down.
    pub scarce: Points,
    /// How many of it are left in its band of heights, itself included, less what other plans speak for.
    pub left_alike: u32,
    /// Contrast with what lies under it; `None` where that is not known.
    pub contrast: Option<Hundredths>,
}

impl Look {
    /// The same of a letter that is stuck down: it is off the stash, and spares nothing by being another.
    #[must_use]
    pub(super) const fn spent(mut self) -> Self {
        self.fixed.scarce = Points::ZERO;
        self
    }
}

impl Fill {
    /// The family of its colours, if it has any.
    #[must_use]
    pub const fn family(&self) -> Option<Family> {
        match self {
            Self::Empty => None,
            Self::Hand { family, .. } => *family,
            Self::Letter(look) => Some(look.tone.family),
        }
    }

    /// Whether its first colour is the main colour.
    #[must_use]
    pub const fn is_main(&self) -> bool {
        match self {
            Self::Empty => false,
            Self::Hand { main, .. } => *main,
            Self::Letter(look) => look.tone.main,
        }
    }

    /// Whether anything stands there.
    #[must_use]
    pub const fn is_filled(&self) -> bool {
        !matches!(self, Self::Empty)
    }

    /// The place of its sheet in the stash; a thing by hand has none.
    #[must_use]
    pub fn sheet(&self) -> Option<usize> {
        self.look().map(|look| look.sheet)
    }

    /// The letter of the stash, if it is one.
    #[must_use]
    pub const fn look(&self) -> Option<&Look> {
        if let Self::Letter(look) = self { Some(look) } else { None }
    }
}

impl Tone {
    /// Measures `colours` (never empty) against the palette.
    #[must_use]
    pub fn of(colours: &[Tint], neutral: bool, palette: &Palette, taste: &Taste) -> Self {
        let reach = taste.ratio(Knob::FamilyReach);
        let nearest = colours
            .iter()
            .filter_map(|tint| palette.nearest(tint.colour.lab()))
            .min_by_key(|&(place, apart)| (apart, place));
        let first = colours.first().map(|tint| tint.colour);
        let grey =
            first.is_some_and(|colour| !at_least(colour.lab().chroma(), taste.ratio(Knob::NeutralChroma)));
        let family = match (nearest, first) {
            (Some((place, apart)), _) if apart <= reach => family_at(place),
            (_, Some(colour)) => Palette::stray_family(colour, taste),
            (_, None) => Family::Neutral(1),
        };
        let first_near =
            first.and_then(|colour| palette.nearest(colour.lab())).filter(|&(_, apart)| apart <= reach);
        let main = first_near.is_some_and(|(place, _)| Some(family_at(place)) == palette.main());
        Self { family, main, neutral: neutral || grey, apart: nearest.map(|(_, apart)| apart) }
    }
}

/// The tone of a chip's colours.
pub(super) fn chip_tone(chip: Chip<'_>, palette: &Palette, taste: &Taste) -> Tone {
    let make = chip.sheet.make;
    Tone::of(chip.colours(), make.neutral || make.finish.is_neutral(), palette, taste)
}

/// The cost of standing in: none for the same character, or for letters of two cases that have one shape.
pub(super) fn stand_in_cost(
    wanted: &Character,
    chip: Chip<'_>,
    kind: Option<StandInKind>,
    taste: &Taste,
) -> Points {
    let Some(kind) = kind else { return Points::ZERO };
    let row = find_stand_in(wanted, &chip.letter.character, kind);
    taste.points(match kind {
        StandInKind::OtherCase if row.is_some_and(|row| row.same_shape) => return Points::ZERO,
        StandInKind::OtherCase => Knob::OtherCase,
        StandInKind::Turned => Knob::Turned,
        StandInKind::LookAlike => Knob::LookAlike,
        StandInKind::Trimmed => Knob::Trimmed,
    })
}

/// The height that counts of `chip` standing for `wanted`; `None` for small marks.
pub(super) fn counted_height(
    stash: &Stash,
    chip: ChipIx,
    wanted: &Character,
    kind: Option<StandInKind>,
) -> Option<Length> {
    let chip = stash.chip(chip);
    if Face::reference().is_exempt(wanted) {
        return None;
    }
    let turn = kind.and_then(|kind| find_stand_in(wanted, &chip.letter.character, kind)).map(|row| row.turn);
    Some(chip.effective_height(wanted, turn.unwrap_or_default()))
}
