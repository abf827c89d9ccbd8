//! What stays the same while letters are tried: the page's colours, the user's taste, what other plans speak for.
//!
//! Must not know the strips.

use std::sync::{Arc, OnceLock};

use crate::letter::{Character, StandInKind, weight};
use crate::measure::{Colour, Hundredths, Points, Unit};
use crate::page::{Page, Terrain};
use crate::plan::Spoken;
use crate::stash::{Chip, ChipIx, Form, Stash};

use super::look::{Fixed, Look, Tone, chip_tone, counted_height, stand_in_cost};
use super::palette::Palette;
use super::taste::{Knob, Taste};

/// What the checks judge against. Made anew when the page, the stash or the taste changes; asks the stash for no more
/// than is looked at.
#[derive(Debug)]
pub struct Scene {
    /// The page colours.
    pub palette: Palette,
    /// The user's thresholds.
    pub taste: Taste,
    /// What other plans speak for.
    pub elsewhere: Spoken,
    /// The unit in which findings tell lengths.
    pub unit: Unit,
    /// The tone of each sheet's colours, once asked for.
    tones: Vec<OnceLock<Tone>>,
    /// The page in cells, once asked for.
    terrain: OnceLock<Arc<Terrain>>,
}

impl Scene {
    /// A scene for `page` and `stash`; it serves only this stash.
    #[must_use]
    pub fn new(stash: &Stash, page: &Page, taste: Taste, elsewhere: Spoken) -> Self {
        let tones = (0..stash.sheets().len()).map(|_| OnceLock::new()).collect();
        Self {
            palette: Palette::of(page, &taste),
            taste,
            elsewhere,
            unit: Unit::default(),
            tones,
            terrain: OnceLock::new(),
        }
    }

    /// The page in cells: `page` is the one that the scene was made for.
    #[must_use]
    pub fn terrain(&self, page: &Page) -> Arc<Terrain> {
        Arc::clone(self.terrain.get_or_init(|| Arc::new(Terrain::of(page))))
    }

    /// The colours of `chip` against the page's.
    #[must_use]
    pub fn tone(&self, stash: &Stash, chip: ChipIx) -> Tone {
        let seen = stash.chip(chip);
        let measure = || chip_tone(seen, &self.palette, &self.taste);
        if seen.letter.colours.is_empty() {
            *self.tones[stash.sheet_place(chip)].get_or_init(measure)
        } else {
            measure()
        }
    }

    /// What the checks see of `chip` standing for `wanted` over `under`.
    #[must_use]
    pub fn look(
        &self,
        stash: &Stash,
        chip: ChipIx,
        wanted: &Character,
        stands_in: Option<StandInKind>,
        under: Option<Colour>,
    ) -> Look {
        let seen = stash.chip(chip);
        let left_alike = self.left_alike(stash, chip);
        Look {
            chip,
            sheet: stash.sheet_place(chip),
            stands_in,
            height: counted_height(stash, chip, wanted, stands_in),
            form: seen.sheet.make.form,
            joined: seen.sheet.make.joined,
            tone: self.tone(stash, chip),
            fixed: Fixed {
                stand_in: stand_in_cost(wanted, seen, stands_in, &self.taste),
                scarce: self.scarce(&seen.letter.character, left_alike),
                left_alike,
                contrast: contrast(seen, under),
            },
        }
    }

    /// Letters left of the sticker's own character in its band of heights, itself included, less what other plans
    /// speak for; counted no further than 4, beyond which nothing is scarce.
    fn left_alike(&self, stash: &Stash, chip: ChipIx) -> u32 {
        let seen = stash.chip(chip);
        let (height, band) = (seen.shown_height(), self.taste.ratio(Knob::ScarceBand));
        let mut left = 0;
        for &other in stash.carrying(&seen.letter.character) {
            let one = stash.chip(other);
            if one.on_hand() > 0 && height.ratio(one.shown_height()) <= band {
                left += u32::from(one.on_hand().saturating_sub(self.elsewhere.times(other)));
                if left > 3 {
                    break;
                }
            }
        }
        left.max(1)
    }

    fn scarce(&self, character: &Character, left_alike: u32) -> Points {
        let full = match left_alike {
            1 => self.taste.points(Knob::ScarceLast),
            2 => self.taste.points(Knob::ScarceTwo),
            3 => self.taste.points(Knob::ScarceThree),
            _ => return Points::ZERO,
        };
        Points::from_f64(f64::from(full.tenths()) / 10.0 * weight(character))
    }
}

/// The contrast of a letter with what lies under it. A tile's letter lies on its tile; a rim helps a die-cut letter from
/// either side. `None` where what lies under is not known.
fn contrast(chip: Chip<'_>, under: Option<Colour>) -> Option<Hundredths> {
    let ink = chip.colours().first()?.colour;
    let paint = &chip.sheet.paint;
    if chip.sheet.make.form == Form::Tile {
        return paint.tile.as_ref().map(|tile| ink.contrast(tile.colour));
    }
    match &paint.outline {
        Some(rim) => under.map(|under| ink.contrast(rim.colour).max(rim.colour.contrast(under))),
        None => under.map(|under| ink.contrast(under)),
    }
}
