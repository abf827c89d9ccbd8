//! What is wrong with the ledger, and the ledger as mending writes it.
//!
//! Entries that can be read stay. What has to be written again gets a number above all that any sheet or plan speaks of, and
//! after it stands a count of what the sheets have, so that it changes no count. Must not know how sheets are written.

use std::collections::BTreeMap;
use std::fs;
use std::io;

use crate::files::folder::StashFolder;
use crate::files::ledger::{HIGHEST, LEDGER};
use crate::files::load::Loaded;
use crate::files::problem::Problem;
use crate::plan::Plan;
use crate::stash::{Deed, Entry, Kind, Ledger, Oddity, OfStrip, Sheet, Stash, in_order};

use super::book::{Book, Unread, Written};
use super::plans::{Lost, lost};
use super::{Ailment, Change, Look, Outlook};

/// What stands over an entry that is written again.
const AGAIN: &str = "# Written again by mending: the plan has these letters stuck down.";

/// The ledger while it is mended.
struct Mending<'a> {
    book: Book,
    /// The entries that there were, in order.
    known: Vec<Written>,
    /// Those that get another number: which they had.
    renumbered: Vec<(u32, Written)>,
    /// The highest number so far.
    top: u32,
    stash: &'a Stash,
    date: &'a str,
}

impl StashFolder {
    /// Tells what is wrong with the ledger, and writes it as it should be. Gives back what is known then.
    pub(super) fn mend_ledger(&self, loaded: &Loaded, stash: Stash, date: &str, look: &mut Look) -> Outlook {
        let path = self.path().join(LEDGER);
        let old = match fs::read(&path) {
            Ok(bytes) => Some(bytes),
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            Err(_) => {
                look.ailments.extend(loaded.problems.of_file(LEDGER).all().iter().map(Ailment::of));
                return Outlook { ledger: loaded.ledger.clone(), mended: loaded.ledger.clone(), stash };
            }
        };
        let is_blank = old.as_ref().is_none_or(|old| old.trim_ascii().is_empty());
        let speaks = loaded.speaks_of_entries().filter(|_| is_blank);
        let (book, unread) = Book::read(old.as_deref().unwrap_or_default());
        let before = look.ailments.len();
        look.ailments.extend(unread.iter().map(told_unread));
        let waiting = self.waiting().into_iter().map(|(.., number)| number).max().unwrap_or(0);
        let mut mending = Mending::begin((book, waiting), loaded, &stash, date, look);
        if loaded.is_ledger_damaged && speaks.is_none() && look.ailments.len() == before {
            look.ailments.extend(loaded.problems.of_file(LEDGER).errors().map(told_damage));
        }
        let is_damaged = look.ailments.len() > before;
        let is_grown = mending.put_back(loaded, look);
        let ledger = ledger(&mending.known);
        let is_grown = mending.add(&ledger) || is_grown;
        let is_gone = speaks.is_some() || is_grown && is_blank;
        if is_gone {
            look.ailments.insert(before, told_gone(speaks.as_deref()));
        }
        if is_damaged || is_grown || is_gone {
            look.changes.push(Change::Write(path, mending.book.text()));
        }
        let mended = self::ledger(&mending.book.entries);
        Outlook { ledger, mended, stash }
    }
}

impl<'a> Mending<'a> {
    /// Puts the entries in order; tells which were not.
    /// New numbers are above `waiting` too, which new sheets wait for.
    fn begin(
        (book, waiting): (Book, u32),
        loaded: &Loaded,
        stash: &'a Stash,
        date: &'a str,
        look: &mut Look,
    ) -> Self {
        let entries: Vec<Entry> = book.entries.iter().map(|one| one.entry.clone()).collect();
        let top = highest(&entries, loaded, stash).max(waiting);
        let order = in_order(&entries, top);
        look.ailments.extend(order.odd.iter().map(|(place, oddity)| told_odd(&entries[*place], oddity)));
        let mut mending = Self { book, known: Vec::new(), renumbered: Vec::new(), top, stash, date };
        for (place, number) in order.entries {
            let one = mending.book.entries[place].clone();
            if number == one.entry.number {
                mending.known.push(one);
            } else {
                let entry = Entry { number, had: BTreeMap::new(), ..one.entry.clone() };
                mending.renumbered.push((one.entry.number, mending.book.spelled(entry)));
                mending.top = mending.top.max(number);
            }
        }
        mending
    }

    /// Writes entries again that a plan speaks of and that are lost, under their old numbers; whether there were any. Those
    /// alone that all sheets include, so that no count changes.
    fn put_back(&mut self, loaded: &Loaded, look: &mut Look) -> bool {
        let mut any = false;
        for lost in lost(loaded, &ledger(&self.known), self.stash) {
            let is_free = self.known.iter().all(|one| one.entry.number != lost.number);
            if !is_free || !self.stash.includes(lost.number, &lost.chips) {
                continue;
            }
            look.ailments.push(told_lost(&lost));
            let of = Some(OfStrip { page: lost.page, role: lost.role, slots: Vec::new() });
            let deed = Deed { kind: Kind::Stuck, of, chips: lost.chips };
            let entry = Entry { number: lost.number, date: self.date.to_owned(), deed, had: BTreeMap::new() };
            let mut written = self.book.spelled(entry);
            written.text = format!("{AGAIN}\n{}", written.text.trim_start());
            self.known.push(written);
            any = true;
        }
        self.known.sort_by_key(|one| one.entry.number);
        any
    }

    /// Puts all of the entries into the book, and counts after them what has to stay as it is; whether there are more than
    /// those that are `known`.
    fn add(&mut self, known: &Ledger) -> bool {
        let settled = settled(self.stash, known);
        let mut counts = BTreeMap::new();
        let mut anew = Vec::new();
        for (was, written) in std::mem::take(&mut self.renumbered) {
            counts.append(&mut settled.counts_with(was, &written.entry.deed.chips));
            anew.push(written);
        }
        let again = Deed { kind: Kind::Counted, of: None, chips: counts };
        let outrun = self.stash.sheets().iter().filter(|sheet| known.is_outrun_by(sheet) && has_place(sheet));
        for deed in std::iter::once(again).chain(outrun.map(Deed::as_it_is)) {
            if !deed.chips.is_empty() {
                self.top += 1;
                let had = settled.counts(&deed.chips);
                let entry = Entry { number: self.top, date: self.date.to_owned(), deed, had };
                anew.push(self.book.spelled(entry));
            }
        }
        self.book.entries = std::mem::take(&mut self.known);
        let grows = !anew.is_empty();
        self.book.entries.append(&mut anew);
        grows
    }
}

fn ledger(written: &[Written]) -> Ledger {
    Ledger::new(written.iter().map(|one| one.entry.clone()).collect())
}

/// The sheets with all counts as `ledger` leaves them, and the numbers that their files have.
fn settled(stash: &Stash, ledger: &Ledger) -> Stash {
    let settle = |sheet: &Sheet| {
        let mut now = sheet.clone();
        ledger.settle(&mut now);
        now.record = sheet.record.clone();
        now
    };
    Stash::new(stash.sheets().iter().map(settle).collect())
}

/// The highest number that the ledger, a sheet or a plan speaks of.
fn highest(entries: &[Entry], loaded: &Loaded, stash: &Stash) -> u32 {
    let entries = entries.iter().map(|entry| entry.number);
    let sheets = stash.sheets().iter().filter_map(|sheet| sheet.record.as_of);
    let plans = loaded.plans.iter().filter_map(|entry| entry.plan.as_ref());
    let strips = plans.flat_map(Plan::strips).filter_map(|strip| strip.stuck);
    entries.chain(sheets).chain(strips).filter(|&number| number <= HIGHEST).max().unwrap_or(0)
}

/// Whether there are numbers left above the one that a sheet speaks of.
pub(super) fn has_place(sheet: &Sheet) -> bool {
    sheet.record.as_of.is_none_or(|as_of| as_of <= HIGHEST)
}

fn told_gone(speaks: Option<&str>) -> Ailment {
    let speaks = speaks.unwrap_or("sheets or plans speak of its entries");
    let what = format!("it is gone, or empty, though {speaks}");
    let will =
        "begins a new one, and all counts stay as they are; if you have the file still, put it back first";
    Ailment::mended(LEDGER, &what, will)
}

fn told_unread(unread: &Unread) -> Ailment {
    let what = format!("here is what cannot be read: {}", unread.why);
    let will = if unread.is_saved {
        "keeps the entry without what cannot be read"
    } else {
        "leaves this out; all counts in the sheets stay as they are"
    };
    Ailment { place: Some((unread.line, 1)), ..Ailment::mended(LEDGER, &what, will) }
}

fn told_damage(problem: &Problem) -> Ailment {
    let ailment = Ailment::mended(LEDGER, &problem.message, "writes anew what can be read");
    Ailment { place: Some((problem.line, problem.column)), ..ailment }
}

fn told_odd(entry: &Entry, oddity: &Oddity) -> Ailment {
    let number = entry.number;
    let (what, will) = match oddity {
        Oddity::Twice => {
            (format!("entry {number} stands here twice"), "leaves one of the two out".to_owned())
        }
        Oddity::SameNumber(anew) => (
            format!("two entries that differ have the number {number}"),
            format!(
                "gives the later one the number {anew}; counts that include {number} stay as they are: see whether they are right"
            ),
        ),
        Oddity::After(last) => {
            (format!("entry {number} stands after entry {last}"), "puts them in order".to_owned())
        }
    };
    Ailment::mended(LEDGER, &what, &will)
}

fn told_lost(lost: &Lost) -> Ailment {
    let Lost { role, number, .. } = lost;
    let what = format!("its {role} is stuck down by entry {number}, which the ledger does not have");
    let will = "writes the entry again, with this day; all counts stay as they are";
    Ailment::mended(&lost.file, &what, will)
}
