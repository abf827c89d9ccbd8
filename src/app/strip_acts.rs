//! What can be done on the strip and with the letters on it.
//!
//! Must not know which key asked.

use crate::checks::{Alternate, Candidate, Tryout, alternates, candidates, serves};
use crate::measure::{Angle, Length, Points};
use crate::stash::ChipIx;
use crate::title::{Edit, Sticker, Stood};

use super::bench::Ranked;
use super::lists::AlternateList;
use super::over::Over;
use super::shelf::Shelf;
use super::state::State;

/// How far a letter is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Move {
    pub(super) nudge: Length,
    pub(super) raise: Length,
    pub(super) tilt: Angle,
}

impl State {
    /// Changes the chosen strip.
    pub(super) fn change(&mut self, edit: Edit) {
        let Some(edit) = self.allowed(edit) else { return self.say_it_is_down() };
        self.trial.change_strip(self.bench.strip, edit, &mut self.shelf);
        self.bench.finding = self.bench.finding.min(self.trial.verdict().findings.len().saturating_sub(1));
    }

    /// Chooses a slot; beyond the last: the last.
    pub(super) fn choose_slot(&mut self, slot: usize) {
        self.bench.slot = slot.min(self.strip().len().saturating_sub(1));
        self.trial.close_step();
        if self.bench.grid.fits {
            self.list_grid();
        }
        if let Some(asked) = self.strip().wording().slots().get(self.bench.slot) {
            let wanted = self.strip().rules.wanted(&asked.character);
            self.bench.grid.seek(&wanted, &self.shelf.stash);
            self.scroll_grid();
        }
    }

    /// Goes to the next strip.
    pub(super) fn next_strip(&mut self) {
        self.choose_strip((self.bench.strip + 1) % self.trial.plan().strips().len());
    }

    /// Chooses a strip and its first empty slot.
    pub(super) fn choose_strip(&mut self, strip: usize) {
        self.bench.strip = strip;
        self.bench.marked = None;
        let slot = self.strip().first_empty().unwrap_or(0);
        self.choose_slot(slot);
    }

    /// The alternates of the chosen slot, best first; ranked anew only where something else than a swap in this slot
    /// changed since.
    pub fn ranked(&mut self) -> &[Alternate] {
        let (strip, slot, version) = (self.bench.strip, self.bench.slot, self.trial.version());
        let holds = self
            .bench
            .ranked
            .as_ref()
            .is_some_and(|r| (r.strip, r.slot, r.version) == (strip, slot, version));
        if !holds {
            let alternates = if slot < self.strip().len() {
                alternates(self.trial.plan(), strip, slot, &self.shelf.stash, &self.shelf.scene)
            } else {
                Vec::new()
            };
            self.bench.ranked = Some(Ranked { strip, slot, version, alternates });
        }
        self.bench.ranked.as_ref().map_or(&[], |ranked| &ranked.alternates)
    }

    /// The place among the alternates of what stands in the chosen slot.
    pub(super) fn rank(&mut self) -> Option<usize> {
        let stood = self.strip().letter(self.bench.slot)?.sticker.clone();
        let Sticker::Chip { id, stands_in } = stood else { return None };
        let chip = self.shelf.stash.find(&id)?;
        self.ranked()
            .iter()
            .position(|one| one.candidate.chip == chip && one.candidate.stands_in == stands_in)
    }

    /// Swaps in the next alternate, or the one before.
    pub(super) fn swap(&mut self, on: bool) {
        if self.strip().is_down(self.bench.slot) {
            return self.say_it_is_down();
        }
        let count = self.ranked().len();
        let next = match (self.rank(), on) {
            (None, _) => Some(0),
            (Some(rank), true) => rank.checked_add(1),
            (Some(rank), false) => rank.checked_sub(1),
        };
        let Some(alternate) = next.and_then(|next| self.ranked().get(next)).cloned() else {
            return self.say(match (count, on) {
                (0, _) => {
                    "no letter of the stash can stand here; change the wording, or stand a thing by hand (b)"
                }
                (_, true) => "that is the last alternate",
                (_, false) => "this is the best alternate",
            });
        };
        self.stand(&alternate);
        self.say(format!("alternate {} of {count}", next.unwrap_or(0) + 1));
    }

    /// Stands an alternate in the chosen slot; how the slot's letter was nudged, raised and tilted stays. The ranking
    /// holds after it, as it does not depend on what stands in the slot.
    pub(super) fn stand(&mut self, alternate: &Alternate) {
        let id = self.shelf.stash.chip(alternate.candidate.chip).id();
        self.put(Sticker::Chip { id, stands_in: alternate.candidate.stands_in });
        let version = self.trial.version();
        if let Some(ranked) = &mut self.bench.ranked {
            ranked.version = version;
        }
    }

    fn put(&mut self, sticker: Sticker) {
        let slot = self.bench.slot;
        let stood = match self.strip().letter(slot) {
            Some(stood) => stood.with(sticker),
            None => Stood::straight(sticker),
        };
        self.change(Edit::Letter { slot, stood: Some(stood) });
    }

    /// Stands the grid's chip in the chosen slot, if it can serve there and one is left; then goes to the next empty slot.
    pub(super) fn stand_chip(&mut self, chip: ChipIx) {
        let slot = self.bench.slot;
        let strip = self.strip();
        let Some(asked) = strip.wording().slots().get(slot) else {
            return self.say("there is no slot yet; type a wording first (w)");
        };
        let wanted = strip.rules.wanted(&asked.character);
        let serves = candidates(&self.shelf.stash, strip, &wanted).into_iter().any(|one| one.chip == chip);
        let here = self.shelf.stash.chip(chip);
        let name = here.letter.character.spoken();
        if !serves {
            return self
                .say(format!("{name} cannot stand for {}; choose another slot or chip", wanted.spoken()));
        }
        let left = here.letter.left;
        match self.ranked().iter().find(|one| one.candidate.chip == chip).cloned() {
            None => self.say(format!("all {left} of this {name} stand on the strips already")),
            Some(alternate) => {
                self.stand(&alternate);
                let next = self.strip().empty_slots().find(|&empty| empty > slot);
                if let Some(next) = next.or_else(|| self.strip().first_empty()) {
                    self.choose_slot(next);
                }
            }
        }
    }

    /// Takes the letter off.
    pub(super) fn take_off(&mut self) {
        let slot = self.bench.slot;
        if self.strip().letter(slot).is_some() {
            self.change(Edit::Letter { slot, stood: None });
        }
    }

    /// Marks the slot for exchange, or exchanges it with the marked one.
    pub(super) fn exchange(&mut self) {
        let slot = self.bench.slot;
        match self.bench.marked.take() {
            None if self.strip().is_empty() => {}
            None => {
                self.bench.marked = Some(slot);
                self.say("choose the other slot, then exchange again");
            }
            Some(marked) if marked == slot => self.say("exchange called off"),
            Some(marked) if !self.may_exchange(marked, slot) => {
                self.say("these two letters cannot stand for one another; take them off and stand others");
            }
            Some(marked) => self.change(Edit::Exchange(marked, slot)),
        }
    }

    /// Whether what stands in each of two slots could stand, in the same manner, in the other.
    fn may_exchange(&self, a: usize, b: usize) -> bool {
        let strip = self.strip();
        let stash = &self.shelf.stash;
        let fits = |from: usize, to: usize| match strip.letter(from).map(|stood| &stood.sticker) {
            None | Some(Sticker::Hand(_)) => true,
            Some(Sticker::Chip { id, stands_in }) => stash
                .find(id)
                .is_some_and(|chip| serves(stash, strip, to, Candidate { chip, stands_in: *stands_in })),
        };
        fits(a, b) && fits(b, a)
    }

    /// Moves the letter in the chosen slot.
    pub(super) fn shift(&mut self, by: Move) {
        let slot = self.bench.slot;
        let Some(stood) = self.strip().letter(slot).cloned() else {
            return self.say("nothing stands here to be moved");
        };
        let moved = Stood {
            nudge: stood.nudge + by.nudge,
            raise: stood.raise + by.raise,
            tilt: stood.tilt + by.tilt,
            ..stood.clone()
        };
        let far = [moved.nudge, moved.raise].iter().any(|offset| offset.as_offset().is_err());
        let moved = if far { stood } else { moved };
        if self.strip().is_down(slot) {
            return self.say_it_is_down();
        }
        self.change(Edit::Letter { slot, stood: Some(moved) });
        self.say_how_it_stands();
    }

    /// Undoes nudge, raise and tilt of the chosen letter.
    pub(super) fn straighten(&mut self) {
        let slot = self.bench.slot;
        if let Some(stood) = self.strip().letter(slot) {
            let straight =
                Stood { pinned: stood.pinned, loose: stood.loose, ..Stood::straight(stood.sticker.clone()) };
            self.trial.close_step();
            self.change(Edit::Letter { slot, stood: Some(straight) });
            self.trial.close_step();
        }
    }

    fn say_how_it_stands(&mut self) {
        let unit = self.unit();
        if let Some(stood) = self.strip().letter(self.bench.slot) {
            let (nudge, raise) = (stood.nudge.show(unit), stood.raise.show(unit));
            let text = format!("nudge {nudge}, raise {raise}, tilt {}", stood.tilt);
            self.say(text);
        }
    }

    /// Pins or unpins the chosen letter.
    pub(super) fn pin(&mut self) {
        let slot = self.bench.slot;
        if let Some(stood) = self.strip().letter(slot) {
            let stood = Stood { pinned: !stood.pinned, ..stood.clone() };
            self.say(if stood.pinned { "pinned: suggestions leave it alone" } else { "no longer pinned" });
            self.change(Edit::Letter { slot, stood: Some(stood) });
        }
    }

    /// Undoes every nudge on the strip.
    pub(super) fn even_gaps(&mut self) {
        let nudged = self.strip().letters().iter().enumerate().filter_map(|(slot, stood)| {
            let stood = stood.as_ref().filter(|stood| stood.nudge != Length::ZERO)?;
            let stood = Some(Stood { nudge: Length::ZERO, ..stood.clone() });
            Some(Edit::Letter { slot, stood })
        });
        let edits: Vec<Edit> = nudged.collect();
        if edits.is_empty() {
            self.say("every gap is as set already");
        } else {
            self.change(Edit::Several(edits));
        }
    }

    /// Opens the list of alternates, the one that stands here chosen; of those that would cure `check` where one is
    /// given.
    pub(super) fn list_alternates(&mut self, cures: Option<&'static str>) {
        let alternates: Vec<Alternate> = match cures {
            None => self.ranked().to_vec(),
            Some(check) => self.that_cure(check),
        };
        if alternates.is_empty() {
            return self.say(match cures {
                None => "no letter of the stash can stand here",
                Some(_) => "no other letter here would cure it",
            });
        }
        let chosen = if cures.is_none() { self.rank().unwrap_or(0) } else { 0 };
        self.over = Over::Alternates(AlternateList { alternates, chosen, cures });
    }
}

impl State {
    /// The alternates of the chosen slot with which `check` costs less than now.
    fn that_cure(&mut self, check: &str) -> Vec<Alternate> {
        let mut alternates = self.ranked().to_vec();
        if alternates.is_empty() {
            return alternates;
        }
        let (plan, Shelf { stash, scene, .. }) = (self.trial.plan(), &self.shelf);
        let mut tryout = Tryout::new(plan, self.bench.strip, self.bench.slot, stash, scene);
        let cost = |tryout: &Tryout<'_>| {
            tryout
                .points()
                .into_iter()
                .filter(|(id, _)| *id == check)
                .map(|(_, points)| points)
                .sum::<Points>()
        };
        let now = cost(&tryout);
        alternates.retain(|one| {
            tryout.put(one.candidate);
            cost(&tryout) < now
        });
        alternates
    }
}
