//! Something that happens to the stash, and whether the stash has what it takes.
//!
//! Must not know entries or what was before.

use std::collections::BTreeMap;

use crate::words::words;

use super::{ChipId, Sheet, SheetId, Stash};

/// The most stickers of one kind.
pub const MOST_LEFT: u16 = 999;

words! {
    /// What an entry tells.
    Kind {
        /// Letters were stuck down: so many fewer are left.
        Stuck = "stuck",
        /// Letters came off a page whole: so many more are left.
        Lifted = "lifted",
        /// Letters came off a page and are spent.
        Torn = "torn",
        /// Letters were counted in, or out where the count is below 0.
        Added = "added",
        /// Letters were counted anew: so many are left.
        Counted = "counted",
    }
}

/// Something that happens to the stash.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Deed {
    /// What it is.
    pub kind: Kind,
    /// The strip that letters were stuck down by, or came off.
    pub of: Option<OfStrip>,
    /// Each chip and how many; below 0 only where letters are counted out.
    pub chips: BTreeMap<ChipId, i32>,
}

/// A strip of a page plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfStrip {
    /// The plan's name.
    pub page: String,
    /// The strip's role.
    pub role: String,
    /// The slots, from 1, where single letters came off; none: all of it.
    pub slots: Vec<u32>,
}

/// Why a deed cannot be done.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The stash has not so many: each chip, how many are asked for, how many are left.
    #[error("{}", lacking(.0))]
    Lacks(Vec<(ChipId, i32, u16)>),
    /// More than a file counts.
    #[error("{0} would come to more than {MOST_LEFT}; a sheet counts no further")]
    TooMany(ChipId),
    /// There is no such sheet.
    #[error("the stash has no sheet {:?}", .0.as_str())]
    NoSheet(SheetId),
    /// Nothing would happen.
    #[error("that names no letter")]
    Nothing,
}

fn lacking(chips: &[(ChipId, i32, u16)]) -> String {
    let told: Vec<String> =
        chips.iter().map(|(chip, wanted, left)| format!("{chip}: {wanted} asked for, {left} left")).collect();
    format!("the stash has too few letters: {}", told.join("; "))
}

impl Deed {
    /// Checks that `stash`, which includes every entry, has what it takes.
    ///
    /// # Errors
    /// When a chip has too few left or would have too many, or there is no such sheet.
    pub fn check(&self, stash: &Stash) -> Result<(), Refusal> {
        if self.chips.values().all(|&count| count == 0) && self.kind != Kind::Counted || self.chips.is_empty()
        {
            return Err(Refusal::Nothing);
        }
        let mut lacks = Vec::new();
        for (chip, &count) in &self.chips {
            if stash.sheet(&chip.sheet).is_none() {
                return Err(Refusal::NoSheet(chip.sheet.clone()));
            }
            let left = stash.find(chip).map_or(0, |ix| stash.chip(ix).letter.left);
            let after = match self.kind {
                Kind::Stuck => i32::from(left) - count,
                Kind::Lifted | Kind::Added => i32::from(left) + count,
                Kind::Torn => i32::from(left),
                Kind::Counted => count,
            };
            if after < 0 {
                lacks.push((chip.clone(), count.abs(), left));
            }
            if after > i32::from(MOST_LEFT) {
                return Err(Refusal::TooMany(chip.clone()));
            }
        }
        if lacks.is_empty() { Ok(()) } else { Err(Refusal::Lacks(lacks)) }
    }

    /// What it tells of the letters of `sheet`, by its name now or an earlier one.
    pub fn chips_of<'a>(&'a self, sheet: &'a Sheet) -> impl Iterator<Item = (&'a ChipId, i32)> {
        self.chips.iter().filter(|(chip, _)| is_of(chip, sheet)).map(|(chip, count)| (chip, *count))
    }

    /// The sheets that it changes, by the ids that it names them by.
    pub fn sheets(&self) -> impl Iterator<Item = &SheetId> {
        let mut last = None;
        self.chips.keys().map(|chip| &chip.sheet).filter(move |sheet| last.replace(*sheet) != Some(*sheet))
    }
}

/// Whether a chip is one of `sheet`, by its name now or an earlier one.
pub(super) fn is_of(chip: &ChipId, sheet: &Sheet) -> bool {
    chip.sheet == sheet.id || sheet.record.was.contains(&chip.sheet)
}
