//! A letter that cannot serve where it stands, as a plan changed by hand may have it.
//!
//! Must not know how it came there.

use crate::measure::Points;
use crate::stash::Stash;
use crate::title::{Sticker, Strip};

use super::candidate::{Candidate, serves};
use super::finding::{Finding, Level};

/// One finding for each letter that is neither the one wanted nor a stand-in for it under the strip's rules.
pub(super) fn find(place: usize, strip: &Strip, stash: &Stash) -> Vec<Finding> {
    let wrong = (0..strip.len()).filter_map(|slot| {
        let Sticker::Chip { id, stands_in } = &strip.letter(slot)?.sticker else { return None };
        let candidate = Candidate { chip: stash.find(id)?, stands_in: *stands_in };
        if serves(stash, strip, slot, candidate) {
            return None;
        }
        let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
        let (used, wanted) = (id.character.spoken(), wanted.spoken());
        let how = stands_in.map_or_else(String::new, |kind| format!(" as {kind}"));
        let message =
            format!("{used}{how} cannot stand for {wanted} in slot {}; stand another letter", slot + 1);
        let (points, slots) = (Points::ZERO, vec![slot]);
        Some(Finding {
            id: "wrong",
            level: Level::Stop,
            points,
            strip: place,
            slots,
            message,
            accepted: false,
        })
    });
    wrong.collect()
}
