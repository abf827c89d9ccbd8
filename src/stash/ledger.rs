//! The ledger: what was counted, stuck down, lifted and torn, entry by entry; what is left follows from it.
//!
//! A sheet's counts include every entry up to its `as_of`; what is left now is those counts with the later entries applied
//! in order. So to apply them again after a crash changes nothing. Must not know files or clocks.

use std::collections::{BTreeMap, HashMap};

use super::deed::is_of;
use super::{ChipId, Deed, Kind, Letter, MOST_LEFT, OfStrip, Sheet, SheetId, Stash};

/// A deed as the ledger keeps it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its number, from 1; each is above the one before.
    pub number: u32,
    /// The day, as `2031-11-05`.
    pub date: String,
    /// What happened.
    pub deed: Deed,
    /// What the sheets counted of its chips before it; empty where that was not written down.
    pub had: BTreeMap<ChipId, u16>,
}

/// Every entry, the oldest first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Ledger {
    entries: Vec<Entry>,
    /// The number of the last entry that names each sheet: nearly every sheet includes it, and that is soon seen.
    last_of: HashMap<SheetId, u32>,
}

impl Ledger {
    /// A ledger of these entries, put in the order of their numbers; of two with one number the first stays.
    #[must_use]
    pub fn new(mut entries: Vec<Entry>) -> Self {
        entries.sort_by_key(|entry| entry.number);
        entries.dedup_by_key(|entry| entry.number);
        let mut ledger = Self { entries: Vec::with_capacity(entries.len()), last_of: HashMap::new() };
        for entry in entries {
            ledger.push(entry);
        }
        ledger
    }

    /// The entries, the oldest first.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The entry of that number.
    #[must_use]
    pub fn entry(&self, number: u32) -> Option<&Entry> {
        let place = self.entries.binary_search_by_key(&number, |entry| entry.number).ok()?;
        self.entries.get(place)
    }

    /// The number of the last entry; 0 where there is none.
    #[must_use]
    pub fn last(&self) -> u32 {
        self.entries.last().map_or(0, |entry| entry.number)
    }

    /// The number of the next entry: above the last one and above all that any sheet's counts include.
    #[must_use]
    pub fn next_number(&self, stash: &Stash) -> u32 {
        let known = stash.sheets().iter().filter_map(|sheet| sheet.record.as_of).max();
        self.last().max(known.unwrap_or(0)).saturating_add(1)
    }

    /// Whether any entry names a sheet so.
    #[must_use]
    pub fn speaks_of(&self, sheet: &SheetId) -> bool {
        self.last_of.contains_key(sheet)
    }

    /// Adds an entry; it has the highest number.
    pub fn push(&mut self, entry: Entry) {
        for sheet in entry.deed.sheets() {
            match self.last_of.get_mut(sheet) {
                Some(last) => *last = entry.number,
                None => drop(self.last_of.insert(sheet.clone(), entry.number)),
            }
        }
        self.entries.push(entry);
    }

    /// Whether entries wait that the counts of `sheet` do not include.
    #[must_use]
    pub fn is_behind(&self, sheet: &Sheet) -> bool {
        let Some(as_of) = sheet.record.as_of else { return false };
        let mut names = std::iter::once(&sheet.id).chain(&sheet.record.was);
        names.any(|name| self.last_of.get(name).is_some_and(|&last| last > as_of))
    }

    /// Entries that name `sheet` and that its counts do not include.
    pub(super) fn pending(&self, sheet: &Sheet) -> Vec<&Entry> {
        // Counts without a number are the owner's own, and include all there was.
        let from = sheet
            .record
            .as_of
            .map_or(self.entries.len(), |as_of| self.entries.partition_point(|entry| entry.number <= as_of));
        let names = |entry: &&Entry| entry.deed.chips.keys().any(|chip| is_of(chip, sheet));
        self.entries[from..].iter().filter(names).collect()
    }

    /// Applies to `sheet` what its counts do not include, and gives back the chips of which fewer than none would be left:
    /// they are counted as 0.
    pub fn settle(&self, sheet: &mut Sheet) -> Vec<ChipId> {
        let mut below = Vec::new();
        for entry in self.pending(sheet) {
            apply_all(sheet, entry, &mut below);
            sheet.record.as_of = Some(entry.number);
        }
        below
    }

    /// The entries about one strip, the oldest first.
    #[must_use]
    pub fn about(&self, page: &str, role: &str) -> impl DoubleEndedIterator<Item = &Entry> {
        let of_it = move |of: &OfStrip| of.page == page && of.role == role;
        self.entries.iter().filter(move |entry| entry.deed.of.as_ref().is_some_and(of_it))
    }

    /// What is on a page by the strip of that role: letters stuck down, less those that came off.
    #[must_use]
    pub fn on_page(&self, page: &str, role: &str) -> BTreeMap<ChipId, i32> {
        let mut on = BTreeMap::new();
        self.about(page, role).for_each(|entry| put_on(&mut on, entry));
        on
    }

    /// The number of the last entry after which nothing was on a page by the strip of that role; 0 where there is none.
    #[must_use]
    pub fn last_off(&self, page: &str, role: &str) -> u32 {
        let mut on = BTreeMap::new();
        let off = self.about(page, role).filter(|entry| {
            put_on(&mut on, entry);
            on.is_empty()
        });
        off.map(|entry| entry.number).last().unwrap_or(0)
    }

    /// What happened to a sheet, the newest first.
    pub fn history<'a>(&'a self, sheet: &'a Sheet) -> impl Iterator<Item = &'a Entry> {
        self.entries.iter().rev().filter(|entry| entry.deed.chips_of(sheet).next().is_some())
    }
}

/// What is on a page after `entry`.
fn put_on(on: &mut BTreeMap<ChipId, i32>, entry: &Entry) {
    let is_single = entry.deed.of.as_ref().is_some_and(|of| !of.slots.is_empty());
    let sign = match entry.deed.kind {
        Kind::Stuck => 1,
        // All of it came off, whatever there was.
        Kind::Lifted if !is_single => return on.clear(),
        Kind::Lifted | Kind::Torn => -1,
        Kind::Added | Kind::Counted => 0,
    };
    for (chip, count) in &entry.deed.chips {
        *on.entry(chip.clone()).or_default() += sign * count;
    }
    on.retain(|_, count| *count > 0);
}

pub(super) fn apply_all(sheet: &mut Sheet, entry: &Entry, below: &mut Vec<ChipId>) {
    for (chip, &count) in &entry.deed.chips {
        if is_of(chip, sheet) {
            apply(sheet, entry.deed.kind, chip, count, below);
        }
    }
}

fn apply(sheet: &mut Sheet, kind: Kind, chip: &ChipId, count: i32, below: &mut Vec<ChipId>) {
    let is_it = |letter: &Letter| letter.character == chip.character && letter.mark == chip.mark;
    let left = i32::from(sheet.count_of(chip));
    // Whoever counts anew makes good what was wrong before.
    if kind == Kind::Counted {
        below.retain(|other| other != chip);
    }
    let after = match kind {
        Kind::Stuck => left - count,
        Kind::Lifted | Kind::Added => left + count,
        Kind::Counted => count,
        Kind::Torn => return,
    };
    if after < 0 {
        below.push(chip.clone());
    }
    let after = u16::try_from(after.clamp(0, i32::from(MOST_LEFT))).unwrap_or(0);
    if let Some(letter) = sheet.letters.iter_mut().find(|letter| is_it(letter)) {
        letter.left = after;
        return;
    }
    // Beside others of its character, as a file has them.
    let last = sheet.letters.iter().rposition(|letter| letter.character == chip.character);
    let place = last.map_or(sheet.letters.len(), |last| last + 1);
    sheet.letters.insert(place, Letter::plain(chip.character.clone(), chip.mark.clone(), after));
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::letter::Character;
    use crate::measure::{Colour, Length, Tint};
    use crate::stash::{Finish, Form, HeightOf, Label, Make, Paint, Record, Refusal, Size};

    fn sheet(as_of: Option<u32>) -> Sheet {
        Sheet {
            id: SheetId::new("kelp").unwrap(),
            label: Label::default(),
            make: Make {
                form: Form::Tile,
                finish: Finish::Matte,
                neutral: false,
                joined: false,
                plain_tile: false,
            },
            size: Size {
                height: Length::from_mm(20),
                height_of: HeightOf::Capital,
                tile_width: None,
                thick: None,
            },
            paint: Paint { colours: vec![Tint::plain(Colour::BLACK)], outline: None, tile: None },
            letters: vec![Letter::plain(Character::new("A").unwrap(), None, 3)],
            record: Record { as_of, was: vec![SheetId::new("weed").unwrap()] },
        }
    }

    fn deed(kind: Kind, chips: &[(&str, i32)]) -> Deed {
        let chips = chips.iter().map(|(id, count)| (ChipId::parse(id).unwrap(), *count)).collect();
        Deed {
            kind,
            of: Some(OfStrip { page: "walk".into(), role: "title".into(), slots: Vec::new() }),
            chips,
        }
    }

    fn off_slot_1(kind: Kind, chips: &[(&str, i32)]) -> Deed {
        let mut deed = deed(kind, chips);
        deed.of.as_mut().unwrap().slots.push(1);
        deed
    }

    fn ledger(deeds: &[Deed]) -> Ledger {
        let entry = |(number, deed): (u32, &Deed)| Entry {
            number,
            date: "2031-11-05".into(),
            deed: deed.clone(),
            had: BTreeMap::new(),
        };
        Ledger::new((1..).zip(deeds).map(entry).collect())
    }

    #[test]
    fn what_is_left_follows_and_follows_again() {
        let deeds = [
            deed(Kind::Stuck, &[("kelp/A", 2), ("other/E", 1)]),
            off_slot_1(Kind::Lifted, &[("weed/A", 1)]),
            off_slot_1(Kind::Torn, &[("kelp/A", 1)]),
            deed(Kind::Added, &[("kelp/B:red", 4)]),
            deed(Kind::Counted, &[("kelp/A", 7)]),
        ];
        let ledger = ledger(&deeds);
        let mut one = sheet(Some(0));
        assert!(ledger.is_behind(&one) && ledger.settle(&mut one).is_empty());
        assert_eq!(one.letters.iter().map(|letter| letter.left).collect::<Vec<_>>(), [7, 4]);
        assert_eq!(one.record.as_of, Some(5));
        let again = one.clone();
        ledger.settle(&mut one);
        assert_eq!(one, again);
        let mut own = sheet(None);
        ledger.settle(&mut own);
        assert_eq!(own, sheet(None), "counts without a number are the owner's own");
        let on = ledger.on_page("walk", "title");
        assert_eq!(
            on.iter().map(|(chip, count)| (chip.to_string(), *count)).collect::<Vec<_>>(),
            [("kelp/A".to_owned(), 1), ("other/E".to_owned(), 1)]
        );
        let mut lifted = ledger;
        let number = lifted.last() + 1;
        let all = deed(Kind::Lifted, &[("other/E", 1)]);
        lifted.push(Entry { number, date: "2031-11-06".into(), deed: all, had: BTreeMap::new() });
        assert!(lifted.on_page("walk", "title").is_empty(), "all of it came off");
    }

    #[test]
    fn fewer_than_none_is_none_and_is_told() {
        let ledger = ledger(&[deed(Kind::Stuck, &[("kelp/A", 5)])]);
        let mut one = sheet(Some(0));
        assert_eq!(ledger.settle(&mut one).len(), 1);
        assert_eq!(one.letters[0].left, 0);
    }

    #[test]
    fn what_the_stash_lacks_is_refused_by_name() {
        let stash = Stash::new(vec![sheet(None)]);
        let refused = deed(Kind::Stuck, &[("kelp/A", 4)]).check(&stash).unwrap_err();
        assert_eq!(refused.to_string(), "the stash has too few letters: kelp/A: 4 asked for, 3 left");
        assert!(deed(Kind::Stuck, &[("weed/A", 3)]).check(&stash).is_ok());
        assert!(matches!(deed(Kind::Added, &[("kelp/A", 997)]).check(&stash), Err(Refusal::TooMany(_))));
        assert!(matches!(deed(Kind::Added, &[("moss/A", 1)]).check(&stash), Err(Refusal::NoSheet(_))));
        assert_eq!(deed(Kind::Added, &[]).check(&stash), Err(Refusal::Nothing));
    }
}
