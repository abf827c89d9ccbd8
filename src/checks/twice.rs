//! A sticker used more often than it is left.

use std::collections::BTreeMap;

use crate::measure::Points;
use crate::plan::Plan;
use crate::stash::{ChipIx, Stash};

use super::finding::{Finding, Level};

/// One finding for each chip that the open strips of `plan` use more often than the stash has it, at the first slot
/// too many. A chip that the stash lacks altogether shows as missing instead.
pub(super) fn find(plan: &Plan, stash: &Stash) -> Vec<Finding> {
    let mut used: BTreeMap<ChipIx, Vec<(usize, usize)>> = BTreeMap::new();
    for (place, strip) in plan.strips().iter().enumerate() {
        for slot in (0..strip.len()).filter(|&slot| !strip.is_down(slot)) {
            if let Some(chip) = strip.letter(slot).and_then(|stood| stash.find(stood.chip()?)) {
                used.entry(chip).or_default().push((place, slot));
            }
        }
    }
    let found = used.into_iter().filter_map(|(chip, places)| {
        let left = usize::from(stash.chip(chip).letter.left);
        let &(strip, _) = places.get(left)?;
        let slots = places.iter().filter(|(place, _)| *place == strip).map(|&(_, slot)| slot).collect();
        let times = places.len();
        let id = stash.chip(chip).id();
        let often = if times == 1 { "once".to_owned() } else { format!("{times} times") };
        let message = format!("{id} is used {often} and {left} left; swap one of them for another letter");
        Some(Finding {
            id: "twice",
            level: Level::Stop,
            points: Points::ZERO,
            strip,
            slots,
            message,
            accepted: false,
        })
    });
    found.collect()
}
