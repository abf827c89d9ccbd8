//! One strip as the checks see it, and its score.
//!
//! Must not know any check by name: it walks the table.

use crate::letter::Character;
use crate::measure::{Colour, Length, Points};
use crate::page::Page;
use crate::stash::Stash;
use crate::title::{Joint, Sticker, Strip};

use super::heights::{Suits, reference_height};
use super::look::{Fill, Tone};
use super::reach::{Bearings, Between, Check, Reach};
use super::scene::Scene;
use super::{CHECKS, demand};

/// A strip in its scene. Cheap to make and to change one slot of, so that every alternate can be tried on it.
#[derive(Debug, Clone)]
pub struct StripView<'a> {
    pub(super) scene: &'a Scene,
    pub(super) stash: &'a Stash,
    pub(super) strip: &'a Strip,
    /// The character that each slot asks for, by the strip's case rule.
    pub(super) wanted: Vec<Character>,
    pub(super) fills: Vec<Fill>,
    pub(super) under: Option<Colour>,
    pub(super) suits: Suits,
    pub(super) height: Option<Length>,
}

impl<'a> StripView<'a> {
    /// Looks at `strip` on `page`; `under` is what lies under its letters, as far as known.
    #[must_use]
    pub fn new(
        scene: &'a Scene,
        stash: &'a Stash,
        strip: &'a Strip,
        page: &Page,
        under: Option<Colour>,
    ) -> Self {
        let wanted: Vec<Character> =
            strip.wording().slots().iter().map(|asked| strip.rules.wanted(&asked.character)).collect();
        let mut view = Self {
            scene,
            stash,
            strip,
            fills: Vec::with_capacity(wanted.len()),
            wanted,
            under,
            suits: Suits::of(strip, page),
            height: None,
        };
        view.fills = (0..strip.len()).map(|slot| view.fill_of(slot)).collect();
        view.height = view.find_height();
        view
    }

    fn fill_of(&self, slot: usize) -> Fill {
        match self.strip.letter(slot).map(|stood| &stood.sticker) {
            None => Fill::Empty,
            Some(Sticker::Hand(thing)) => {
                let tints = thing.colour.as_slice();
                let tone = thing
                    .colour
                    .as_ref()
                    .map(|_| Tone::of(tints, false, &self.scene.palette, &self.scene.taste));
                Fill::Hand { family: tone.map(|tone| tone.family), main: tone.is_some_and(|tone| tone.main) }
            }
            Some(Sticker::Chip { id, stands_in }) => self.stash.find(id).map_or(Fill::Empty, |chip| {
                let wanted = &self.wanted[slot];
                Fill::Letter(self.scene.look(self.stash, chip, wanted, *stands_in, self.under))
            }),
        }
    }

    /// The height that the line is compared by; `None` without letters.
    #[must_use]
    pub const fn height(&self) -> Option<Length> {
        self.height
    }

    /// What stands in each slot.
    #[must_use]
    pub fn fills(&self) -> &[Fill] {
        &self.fills
    }

    /// The character that `slot` asks for, by the strip's case rule.
    #[must_use]
    pub fn wanted(&self, slot: usize) -> &Character {
        &self.wanted[slot]
    }

    /// What lies under the letters, as far as known.
    #[must_use]
    pub const fn under(&self) -> Option<Colour> {
        self.under
    }

    /// Puts `fill` in `slot`, finds the line's height anew, and gives back what was there.
    pub fn replace(&mut self, slot: usize, fill: Fill) -> Fill {
        let was = std::mem::replace(&mut self.fills[slot], fill);
        self.height = self.find_height();
        was
    }

    fn find_height(&self) -> Option<Length> {
        let heights = self.fills.iter().filter_map(|fill| fill.look()?.height);
        reference_height(heights, self.suits, &self.scene.taste)
    }

    pub(super) fn bearings(&self) -> Bearings<'_> {
        Bearings {
            slots: self.fills.len(),
            words: self.strip.wording().words().count(),
            height: self.height,
            forms: self.strip.rules.forms,
            mix: self.strip.rules.mix,
            palette: &self.scene.palette,
            taste: &self.scene.taste,
        }
    }

    /// The checks that have a say in this strip.
    pub fn heard(&self) -> impl Iterator<Item = &'static Check> + use<> {
        let (mix, known) = (self.strip.rules.mix, self.scene.palette.is_known());
        CHECKS.iter().filter(move |check| check.heard.in_mix(mix) && (known || !check.needs_page))
    }

    /// Calls `found` with the slots and points of each instance of `check` that costs anything.
    pub fn instances(&self, check: &Check, mut found: impl FnMut(&[usize], Points)) {
        let bearings = self.bearings();
        let mut tell = |slots: &[usize], points: Points| {
            if points > Points::ZERO {
                found(slots, points);
            }
        };
        match check.reach {
            Reach::Letter(cost) => {
                for (slot, fill) in self.fills.iter().enumerate() {
                    tell(&[slot], cost(&bearings, fill));
                }
            }
            Reach::Pair(cost) => {
                for slot in 1..self.fills.len() {
                    let (Some(before), Some(here)) = (self.fills[slot - 1].look(), self.fills[slot].look())
                    else {
                        continue;
                    };
                    if let Some(between) = self.between(slot - 1) {
                        tell(&[slot - 1, slot], cost(&self.scene.taste, before, here, between));
                    }
                }
            }
            Reach::Position(demands) | Reach::Counts(demands) => {
                for want in demands(&bearings) {
                    let (slots, points) = demand::unmet(&want, &self.fills, self.strip.wording());
                    tell(&slots, points);
                }
            }
        }
    }

    /// What lies between `slot` and the next; `None` where they are no neighbours: a line ends between them.
    fn between(&self, slot: usize) -> Option<Between> {
        let joint = self.strip.wording().joint(slot).filter(|&joint| joint != Joint::Line)?;
        let whole = joint == Joint::Word && {
            let mut word = self.fills[self.strip.wording().word_around(slot)].iter();
            let first = word.next().and_then(|fill| fill.look()).map(|look| look.sheet);
            first.is_some() && word.all(|fill| fill.look().map(|look| look.sheet) == first)
        };
        Some(Between { joint, whole })
    }

    /// The points of one check over the whole strip.
    #[must_use]
    pub fn points_of(&self, check: &Check) -> Points {
        let mut sum = Points::ZERO;
        self.instances(check, |_, points| sum += points);
        sum
    }

    /// The score of the strip: every check that has a say, less what the user is content with. Lower is better.
    #[must_use]
    pub fn score(&self) -> Points {
        let counts = |check: &&Check| !self.strip.accepted.contains(check.id);
        self.heard().filter(counts).map(|check| self.points_of(check)).sum()
    }
}
