//! A letter of whose kind another plan uses the last as well. Told, and never more than that: which page gets it is the
//! owner's to say.
//!
//! Must not know what is on the other plans' pages.

use std::collections::BTreeMap;

use crate::measure::Points;
use crate::plan::{Plan, Spoken};
use crate::stash::{ChipIx, Stash};

use super::finding::{Finding, Level};
use super::scene::Scene;

/// The names of the other plans for which, beside the plan that speaks for `own`, there are too few of `chip`; `None`
/// where there are enough for all.
#[must_use]
pub fn promised_to(chip: ChipIx, own: &Spoken, stash: &Stash, scene: &Scene) -> Option<Vec<String>> {
    let left = u32::from(stash.chip(chip).letter.left);
    let (here, there) = (u32::from(own.times(chip)), u32::from(scene.elsewhere.times(chip)));
    let whose = || scene.elsewhere.whose(chip).iter().map(|(name, _)| name.clone()).collect();
    (left > 0 && here > 0 && there > 0 && here + there > left).then(whose)
}

/// That in a sentence: `the last E of 07 Harbour blocks is in Quayside supper as well`.
#[must_use]
pub fn tell_promised(chip: ChipIx, own: &Spoken, stash: &Stash, scene: &Scene) -> Option<String> {
    let names = promised_to(chip, own, stash, scene)?;
    let whose = if names.is_empty() { "another plan".to_owned() } else { names.join(" and ") };
    let seen = stash.chip(chip);
    let (character, sheet) = (seen.letter.character.spoken(), seen.sheet.told());
    let there = scene.elsewhere.times(chip);
    let is = if there == 1 { "is" } else { "are" };
    Some(match seen.letter.left {
        1 => format!("the last {character} of {sheet} is in {whose} as well"),
        left => format!("of the {left} {character} left of {sheet} {there} {is} in {whose} as well"),
    })
}

/// One finding for each such chip of each open strip, at its slots.
pub(super) fn find(plan: &Plan, stash: &Stash, scene: &Scene) -> Vec<Finding> {
    if scene.elsewhere.is_empty() {
        return Vec::new();
    }
    let own = Spoken::by(plan, stash);
    let mut found = Vec::new();
    for (place, strip) in plan.strips().iter().enumerate().filter(|(_, strip)| strip.stuck.is_none()) {
        let mut slots_of: BTreeMap<ChipIx, Vec<usize>> = BTreeMap::new();
        for slot in 0..strip.len() {
            if let Some(chip) = strip.letter(slot).and_then(|stood| stash.find(stood.chip()?)) {
                slots_of.entry(chip).or_default().push(slot);
            }
        }
        found.extend(slots_of.into_iter().filter_map(|(chip, slots)| {
            let message = tell_promised(chip, &own, stash, scene)?;
            let (id, level, points) = ("promised", Level::Note, Points::ZERO);
            Some(Finding { id, level, points, strip: place, slots, message, accepted: false })
        }));
    }
    found
}
