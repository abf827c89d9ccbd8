//! Which chips can serve a slot, and how.
//!
//! Must not know which of them is better, nor how many are left.

use crate::letter::{Character, StandInKind, stand_ins};
use crate::stash::{ChipIx, Stash};
use crate::title::Strip;

/// A chip that can serve a slot, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Candidate {
    /// The chip.
    pub chip: ChipIx,
    /// How it stands in; `None`: as itself.
    pub stands_in: Option<StandInKind>,
}

/// Every chip that can stand for `wanted` under the strip's rules, spent ones included: as itself, then stand-ins. A
/// turned tile must not tell which way is up; thick and soft letters cannot be trimmed, nor tiles.
#[must_use]
pub fn candidates(stash: &Stash, strip: &Strip, wanted: &Character) -> Vec<Candidate> {
    let itself = stash.carrying(wanted).iter().map(|&chip| Candidate { chip, stands_in: None });
    let mut found: Vec<Candidate> = itself.collect();
    for row in stand_ins(wanted) {
        if row.kind == StandInKind::OtherCase && !strip.rules.allows_other_case() {
            continue;
        }
        let stands_in = Some(row.kind);
        let chips =
            stash.carrying(&row.used).iter().copied().filter(|&chip| stash.chip(chip).can_stand_in(&row));
        found.extend(chips.map(|chip| Candidate { chip, stands_in }));
    }
    found
}

/// Whether a chip may stand in `slot` of `strip`, standing in as it does.
#[must_use]
pub fn serves(stash: &Stash, strip: &Strip, slot: usize, candidate: Candidate) -> bool {
    let asked = strip.wording().slots().get(slot);
    asked.is_some_and(|asked| {
        candidates(stash, strip, &strip.rules.wanted(&asked.character)).contains(&candidate)
    })
}
