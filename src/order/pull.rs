//! What to pull: sheet by sheet, so that each is handled once.
//!
//! Must not know where a letter goes.

use std::collections::BTreeMap;

use crate::plan::Plan;
use crate::stash::{ChipIx, Stash};

/// A sheet and the letters to take off it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pull {
    /// What the owner wrote on it.
    pub tag: Option<String>,
    /// Its name.
    pub sheet: String,
    /// The letters, in the sheet's order.
    pub letters: Vec<Pulled>,
}

/// Letters of one kind to be taken off a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pulled {
    /// The character on the sticker.
    pub character: String,
    /// What its colour is called, where the sheet has it in several.
    pub colour: Option<String>,
    /// How many.
    pub count: usize,
}

/// What the open strips of `plan` need, by the sheets' tags, then their names.
pub(super) fn pulls(plan: &Plan, stash: &Stash) -> Vec<Pull> {
    let mut counts: BTreeMap<ChipIx, usize> = BTreeMap::new();
    let open = plan.strips().iter().filter(|strip| strip.stuck.is_none());
    for chip in open.flat_map(crate::title::Strip::chips).filter_map(|id| stash.find(id)) {
        *counts.entry(chip).or_default() += 1;
    }
    let mut pulls: BTreeMap<usize, Pull> = BTreeMap::new();
    for (ix, count) in counts {
        let chip = stash.chip(ix);
        let pull = pulls.entry(stash.sheet_place(ix)).or_insert_with(|| Pull {
            tag: chip.sheet.label.tag.clone(),
            sheet: chip.sheet.name(),
            letters: Vec::new(),
        });
        let colour = chip.letter.mark.as_ref().map(|_| chip.colours()[0].name().into_owned());
        pull.letters.push(Pulled { character: chip.letter.character.spoken(), colour, count });
    }
    let mut pulls: Vec<Pull> = pulls.into_values().collect();
    pulls.sort_by(|a, b| (a.tag.is_none(), &a.tag, &a.sheet).cmp(&(b.tag.is_none(), &b.tag, &b.sheet)));
    pulls
}
