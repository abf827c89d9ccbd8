//! What a search is about, as plain data: the slots of all strips in one row, what can stand in each, and what it costs.
//!
//! The checks are asked for every cost here, once; the search itself asks nobody. Must not know how a search goes.

use std::collections::HashMap;
use std::ops::Range;

use crate::checks::{
    Bearings, Between, Check, Demand, Fill, Palette, Reach, Scene, StripView, Suits, Taste, candidates,
    lying_view, room_of,
};
use crate::letter::{Character, Turn, find_stand_in};
use crate::measure::{Colour, Length, Points};
use crate::plan::Plan;
use crate::stash::{Chip, ChipIx, Finish, Form, Stash};
use crate::title::{FormRule, Joint, Layout, Mix, Sticker, Strip, Wording, standing_width};

use super::outcome::Put;

/// What a search is about. Owned, so that a search can go on while its plan is looked at.
#[derive(Debug, Clone)]
pub struct Problem {
    /// The slots of all strips, strip after strip in the file's order.
    pub(super) slots: Vec<Slot>,
    /// The strips.
    pub(super) parts: Vec<Part>,
    /// How many letters of each chip there are to be had, by [`Choice::chip`].
    pub(super) left: Vec<u16>,
}

/// An arrangement: for each slot of the row the place of its choice.
pub(super) type Path = Vec<u16>;

/// A slot and what can stand in it.
#[derive(Debug, Clone)]
pub(super) struct Slot {
    /// Ordered by id, bytewise, then by how they stand in; empty last.
    pub(super) choices: Vec<Choice>,
    /// What lies between the slot before and this one; `None` where they are no neighbours.
    pub(super) joint: Option<Joint>,
    /// The slots of its word.
    pub(super) word: Range<usize>,
    /// The place of its strip among the parts, which is its place in the plan.
    pub(super) part: usize,
}

/// What can stand in a slot.
#[derive(Debug, Clone)]
pub(super) struct Choice {
    pub(super) put: Put,
    pub(super) fill: Fill,
    /// What the checks of letters say whatever the line's height.
    pub(super) fixed: Points,
    /// That, and what is wanted of this very slot.
    pub(super) alone: Points,
    /// The chip that it takes a letter of, by its place in [`Problem::left`]; `None`: it takes none.
    pub(super) chip: Option<u32>,
    /// Its place in [`Part::kinds`].
    pub(super) kind: usize,
    /// How it looks and is turned; `None` for what stays, or is empty.
    pub(super) look: Option<(u32, Turn)>,
    /// The room that it takes.
    pub(super) width: Length,
}

/// A strip of the row.
#[derive(Debug, Clone)]
pub(super) struct Part {
    /// Its slots in the row.
    pub(super) slots: Range<usize>,
    pub(super) wording: Wording,
    /// The longest line that it may have, and its gaps.
    pub(super) room: Option<Length>,
    pub(super) gap: Length,
    pub(super) word_gap: Length,
    pub(super) suits: Suits,
    /// The checks that count, by their reach.
    pub(super) letters: Vec<&'static Check>,
    pub(super) pairs: Vec<&'static Check>,
    pub(super) demands: Vec<Demand>,
    /// What choices there are in the eyes of the checks of pairs: one of each kind.
    pub(super) kinds: Vec<Fill>,
    pub(super) lore: Lore,
}

/// What the checks want to know besides the letters.
#[derive(Debug, Clone)]
pub(super) struct Lore {
    pub(super) words: usize,
    pub(super) forms: FormRule,
    pub(super) mix: Mix,
    pub(super) palette: Palette,
    pub(super) taste: Taste,
}

impl Problem {
    /// What can be arranged on `plan`: every slot of a strip that is not stuck down, save what is pinned or filled by
    /// hand; with `only`, of the strip at that place. A slot may also stay empty, at its points.
    #[must_use]
    pub fn new(plan: &Plan, stash: &Stash, scene: &Scene, only: Option<usize>) -> Self {
        let mut problem = Self { slots: Vec::new(), parts: Vec::new(), left: Vec::new() };
        let mut supply = Supply::new(stash);
        for (place, strip) in plan.strips().iter().enumerate() {
            let asked = strip.stuck.is_none() && only.is_none_or(|only| only == place);
            let free: Vec<bool> = (0..strip.len()).map(|slot| asked && is_free(strip, slot)).collect();
            let view = lying_view(plan, strip, &Layout::of(strip, stash), stash, scene);
            problem.add(plan, strip, &view, &free, &mut supply);
        }
        problem.left = supply.left(plan, &problem.slots);
        problem
    }

    fn add(
        &mut self,
        plan: &Plan,
        strip: &Strip,
        view: &StripView<'_>,
        free: &[bool],
        supply: &mut Supply<'_>,
    ) {
        let start = self.slots.len();
        let mut part = Part::new(plan, strip, view, start);
        let layout = Layout::of(strip, supply.stash);
        for (slot, &free) in free.iter().enumerate() {
            let mut choices = Vec::new();
            if free {
                supply.choices(strip, view, slot, &mut choices);
                choices.push(Choice::of(Put::Empty, Fill::Empty, layout.letters[slot].width));
            } else {
                let kept = Choice::of(Put::Kept, view.fills()[slot].clone(), layout.letters[slot].width);
                choices.push(kept);
            }
            for choice in &mut choices {
                choice.fixed = part.letter_points(&choice.fill, None);
                choice.alone = choice.fixed + part.lead_points(&choice.fill, slot);
                choice.kind = part.kind_of(&choice.fill);
            }
            let word = strip.wording().word_around(slot);
            let joint = slot.checked_sub(1).and_then(|before| strip.wording().joint(before));
            self.slots.push(Slot {
                choices,
                joint: joint.filter(|&joint| joint != Joint::Line),
                word: start + word.start..start + word.end,
                part: self.parts.len(),
            });
        }
        self.parts.push(part);
    }

    /// The problem of one strip by itself.
    pub(super) fn of_part(&self, place: usize) -> Self {
        let mut part = self.parts[place].clone();
        let start = part.slots.start;
        let mut slots = self.slots[part.slots.clone()].to_vec();
        for slot in &mut slots {
            slot.word = slot.word.start - start..slot.word.end - start;
            slot.part = 0;
        }
        part.slots = 0..slots.len();
        Self { slots, parts: vec![part], left: self.left.clone() }
    }

    /// Whether there is no slot to be filled anew, and none that is filled.
    pub(super) fn serves_nothing(&self) -> bool {
        self.slots.iter().all(|slot| slot.choices.iter().all(|choice| choice.put == Put::Empty))
    }

    /// Whether there are slots, and all stay as they are.
    pub(super) fn asks_nothing(&self) -> bool {
        !self.slots.is_empty() && self.slots.iter().all(Slot::is_kept)
    }

    /// Slots that are free and that nothing serves: place of the strip, and slot.
    pub(super) fn unserved(&self) -> Vec<(usize, usize)> {
        let is_bare = |slot: &Slot| matches!(slot.choices.as_slice(), [one] if one.put == Put::Empty);
        let bare = self.slots.iter().enumerate().filter(|(_, slot)| is_bare(slot));
        bare.map(|(place, slot)| (slot.part, place - self.parts[slot.part].slots.start)).collect()
    }
}

impl Slot {
    /// Whether what stands there stays.
    pub(super) fn is_kept(&self) -> bool {
        self.choices.iter().all(|choice| choice.put == Put::Kept)
    }
}

/// Whether a suggestion may change what stands in `slot`.
fn is_free(strip: &Strip, slot: usize) -> bool {
    strip.letter(slot).is_none_or(|stood| !stood.pinned && matches!(stood.sticker, Sticker::Chip { .. }))
}

impl Choice {
    fn of(put: Put, fill: Fill, width: Length) -> Self {
        Self { put, fill, fixed: Points::ZERO, alone: Points::ZERO, chip: None, kind: 0, look: None, width }
    }
}

impl Part {
    fn new(plan: &Plan, strip: &Strip, view: &StripView<'_>, start: usize) -> Self {
        let counts = |check: &&&'static Check| !strip.accepted.contains(check.id);
        let heard: Vec<&'static Check> = view.heard().collect();
        let of = |wanted: fn(&Reach) -> bool| {
            heard.iter().filter(counts).copied().filter(|check| wanted(&check.reach)).collect::<Vec<_>>()
        };
        let bearings = view.bearings();
        let demands = of(|reach| matches!(reach, Reach::Position(_) | Reach::Counts(_)))
            .iter()
            .flat_map(|check| match check.reach {
                Reach::Position(demands) | Reach::Counts(demands) => demands(&bearings),
                Reach::Letter(_) | Reach::Pair(_) => Vec::new(),
            })
            .collect();
        Self {
            slots: start..start + strip.len(),
            wording: strip.wording().clone(),
            room: room_of(strip, &plan.page),
            gap: strip.setting.gap,
            word_gap: strip.setting.word_gap,
            suits: view.suits(),
            letters: of(|reach| matches!(reach, Reach::Letter(_))),
            pairs: of(|reach| matches!(reach, Reach::Pair(_))),
            demands,
            kinds: Vec::new(),
            lore: Lore {
                words: bearings.words,
                forms: bearings.forms,
                mix: bearings.mix,
                palette: bearings.palette.clone(),
                taste: bearings.taste.clone(),
            },
        }
    }

    fn bearings(&self, height: Option<Length>) -> Bearings<'_> {
        let lore = &self.lore;
        Bearings {
            slots: self.slots.len(),
            words: lore.words,
            height,
            forms: lore.forms,
            mix: lore.mix,
            palette: &lore.palette,
            taste: &lore.taste,
        }
    }

    /// What the checks of letters say of `fill` in a line of `height`.
    pub(super) fn letter_points(&self, fill: &Fill, height: Option<Length>) -> Points {
        let bearings = self.bearings(height);
        let cost = |check: &&Check| match check.reach {
            Reach::Letter(cost) => cost(&bearings, fill),
            _ => Points::ZERO,
        };
        self.letters.iter().map(cost).sum()
    }

    /// On how many letters a family may be, and the points where one is on more.
    pub(super) fn crowd(&self) -> Option<(usize, Points)> {
        self.demands.iter().find_map(|demand| match demand {
            Demand::AtMost { letters, points } => Some((*letters, *points)),
            _ => None,
        })
    }

    /// What is wanted of `slot` itself, and `fill` is not.
    fn lead_points(&self, fill: &Fill, slot: usize) -> Points {
        let lead = |demand: &Demand| match demand {
            Demand::Lead { slot: of, points } if *of == slot && fill.is_filled() && !fill.is_main() => {
                *points
            }
            _ => Points::ZERO,
        };
        self.demands.iter().map(lead).sum()
    }

    /// What the checks of pairs say of two neighbours.
    pub(super) fn pair_points(&self, before: &Fill, here: &Fill, between: Between) -> Points {
        if !before.is_filled() || !here.is_filled() {
            return Points::ZERO;
        }
        let cost = |check: &&Check| match check.reach {
            Reach::Pair(cost) => cost(&self.lore.taste, before, here, between),
            _ => Points::ZERO,
        };
        self.pairs.iter().map(cost).sum()
    }

    /// The kind of `fill`: its family, whether it is joined script, whether it is a letter at all. That is all that a
    /// check of pairs looks at, besides whether two are of one sheet.
    fn kind_of(&mut self, fill: &Fill) -> usize {
        let key = |fill: &Fill| {
            (
                fill.is_filled(),
                fill.family(),
                fill.look().is_some(),
                fill.look().is_some_and(|look| look.joined),
            )
        };
        let known = self.kinds.iter().position(|kind| key(kind) == key(fill));
        known.unwrap_or_else(|| {
            self.kinds.push(fill.clone());
            self.kinds.len() - 1
        })
    }
}

/// The letters that choices are made of.
struct Supply<'a> {
    stash: &'a Stash,
    /// The chips that any choice takes, in the order they came.
    chips: Vec<ChipIx>,
    /// For each chip of the stash its place among them.
    places: Vec<Option<u32>>,
    /// A number for each form, finish and colours; for each of these, a character and a height; for each chip the latter.
    dresses: HashMap<(Form, Finish, Vec<Colour>), u32>,
    guises: HashMap<(u32, &'a Character, Length), u32>,
    guise_of: Vec<u32>,
}

impl<'a> Supply<'a> {
    fn new(stash: &'a Stash) -> Self {
        Self {
            stash,
            chips: Vec::new(),
            places: vec![None; stash.len()],
            dresses: HashMap::new(),
            guises: HashMap::new(),
            guise_of: Vec::new(),
        }
    }

    fn choices(&mut self, strip: &Strip, view: &StripView<'_>, slot: usize, into: &mut Vec<Choice>) {
        let wanted = view.wanted(slot);
        for candidate in candidates(self.stash, strip, wanted) {
            let chip = self.stash.chip(candidate.chip);
            if chip.on_hand() == 0 {
                continue;
            }
            let look = view.look(candidate, slot);
            let width = standing_width(chip, wanted, candidate.stands_in);
            let mut choice = Choice::of(Put::Letter(candidate), Fill::Letter(look), width);
            choice.chip = Some(self.place(candidate.chip));
            into.push(choice);
        }
        let key = |choice: &Choice| match choice.put {
            Put::Letter(candidate) => {
                (Some(self.stash.chip(candidate.chip).id().to_string()), candidate.stands_in)
            }
            _ => (None, None),
        };
        into.sort_by_cached_key(key);
        for choice in into {
            if let (Put::Letter(candidate), Some(chip)) = (choice.put, choice.chip) {
                let used = &self.stash.chip(candidate.chip).letter.character;
                let row = candidate.stands_in.and_then(|kind| find_stand_in(wanted, used, kind));
                choice.look = Some((self.guise_of[chip as usize], row.map_or(Turn::None, |row| row.turn)));
            }
        }
    }

    fn place(&mut self, chip: ChipIx) -> u32 {
        if let Some(place) = self.places[chip.get()] {
            return place;
        }
        let place = u32::try_from(self.chips.len()).unwrap_or(u32::MAX);
        self.places[chip.get()] = Some(place);
        self.chips.push(chip);
        let guise = self.guise(self.stash.chip(chip));
        self.guise_of.push(guise);
        place
    }

    /// A number for how a chip looks: equal for those that differ in nothing that can be seen.
    fn guise(&mut self, chip: Chip<'a>) -> u32 {
        let make = chip.sheet.make;
        let colours = chip.colours().iter().map(|tint| tint.colour).collect();
        let fresh = u32::try_from(self.dresses.len()).unwrap_or(u32::MAX);
        let dress = *self.dresses.entry((make.form, make.finish, colours)).or_insert(fresh);
        let fresh = u32::try_from(self.guises.len()).unwrap_or(u32::MAX);
        *self.guises.entry((dress, &chip.letter.character, chip.shown_height())).or_insert(fresh)
    }

    /// How many of each chip are left for the slots that are free.
    fn left(&self, plan: &Plan, slots: &[Slot]) -> Vec<u16> {
        let mut left: Vec<u16> = self.chips.iter().map(|&chip| self.stash.chip(chip).letter.left).collect();
        for slot in slots.iter().filter(|slot| plan.strips()[slot.part].stuck.is_none()) {
            let kept = slot.choices.iter().filter(|choice| choice.put == Put::Kept);
            for look in kept.filter_map(|choice| choice.fill.look()) {
                if let Some(place) = self.places[look.chip.get()] {
                    let left = &mut left[place as usize];
                    *left = left.saturating_sub(1);
                }
            }
        }
        left
    }
}
