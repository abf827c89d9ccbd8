//! What can be amiss between the ledger and the sheets, and what can be told of it without asking the owner.
//!
//! Whatever is set right here, a count that a sheet has stays as it is. Must not know files or clocks.

use std::collections::BTreeMap;

use super::deed::is_of;
use super::ledger::apply_all;
use super::{ChipId, Deed, Entry, Kind, Ledger, Sheet, SheetId, Stash};

/// A chip whose count was changed by hand over an entry that it does not include yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EditedOver {
    /// The chip.
    pub chip: ChipId,
    /// How many there were when the entry was written.
    pub had: u16,
    /// How many the sheet counts now.
    pub left: u16,
}

/// What is odd about where an entry stands, or about its number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Oddity {
    /// The very same entry stands earlier.
    Twice,
    /// Another entry has its number; it gets this one.
    SameNumber(u32),
    /// It stands after one with this higher number.
    After(u32),
}

/// Entries put in order.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Order {
    /// The place of each entry that stays, in the order of the numbers that they have then, and that number.
    pub entries: Vec<(usize, u32)>,
    /// The places of entries that were odd, and how.
    pub odd: Vec<(usize, Oddity)>,
}

/// How `entries`, as a file has them, are put in order: of two that are the same one goes, of two that share a number the
/// later gets a new one. New numbers are above `top`.
#[must_use]
pub fn in_order(entries: &[Entry], top: u32) -> Order {
    let mut by_number: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    let (mut order, mut anew) = (Order::default(), Vec::new());
    let (mut highest, mut next) = (0, top);
    for (place, entry) in entries.iter().enumerate() {
        let same = by_number.entry(entry.number).or_default();
        if same.iter().any(|&other| entries[other].deed == entry.deed && entries[other].date == entry.date) {
            order.odd.push((place, Oddity::Twice));
            continue;
        }
        if !same.is_empty() {
            next = next.saturating_add(1);
            anew.push((place, next));
            order.odd.push((place, Oddity::SameNumber(next)));
        } else if entry.number < highest {
            order.odd.push((place, Oddity::After(highest)));
        }
        highest = highest.max(entry.number);
        same.push(place);
    }
    order.entries =
        by_number.into_iter().filter_map(|(number, same)| Some((*same.first()?, number))).collect();
    order.entries.append(&mut anew);
    order
}

/// Sheets that share a name, as `was` of the first: the first, the other, the name. Entries of that name would count on
/// both.
#[must_use]
pub fn shared_names(sheets: &[Sheet]) -> Vec<(SheetId, SheetId, SheetId)> {
    let mut shared = Vec::new();
    for (place, sheet) in sheets.iter().enumerate() {
        for name in &sheet.record.was {
            let has = |(at, other): &(usize, &Sheet)| {
                // Two that both had the name are told once.
                other.id == *name && *at != place || *at > place && other.record.was.contains(name)
            };
            let others = sheets.iter().enumerate().filter(has);
            shared.extend(others.map(|(_, other)| (sheet.id.clone(), other.id.clone(), name.clone())));
        }
    }
    shared
}

impl Stash {
    /// `chips` by the present names of their sheets; counts of one chip under two names are added.
    #[must_use]
    pub fn by_present_names(&self, chips: &BTreeMap<ChipId, i32>) -> BTreeMap<ChipId, i32> {
        let mut present = BTreeMap::new();
        for (chip, count) in chips {
            let sheet = self.sheet(&chip.sheet).map_or(&chip.sheet, |sheet| &sheet.id);
            *present.entry(ChipId { sheet: sheet.clone(), ..chip.clone() }).or_default() += count;
        }
        present
    }

    /// Whether all counts of the sheets that `chips` are on include the entry `number`, as far as the stash has the sheets.
    #[must_use]
    pub fn includes(&self, number: u32, chips: &BTreeMap<ChipId, i32>) -> bool {
        let sheets = chips.keys().filter_map(|chip| self.sheet(&chip.sheet));
        sheets.into_iter().all(|sheet| sheet.record.as_of.is_none_or(|as_of| as_of >= number))
    }

    /// What the sheets count of `chips`, those of no sheet left out: what was there before they change.
    #[must_use]
    pub fn counts(&self, chips: &BTreeMap<ChipId, i32>) -> BTreeMap<ChipId, u16> {
        let count = |chip: &ChipId| Some((chip.clone(), self.sheet(&chip.sheet)?.count_of(chip)));
        chips.keys().filter_map(count).collect()
    }

    /// What the sheets that include the entry `number` count of `chips`, by the sheets' present names. To count these anew
    /// after an entry is written again keeps it from being applied again.
    #[must_use]
    pub fn counts_with(&self, number: u32, chips: &BTreeMap<ChipId, i32>) -> BTreeMap<ChipId, i32> {
        let count = |chip: &ChipId| {
            let sheet = self.sheet(&chip.sheet)?;
            sheet.record.as_of.filter(|&as_of| as_of >= number)?;
            Some((ChipId { sheet: sheet.id.clone(), ..chip.clone() }, i32::from(sheet.count_of(chip))))
        };
        chips.keys().filter_map(count).collect()
    }
}

impl Deed {
    /// That all letters of `sheet` are counted as they are.
    #[must_use]
    pub fn as_it_is(sheet: &Sheet) -> Self {
        let chip = |letter: &super::Letter| ChipId {
            sheet: sheet.id.clone(),
            character: letter.character.clone(),
            mark: letter.mark.clone(),
        };
        let chips = sheet.letters.iter().map(|letter| (chip(letter), i32::from(letter.left))).collect();
        Self { kind: Kind::Counted, of: None, chips }
    }
}

impl Ledger {
    /// Whether the counts of `sheet` include entries that come after all that are here: some were lost.
    #[must_use]
    pub fn is_outrun_by(&self, sheet: &Sheet) -> bool {
        sheet.record.as_of.is_some_and(|as_of| as_of > self.last())
    }

    /// What was changed by hand in `sheet` over entries that wait: whether its counts include these now, only the owner
    /// knows. Nothing where no entry waits, or where those that do bear no record of what was there.
    #[must_use]
    pub fn edited_over(&self, sheet: &Sheet) -> Vec<EditedOver> {
        let mut edited: Vec<EditedOver> = Vec::new();
        let mut running = sheet.clone();
        for entry in self.pending(sheet) {
            // What tore changes no count, so it is the same before an edit and after.
            let changes = entry.deed.kind != Kind::Torn;
            for (chip, &had) in entry.had.iter().filter(|(chip, _)| changes && is_of(chip, sheet)) {
                let known = edited.iter().any(|other| other.chip == *chip);
                if running.count_of(chip) != had && !known {
                    edited.push(EditedOver { chip: chip.clone(), had, left: sheet.count_of(chip) });
                }
            }
            apply_all(&mut running, entry, &mut Vec::new());
        }
        edited
    }

    /// The numbers of the first and the last entry that wait to be counted in `sheet`.
    #[must_use]
    pub fn waiting(&self, sheet: &Sheet) -> Option<(u32, u32)> {
        let pending = self.pending(sheet);
        Some((pending.first()?.number, pending.last()?.number))
    }
}
