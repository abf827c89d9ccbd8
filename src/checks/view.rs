//! One strip as the checks see it.
//!
//! Must not know any check.

use crate::letter::Character;
use crate::measure::{Colour, Length};
use crate::page::Page;
use crate::stash::Stash;
use crate::title::{Sticker, Strip};

use super::candidate::Candidate;
use super::heights::{Suits, reference_height};
use super::look::{Fill, Look, Tone};
use super::scene::Scene;

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

    /// The same look at another strip of the plan.
    pub(super) fn of_other<'b>(&self, strip: &'b Strip, page: &Page) -> StripView<'b>
    where
        'a: 'b,
    {
        StripView::new(self.scene, self.stash, strip, page, None)
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
                let look = self.scene.look(self.stash, chip, &self.wanted[slot], *stands_in, self.under);
                Fill::Letter(if self.strip.is_down(slot) { look.spent() } else { look })
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

    /// What the checks would see of `candidate` in `slot`.
    #[must_use]
    pub fn look(&self, candidate: Candidate, slot: usize) -> Look {
        self.scene.look(self.stash, candidate.chip, &self.wanted[slot], candidate.stands_in, self.under)
    }

    /// The heights that suit.
    #[must_use]
    pub const fn suits(&self) -> Suits {
        self.suits
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
}
