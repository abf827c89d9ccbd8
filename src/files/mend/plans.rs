//! What is wrong between plans and the ledger, and between plans and the sheets.
//!
//! What lies on a page only its owner can see. Must not know how the ledger is mended.

use std::collections::BTreeMap;
use std::fs;

use crate::files::folder::StashFolder;
use crate::files::load::{Loaded, PlanEntry};
use crate::files::save::write_plan;
use crate::files::stick::{brought_up, counted};
use crate::plan::Plan;
use crate::stash::{ChipId, Ledger, Stash};
use crate::title::Strip;

use super::{Ailment, Change, Look, Outlook};

/// A strip that is stuck down by an entry that the ledger does not have.
#[derive(Debug)]
pub(super) struct Lost {
    /// The plan's file, as problems call it.
    pub(super) file: String,
    pub(super) page: String,
    pub(super) role: String,
    pub(super) number: u32,
    /// Its letters that are down.
    pub(super) chips: BTreeMap<ChipId, i32>,
}

/// The strips that are stuck down by an entry that `ledger` does not have.
pub(super) fn lost(loaded: &Loaded, ledger: &Ledger, stash: &Stash) -> Vec<Lost> {
    let mut lost = Vec::new();
    for (entry, plan) in readable(loaded) {
        for strip in plan.strips() {
            let (Some(number), chips) = (strip.stuck, down(strip, stash)) else { continue };
            if !chips.is_empty() && ledger.entry(number).is_none() {
                let page = entry.file.slug().to_string();
                let name = entry.file.path().file_name().unwrap_or_default().to_string_lossy();
                let file = format!("pages/{name}");
                lost.push(Lost { file, page, role: strip.role().to_string(), number, chips });
            }
        }
    }
    lost
}

impl StashFolder {
    /// Tells what is wrong with the plans that can be read, and what their files become.
    pub(super) fn mend_plans(&self, loaded: &Loaded, outlook: &Outlook, look: &mut Look) {
        for (entry, plan) in readable(loaded) {
            let file = self.called(entry.file.path());
            let page = entry.file.slug().as_str();
            let now = brought_up(plan, page, &outlook.mended, &outlook.stash);
            if let Some(now) = &now
                && let Ok(old) = fs::read_to_string(entry.file.path())
                && let Ok(text) = write_plan(&old, now, &loaded.colours)
            {
                let what = "it does not say all that the ledger has of what is stuck down on it";
                look.ailments.push(Ailment::mended(&file, what, "marks in it what is stuck down"));
                look.changes.push(Change::Write(entry.file.path().to_owned(), text));
            }
            for (place, strip) in plan.strips().iter().enumerate() {
                let is_loose = now.as_ref().unwrap_or(plan).strips()[place].stuck.is_none();
                let other = if is_loose { other_letters(strip, page, outlook) } else { None };
                look.ailments.extend(other.map(|(what, how)| Ailment::by_hand(&file, &what, &how)));
                let told = missing(strip, &outlook.stash, loaded)
                    .into_iter()
                    .chain(stranger(strip, page, loaded, outlook));
                look.ailments.extend(told.map(|(what, how)| Ailment::by_hand(&file, &what, &how)));
            }
        }
    }
}

fn readable(loaded: &Loaded) -> impl Iterator<Item = (&PlanEntry, &Plan)> {
    loaded.plans.iter().filter_map(|entry| Some((entry, entry.plan.as_ref()?)))
}

/// The letters of a strip that are stuck down, by their sheets' present names.
fn down(strip: &Strip, stash: &Stash) -> BTreeMap<ChipId, i32> {
    let down = (0..strip.len()).filter(|&slot| strip.is_down(slot));
    stash.by_present_names(&counted(down.filter_map(|slot| strip.letter(slot)?.chip())))
}

/// Letters of a strip that are not down and that no sheet has. Of a sheet whose file has errors nobody knows, and its errors
/// are told.
fn missing(strip: &Strip, stash: &Stash, loaded: &Loaded) -> Option<(String, String)> {
    let is_broken = |chip: &ChipId| {
        let file = format!("sheets/{}.toml", chip.sheet);
        stash.sheet(&chip.sheet).is_none() && loaded.problems.errors().any(|problem| problem.file == file)
    };
    let loose = (0..strip.len()).filter(|&slot| !strip.is_down(slot));
    let chips = loose.filter_map(|slot| strip.letter(slot)?.chip());
    let gone: Vec<String> = chips
        .filter(|chip| stash.find(chip).is_none() && !is_broken(chip))
        .map(ToString::to_string)
        .collect();
    let what = format!("its {} has letters that no sheet has: {}", strip.role(), gone.join(", "));
    let how =
        "swap in others, or bring the sheet back; a sheet whose file was renamed tells its old name in was";
    (!gone.is_empty()).then(|| (what, how.to_owned()))
}

/// What the ledger says is stuck down by a strip that stays loose: its letters are others.
fn other_letters(strip: &Strip, page: &str, outlook: &Outlook) -> Option<(String, String)> {
    let on = outlook.mended.on_page(page, strip.role().as_str());
    let what = format!(
        "by the ledger its {} has {} stuck down, and other letters stand in it",
        strip.role(),
        told(&outlook.stash.by_present_names(&on))
    );
    let how = format!(
        "if it is another page than {page} was, give its file another name; if it is that page, write into it what is there, and \
         mending marks it"
    );
    (!on.is_empty()).then_some((what, how))
}

/// What a strip says is stuck down, and the ledger does not.
fn stranger(strip: &Strip, page: &str, loaded: &Loaded, outlook: &Outlook) -> Option<(String, String)> {
    let (role, number, chips) = (strip.role(), strip.stuck?, down(strip, &outlook.stash));
    if chips.is_empty() {
        return None;
    }
    let anew = format!(
        "if they are on the page, `oddment lift {page} --strip {role}` and `oddment stick {page} --strip {role}` write that down \
         anew; if not, take the line stuck = {number} out"
    );
    let Some(entry) = outlook.mended.entry(number) else {
        return Some((
            format!("its {role} is stuck down by entry {number}, which the ledger does not have"),
            anew,
        ));
    };
    let Some(of) = entry.deed.of.as_ref() else {
        return Some((
            format!("its {role} is stuck down by entry {number}, which sticks nothing down"),
            anew,
        ));
    };
    if of.page != page {
        // Under another name of its plan it is one and the same strip; beside that plan it is a copy.
        let is_there = loaded.plans.iter().any(|entry| entry.file.slug().as_str() == of.page);
        let what = format!("its {role} is stuck down by entry {number}, which is about {}", of.page);
        let how = format!("if it is a copy of {}, take the line stuck = {number} out of it", of.page);
        return is_there.then_some((what, how));
    }
    let known = outlook.stash.by_present_names(&outlook.mended.on_page(page, &of.role));
    (known != chips).then(|| {
        let what = format!(
            "its {role} has other letters stuck down than the ledger: {}; the ledger has {}",
            told(&chips),
            told(&known)
        );
        let how = format!(
            "look at the page. Where the plan is wrong, write into it what is there. Where it is right, `oddment lift {page} --strip \
             {role}` and `oddment stick {page} --strip {role}` write it down anew; then see whether the sheets count right"
        );
        (what, how)
    })
}

fn told(chips: &BTreeMap<ChipId, i32>) -> String {
    if chips.is_empty() {
        return "none".into();
    }
    let told = chips
        .iter()
        .map(|(chip, count)| if *count == 1 { chip.to_string() } else { format!("{chip} x {count}") });
    told.collect::<Vec<_>>().join(", ")
}
