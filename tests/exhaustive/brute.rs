//! The best arrangements by going through all of them, each judged by the checks.
//!
//! Must not know `oddment::suggest`.

use std::collections::HashMap;

use oddment::checks::{Candidate, Fill, Scene, StripView, room_of, under};
use oddment::letter::find_stand_in;
use oddment::measure::{Length, Points};
use oddment::stash::ChipIx;
use oddment::title::{Layout, Spacing, Sticker, Stood, Strip};

use super::tiny::Tiny;
use crate::draw::filled;

/// One arrangement: what stands in each slot of each strip, `None` for a slot that is empty; what stays is left out.
pub(super) type Arrangement = Vec<Vec<Option<Candidate>>>;

/// Everything that can be arranged on a case.
struct All<'a> {
    case: &'a Tiny,
    scene: &'a Scene,
    strips: Vec<Free<'a>>,
    /// How many of each chip there are to be had.
    left: HashMap<ChipIx, u16>,
}

/// The free slots of a strip.
struct Free<'a> {
    strip: &'a Strip,
    slots: Vec<usize>,
    /// What may stand in each of them, by id; the last, empty, is left out.
    choices: Vec<Vec<Candidate>>,
    /// A number for how each choice looks.
    looks: Vec<Vec<usize>>,
    room: Option<Length>,
}

/// An arrangement of one strip by the places of its choices, with its score.
type Row = (Points, Vec<usize>);

/// One of all strips.
struct Whole {
    score: Points,
    /// The places of the choices in all free slots, one strip after another.
    key: Vec<usize>,
}

/// The best arrangement, then the next best that differ from all before; no more than `count`.
pub(super) fn best(case: &Tiny, scene: &Scene, count: usize) -> Vec<(Points, Arrangement)> {
    let all = All::of(case, scene);
    let slots: usize = all.strips.iter().map(|strip| strip.slots.len()).sum();
    let missing = all.least_for_missing();
    let mut wholes: Vec<Whole> = Vec::new();
    let mut chosen = Vec::new();
    for empty in 0..=slots {
        all.add_with_empty(empty, &mut wholes);
        wholes.sort_by(|a, b| (a.score, &a.key).cmp(&(b.score, &b.key)));
        chosen = all.choose(&wholes, count);
        // No term is below 0, so more empty slots cost at least their own points.
        let next = missing * i32::try_from(empty + 1).unwrap();
        if chosen.len() == count && chosen.last().is_some_and(|&last: &usize| wholes[last].score < next) {
            break;
        }
    }
    chosen.into_iter().map(|one| (wholes[one].score, all.arrangement(&wholes[one].key))).collect()
}

impl<'a> All<'a> {
    fn of(case: &'a Tiny, scene: &'a Scene) -> Self {
        let mut left: HashMap<ChipIx, u16> =
            case.stash.chips().map(|chip| (chip, case.stash.chip(chip).letter.left)).collect();
        for (place, strip) in case.plan.strips().iter().enumerate().filter(|(_, strip)| strip.stuck.is_none())
        {
            for slot in (0..strip.len()).filter(|&slot| !case.is_free(place, slot)) {
                let chip = strip.letter(slot).and_then(Stood::chip).and_then(|id| case.stash.find(id));
                if let Some(left) = chip.and_then(|chip| left.get_mut(&chip)) {
                    *left = left.saturating_sub(1);
                }
            }
        }
        let strips = (0..case.plan.strips().len()).map(|place| Free::of(case, place)).collect();
        Self { case, scene, strips, left }
    }

    /// The points of an empty slot; nothing where the user does not mind one.
    fn least_for_missing(&self) -> Points {
        if self.strips.iter().any(|free| free.strip.accepted.contains("missing")) {
            return Points::ZERO;
        }
        let missing = |row: &&oddment::checks::Check| row.id == "missing";
        let check = oddment::checks::CHECKS.iter().find(missing).unwrap();
        let one = Strip::new(oddment::title::Role::title(), oddment::title::Wording::new("A").unwrap());
        let view = StripView::new(self.scene, &self.case.stash, &one, &self.case.plan.page, None);
        view.points_of(check)
    }

    /// Adds every arrangement that leaves exactly `empty` free slots empty.
    fn add_with_empty(&self, empty: usize, wholes: &mut Vec<Whole>) {
        let mut splits: Vec<(Vec<usize>, usize)> = vec![(Vec::new(), empty)];
        for free in &self.strips {
            let mut longer = Vec::new();
            for (split, rest) in splits {
                for here in 0..=rest.min(free.slots.len()) {
                    longer.push(([&split[..], &[here]].concat(), rest - here));
                }
            }
            splits = longer;
        }
        for (split, _) in splits.into_iter().filter(|(_, rest)| *rest == 0) {
            let mut joined: Vec<Row> = vec![(Points::ZERO, Vec::new())];
            for (free, &empty) in self.strips.iter().zip(&split) {
                let rows = free.rows(self, empty);
                let with = |one: &Row| {
                    rows.iter().map(|row| (one.0 + row.0, [&one.1[..], &row.1].concat())).collect()
                };
                joined = joined.iter().flat_map::<Vec<Row>, _>(with).collect();
            }
            let wholly = joined.into_iter().filter(|(_, key)| self.is_to_be_had(key));
            wholes.extend(wholly.map(|(score, key)| Whole { score, key }));
        }
    }

    fn is_to_be_had(&self, key: &[usize]) -> bool {
        let mut left = self.left.clone();
        let choices = self.strips.iter().flat_map(|free| &free.choices);
        let mut stood = key.iter().zip(choices).filter_map(|(&place, choices)| choices.get(place));
        stood.all(|one| {
            let left = left.get_mut(&one.chip).unwrap();
            *left > 0 && {
                *left -= 1;
                true
            }
        })
    }

    /// The places of those that differ enough from all chosen before.
    fn choose(&self, wholes: &[Whole], count: usize) -> Vec<usize> {
        let slots: usize = self.case.plan.strips().iter().map(Strip::len).sum();
        let least = if slots < 6 { 1 } else { slots.div_ceil(4).max(2) };
        let looks: Vec<&Vec<usize>> = self.strips.iter().flat_map(|free| &free.looks).collect();
        let apart = |a: &Whole, b: &Whole| {
            let pairs = a.key.iter().zip(&b.key).zip(&looks);
            pairs.filter(|((a, b), looks)| looks[**a] != looks[**b]).count()
        };
        let mut chosen: Vec<usize> = Vec::new();
        for (place, whole) in wholes.iter().enumerate() {
            if chosen.len() < count && chosen.iter().all(|&one| apart(&wholes[one], whole) >= least) {
                chosen.push(place);
            }
        }
        chosen
    }

    fn arrangement(&self, key: &[usize]) -> Arrangement {
        let mut places = key.iter();
        let of = |free: &Free<'_>| {
            let stood = free.choices.iter().zip(places.by_ref());
            stood.map(|(choices, &place)| choices.get(place).copied()).collect()
        };
        self.strips.iter().map(of).collect()
    }
}

impl<'a> Free<'a> {
    fn of(case: &'a Tiny, place: usize) -> Self {
        let strip = &case.plan.strips()[place];
        let slots: Vec<usize> = (0..strip.len()).filter(|&slot| case.is_free(place, slot)).collect();
        let choices: Vec<Vec<Candidate>> = slots.iter().map(|&slot| case.choices(place, slot)).collect();
        let looks = slots.iter().zip(&choices).map(|(&slot, choices)| looks(case, strip, slot, choices));
        let looks = looks.collect();
        Self { strip, room: room_of(strip, &case.plan.page), slots, choices, looks }
    }

    /// Every arrangement of the strip that leaves exactly `empty` free slots empty and keeps to its room.
    fn rows(&self, all: &All<'_>, empty: usize) -> Vec<Row> {
        let page = &all.case.plan.page;
        let lies_on = under(self.strip, page, Length::ZERO, Length::ZERO);
        let mut view = StripView::new(all.scene, &all.case.stash, self.strip, page, lies_on);
        let mut rows = Vec::new();
        let mut key = Vec::new();
        self.add_rows(all, empty, &mut view, &mut key, &mut rows);
        rows
    }

    fn add_rows(
        &self,
        all: &All<'_>,
        empty: usize,
        view: &mut StripView<'_>,
        key: &mut Vec<usize>,
        rows: &mut Vec<Row>,
    ) {
        let depth = key.len();
        let rest = self.slots.len() - depth;
        if rest == 0 {
            if self.has_room(all, key) {
                rows.push((view.score(), key.clone()));
            }
            return;
        }
        let (slot, choices) = (self.slots[depth], &self.choices[depth]);
        for place in 0..=choices.len() {
            let stays = place == choices.len();
            if (stays && empty == 0) || (!stays && rest == empty) {
                continue;
            }
            let fill = choices.get(place).map_or(Fill::Empty, |one| {
                let wanted = view.wanted(slot).clone();
                let stash = &all.case.stash;
                Fill::Letter(all.scene.look(stash, one.chip, &wanted, one.stands_in, view.under()))
            });
            view.replace(slot, fill);
            key.push(place);
            self.add_rows(all, empty - usize::from(stays), view, key, rows);
            key.pop();
        }
    }

    fn has_room(&self, all: &All<'_>, key: &[usize]) -> bool {
        // What cannot be changed is as long as it is.
        let Some(room) = self.room.filter(|_| !self.slots.is_empty()) else { return true };
        let mut letters = self.strip.letters().to_vec();
        for ((&slot, choices), &place) in self.slots.iter().zip(&self.choices).zip(key) {
            letters[slot] = choices.get(place).map(|one| {
                let id = all.case.stash.chip(one.chip).id();
                Stood::straight(Sticker::Chip { id, stands_in: one.stands_in })
            });
        }
        even_length(&filled(self.strip.clone(), letters), all) <= room
    }
}

/// The length of a strip's longest line, box by box with even gaps and no nudges.
fn even_length(strip: &Strip, all: &All<'_>) -> Length {
    let mut even = strip.clone();
    even.setting.spacing = Spacing::Even;
    let straight = |stood: &Stood| Stood::straight(stood.sticker.clone());
    let letters = even.letters().iter().map(|one| one.as_ref().map(straight)).collect();
    Layout::of(&filled(even, letters), &all.case.stash).length()
}

/// For each choice a number, equal where letters cannot be told apart: character, turn, height, colours, form, finish.
fn looks(case: &Tiny, strip: &Strip, slot: usize, choices: &[Candidate]) -> Vec<usize> {
    let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
    let look = |one: &Candidate| {
        let chip = case.stash.chip(one.chip);
        let character = &chip.letter.character;
        let turn = one.stands_in.and_then(|kind| find_stand_in(&wanted, character, kind)).map(|row| row.turn);
        let colours: Vec<_> = chip.colours().iter().map(|tint| tint.colour).collect();
        let make = chip.sheet.make;
        (character.clone(), turn.unwrap_or_default(), chip.shown_height(), colours, make.form, make.finish)
    };
    let all: Vec<_> = choices.iter().map(look).collect();
    let first = all.iter().map(|one| all.iter().position(|other| other == one).unwrap());
    first.chain([choices.len()]).collect()
}
