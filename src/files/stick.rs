//! Sticking a strip's letters down, and lifting them.
//!
//! The ledger and the sheets first, then the plan is marked. Must not know screens or clocks.

use std::collections::BTreeMap;

use crate::measure::ColourNames;
use crate::plan::Plan;
use crate::stash::{ChipId, Deed, Entry, Kind, Ledger, Refusal, Stash};
use crate::title::{Edit, Stood, Strip};

use super::folder::StashFolder;
use super::load::Loaded;
use super::lock::StashLock;
use super::page_plans::PlanFile;
use super::record::{RecordError, deed_of};

/// What comes off a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lift<'a> {
    /// All letters of the strip, whole.
    All,
    /// The letters in these slots, from 0, whole.
    Whole(&'a [usize]),
    /// The letters in these slots, from 0; they are spent.
    Torn(&'a [usize]),
}

impl StashFolder {
    /// Sticks down the letters of one strip of `plan` that are not down yet, and marks the plan, which is saved. `None`,
    /// and nothing happens, where all of them are down already. What was recorded of the plan and could not be marked is only
    /// marked: to do it again counts nothing twice.
    ///
    /// # Errors
    /// When the stash lacks a letter, or a file cannot be read or written.
    pub fn stick(
        &self,
        lock: &StashLock,
        (file, plan, place): (&PlanFile, &Plan, usize),
        date: &str,
        colours: &ColourNames,
    ) -> Result<Option<Plan>, RecordError> {
        let loaded = self.load()?;
        let page = &self.page_name(file);
        let caught_up = caught_up(plan, page, &loaded);
        let plan = caught_up.as_ref().unwrap_or(plan);
        let Some(strip) = plan.strips().get(place) else { return Ok(None) };
        let chips = counted(strip.spoken_for());
        let things = (0..strip.len()).any(|slot| strip.letter(slot).is_some() && !strip.is_down(slot));
        if chips.is_empty() && !things {
            return self.keep_caught_up(file, caught_up, colours);
        }
        let role = strip.role().as_str();
        let is_recorded = !chips.is_empty();
        let number = if chips.is_empty() {
            // Only things by hand: nothing is taken off the stash, and the strip is on the page all the same. All that was
            // told of it earlier is over.
            strip.stuck.unwrap_or_else(|| loaded.ledger.last())
        } else {
            self.record_on(lock, loaded, (&[], deed_of(Kind::Stuck, page, role, &[], chips)), date)?
        };
        let marked = marked(plan, place, number);
        self.save_marked(file, &marked, colours, is_recorded.then_some(number))?;
        Ok(Some(marked))
    }

    /// Takes letters of one strip off the page, and marks the plan, which is saved: slots of single letters that came off
    /// are empty then. `None`, and nothing happens, where none of them is down.
    ///
    /// # Errors
    /// When a file cannot be read or written.
    pub fn lift(
        &self,
        lock: &StashLock,
        (file, plan, place): (&PlanFile, &Plan, usize),
        lift: Lift<'_>,
        date: &str,
        colours: &ColourNames,
    ) -> Result<Option<Plan>, RecordError> {
        let loaded = self.load()?;
        let page = &self.page_name(file);
        let caught_up = caught_up(plan, page, &loaded);
        let plan = caught_up.as_ref().unwrap_or(plan);
        let Some(strip) = plan.strips().get(place) else { return Ok(None) };
        let all: Vec<usize> = (0..strip.len()).collect();
        let (kind, slots, told): (Kind, &[usize], &[usize]) = match lift {
            Lift::All => (Kind::Lifted, &all, &[]),
            Lift::Whole(slots) => (Kind::Lifted, slots, slots),
            Lift::Torn(slots) => (Kind::Torn, slots, slots),
        };
        let down: Vec<usize> = slots.iter().copied().filter(|&slot| strip.is_down(slot)).collect();
        if down.is_empty() {
            return self.keep_caught_up(file, caught_up, colours);
        }
        let chips = counted(down.iter().filter_map(|&slot| strip.letter(slot)?.chip()));
        let is_recorded = !chips.is_empty();
        let number = if chips.is_empty() {
            strip.stuck.unwrap_or(0)
        } else {
            let deed = deed_of(kind, page, strip.role().as_str(), told, chips);
            self.record_on(lock, loaded, (&[], deed), date)?
        };
        let lifted = if told.is_empty() { freed(plan, place) } else { emptied(plan, place, &down, number) };
        self.save_marked(file, &lifted, colours, is_recorded.then_some(number))?;
        Ok(Some(lifted))
    }

    /// Saves a plan that was only behind the ledger, if it was.
    fn keep_caught_up(
        &self,
        file: &PlanFile,
        caught_up: Option<Plan>,
        colours: &ColourNames,
    ) -> Result<Option<Plan>, RecordError> {
        if let Some(plan) = &caught_up {
            self.save_plan(file, plan, colours)?;
        }
        Ok(caught_up)
    }

    /// Saves a plan after what became of it was recorded as that entry, if it was.
    fn save_marked(
        &self,
        file: &PlanFile,
        plan: &Plan,
        colours: &ColourNames,
        recorded: Option<u32>,
    ) -> Result<(), RecordError> {
        self.save_plan(file, plan, colours).map_err(|error| match recorded {
            Some(number) => RecordError::Unfinished(number, error),
            None => error.into(),
        })
    }
}

/// Checks that `stash` has what the strips at `places` of `plan` take together: strip by strip some of them could be stuck
/// down when the next is refused.
///
/// # Errors
/// When the stash has too few of a letter, or lacks a sheet.
pub fn check_together(stash: &Stash, plan: &Plan, places: &[usize]) -> Result<(), Refusal> {
    let strips = places.iter().filter_map(|&place| plan.strips().get(place));
    let chips = counted(strips.flat_map(Strip::spoken_for));
    if chips.is_empty() { Ok(()) } else { Deed { kind: Kind::Stuck, of: None, chips }.check(stash) }
}

/// How often each chip stands.
pub(super) fn counted<'a>(chips: impl Iterator<Item = &'a ChipId>) -> BTreeMap<ChipId, i32> {
    let mut counts = BTreeMap::new();
    for chip in chips {
        *counts.entry(chip.clone()).or_default() += 1;
    }
    counts
}

/// `plan` with all letters of one strip stuck down as of an entry.
fn marked(plan: &Plan, place: usize, number: u32) -> Plan {
    changed(plan, place, Some(number), |_, stood| Some(Stood { loose: false, ..stood.clone() }))
}

/// `plan` with no letter of one strip stuck down.
fn freed(plan: &Plan, place: usize) -> Plan {
    changed(plan, place, None, |_, stood| Some(Stood { loose: false, ..stood.clone() }))
}

/// `plan` with these slots of one strip empty, the rest stuck down as of an entry.
fn emptied(plan: &Plan, place: usize, slots: &[usize], number: u32) -> Plan {
    let strip = &plan.strips()[place];
    let some = (0..strip.len()).any(|slot| strip.is_down(slot) && !slots.contains(&slot));
    changed(plan, place, some.then_some(number), |slot, stood| {
        (!slots.contains(&slot)).then(|| Stood { loose: stood.loose && some, ..stood.clone() })
    })
}

fn changed(
    plan: &Plan,
    place: usize,
    stuck: Option<u32>,
    letter: impl Fn(usize, &Stood) -> Option<Stood>,
) -> Plan {
    let mut plan = plan.clone();
    let strip = plan.strips()[place].clone();
    for (slot, stood) in strip.letters().iter().enumerate() {
        if let Some(stood) = stood {
            plan.edit_strip(place, Edit::Letter { slot, stood: letter(slot, stood) });
        }
    }
    plan.edit_strip(place, Edit::Stuck(stuck));
    plan
}

/// `plan`, called `page`, as the ledger has it; `None` where it is so already, or where the ledger is damaged.
fn caught_up(plan: &Plan, page: &str, loaded: &Loaded) -> Option<Plan> {
    if loaded.is_ledger_damaged { None } else { brought_up(plan, page, &loaded.ledger, &loaded.stash) }
}

/// `plan`, called `page`, as the ledger has it; `None` where it is so already. A strip that was stuck down under another
/// name of its plan is left as it is, and so is one that has other letters than the ledger tells of: that is another plan
/// of an old name, or was changed by hand.
pub(super) fn brought_up(plan: &Plan, page: &str, ledger: &Ledger, stash: &Stash) -> Option<Plan> {
    let mut now = plan.clone();
    for (place, strip) in plan.strips().iter().enumerate() {
        let role = strip.role().as_str();
        // A strip that is not stuck down includes all up to the last time when nothing of it was on the page.
        let included = strip.stuck.unwrap_or_else(|| ledger.last_off(page, role));
        for entry in ledger.about(page, role).filter(|entry| entry.number > included) {
            now = with_entry(&now, place, entry, stash);
        }
    }
    (now != *plan).then_some(now)
}

/// `plan` with what an entry did to one of its strips.
fn with_entry(plan: &Plan, place: usize, entry: &Entry, stash: &Stash) -> Plan {
    let strip = &plan.strips()[place];
    let slots = entry.deed.of.iter().flat_map(|of| &of.slots);
    let slots: Vec<usize> = slots.filter_map(|&slot| usize::try_from(slot).ok()?.checked_sub(1)).collect();
    let told = stash.by_present_names(&entry.deed.chips);
    let present = |chips: BTreeMap<ChipId, i32>| stash.by_present_names(&chips);
    let down = |slots: &[usize]| {
        let down = slots.iter().filter(|&&slot| strip.is_down(slot));
        present(counted(down.filter_map(|&slot| strip.letter(slot)?.chip())))
    };
    match entry.deed.kind {
        Kind::Stuck if present(counted(strip.spoken_for())) == told => marked(plan, place, entry.number),
        Kind::Stuck => {
            let down = down(&(0..strip.len()).collect::<Vec<_>>());
            // They are down already, by an entry that had another number then.
            if !told.is_empty()
                && told.iter().all(|(chip, count)| down.get(chip).is_some_and(|there| there >= count))
            {
                changed(plan, place, Some(entry.number), |_, stood| Some(stood.clone()))
            } else {
                plan.clone()
            }
        }
        Kind::Lifted | Kind::Torn if slots.is_empty() => freed(plan, place),
        Kind::Lifted | Kind::Torn if down(&slots) == told => emptied(plan, place, &slots, entry.number),
        Kind::Lifted | Kind::Torn | Kind::Added | Kind::Counted => plan.clone(),
    }
}
