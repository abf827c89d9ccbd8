//! One strip as a model is made of it: what may stand in each slot, what that costs by itself, and the heights that the
//! line could be compared by.
//!
//! Must not know `oddment::checks` or `oddment::suggest`.

use oddment::letter::StandInKind;
use oddment::plan::Plan;
use oddment::stash::{ChipIx, Stash};
use oddment::title::{Mix, Sticker, Stood, Strip};

use super::cases::{Likely, choices};
use crate::opinion::{Colours, Eye, Slot, alone, by_height, height_points, suits, sum};

/// A strip of a case.
pub(super) struct Line<'a> {
    pub(super) strip: &'a Strip,
    pub(super) mix: Mix,
    pub(super) page: Option<Colours>,
    pub(super) slots: Vec<Vec<Choice>>,
    /// The heights that the line could be compared by, the least first; those between which no letter can tell are one.
    pub(super) levels: Vec<Level>,
    suits: Option<(i64, i64)>,
}

/// What may stand in a slot.
pub(super) struct Choice {
    /// The chip and how it stands in; `None`: what stays there, or nothing.
    pub(super) letter: Option<(ChipIx, Option<StandInKind>)>,
    pub(super) seen: Slot,
    /// What it costs whatever stands beside it, but for its height; in tenths.
    pub(super) alone: i64,
}

/// Heights between which no letter of the strip can tell, in nanometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Level {
    pub(super) least: i64,
    pub(super) most: i64,
}

impl Choice {
    pub(super) fn height(&self) -> Option<i64> {
        self.seen.letter.as_ref()?.height
    }
}

impl<'a> Line<'a> {
    pub(super) fn of(case: &'a Likely, place: usize) -> Self {
        let strip = &case.plan.strips()[place];
        let eye = Eye::new(&case.plan, place, &case.stash, &case.other);
        let slots = (0..strip.len()).map(|slot| of_slot(&eye, strip, slot, &case.stash)).collect();
        let mut line = Self {
            strip,
            mix: strip.rules.mix,
            slots,
            levels: Vec::new(),
            suits: suits(strip, &case.plan.page),
            page: eye.page,
        };
        line.levels = line.find_levels();
        line
    }

    /// A letter's height, brought into what suits.
    pub(super) fn brought(&self, height: i64) -> i64 {
        self.suits.map_or(height, |(least, most)| height.max(least).min(most))
    }

    /// The level that a letter of this height brings.
    pub(super) fn level_of(&self, height: i64) -> usize {
        let brought = self.brought(height);
        self.levels.iter().position(|level| (level.least..=level.most).contains(&brought)).unwrap()
    }

    /// What a choice costs by itself where the line is compared by `level`.
    pub(super) fn cost(&self, choice: &Choice, level: Option<usize>) -> i64 {
        let by = choice.height().zip(level);
        choice.alone + by.map_or(0, |(own, level)| sum(&by_height(own, self.levels[level].least)))
    }

    /// That part of it by which the level of a line is found.
    pub(super) fn weight(&self, choice: &Choice, level: usize) -> i64 {
        choice.height().map_or(0, |own| height_points(own, self.levels[level].least))
    }

    fn find_levels(&self) -> Vec<Level> {
        let mut owns: Vec<i64> = self.slots.iter().flatten().filter_map(Choice::height).collect();
        owns.sort_unstable();
        owns.dedup();
        let mut brought: Vec<i64> = owns.iter().map(|&own| self.brought(own)).collect();
        brought.sort_unstable();
        brought.dedup();
        let told = |line: i64| -> Vec<(i64, i64)> {
            owns.iter().map(|&own| (height_points(own, line), sum(&by_height(own, line)))).collect()
        };
        let mut levels: Vec<Level> = Vec::new();
        for height in brought {
            match levels.last_mut() {
                Some(level) if told(level.least) == told(height) => level.most = height,
                _ => levels.push(Level { least: height, most: height }),
            }
        }
        levels
    }

    /// The slots of each word.
    pub(super) fn words(&self) -> Vec<Vec<usize>> {
        let asked = self.strip.wording().slots();
        let words = asked.last().map_or(0, |last| last.word + 1);
        (0..words).map(|word| (0..asked.len()).filter(|&slot| asked[slot].word == word).collect()).collect()
    }
}

/// What stays there, or every letter that may stand there, and nothing.
fn of_slot(eye: &Eye<'_>, strip: &Strip, slot: usize, stash: &Stash) -> Vec<Choice> {
    let choice = |letter: Option<(ChipIx, Option<StandInKind>)>, sticker: Option<&Sticker>| {
        let seen = eye.slot(strip, slot, sticker);
        Choice { letter, alone: sum(&alone(&seen, strip)), seen }
    };
    if let Some(stood) = strip.letter(slot) {
        return vec![choice(None, Some(&stood.sticker))];
    }
    let mut row: Vec<Choice> = choices(strip, slot, stash)
        .into_iter()
        .map(|(chip, stands_in)| {
            let sticker = Sticker::Chip { id: stash.chip(chip).id(), stands_in };
            choice(Some((chip, stands_in)), Some(&sticker))
        })
        .collect();
    row.push(choice(None, None));
    row
}

/// How many of a chip are left for the free slots.
pub(super) fn left(plan: &Plan, stash: &Stash, chip: ChipIx) -> usize {
    let id = stash.chip(chip).id();
    let stay = plan.strips().iter().flat_map(Strip::letters).flatten();
    let used = stay.filter_map(Stood::chip).filter(|used| **used == id).count();
    usize::from(stash.chip(chip).letter.left).saturating_sub(used)
}
