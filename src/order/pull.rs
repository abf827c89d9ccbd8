//! What to take off the sheets, so that each sheet is handled once.
//!
//! Must not know where the letters go.

use std::collections::{BTreeMap, HashMap};

use crate::letter::{Character, StandInKind};
use crate::measure::Tint;
use crate::plan::{Plan, Spoken};
use crate::stash::{ChipIx, Form, Mark, SheetId, Stash};
use crate::title::Sticker;

use super::sheet_name::SheetName;
use super::{StripOrder, Used};

/// What to take off one sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pull {
    /// The sheet.
    pub sheet: SheetName,
    /// How its stickers are made.
    pub form: Form,
    /// What to take, in the sheet's own order.
    pub letters: Vec<PulledLetter>,
}

/// Letters of one kind to take off a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PulledLetter {
    /// The character on it.
    pub character: Character,
    /// Tells it from others of that character.
    pub mark: Option<Mark>,
    /// Its colours, the main one first.
    pub colours: Vec<Tint>,
    /// How many to take.
    pub count: u16,
    /// How many of them are trimmed before they are pulled.
    pub trimmed: u16,
    /// How many the sheet has; fewer than `count` where the plan uses one twice.
    pub left: u16,
}

/// What the open strips of `plan` need, sheet by sheet.
pub(super) fn pulls(plan: &Plan, stash: &Stash) -> Vec<Pull> {
    let spoken = Spoken::by(plan, stash);
    let in_order: BTreeMap<_, _> = spoken.iter().collect();
    let trimmed = trimmed(plan, stash);
    let mut pulls: Vec<Pull> = Vec::new();
    for (ix, count) in in_order {
        let chip = stash.chip(ix);
        let letter = PulledLetter {
            character: chip.letter.character.clone(),
            mark: chip.letter.mark.clone(),
            colours: chip.colours().to_vec(),
            count,
            trimmed: trimmed.get(&ix).copied().unwrap_or(0),
            left: chip.letter.left,
        };
        match pulls.last_mut() {
            Some(pull) if pull.sheet.id == chip.sheet.id => pull.letters.push(letter),
            _ => pulls.push(Pull {
                sheet: SheetName::of(chip.sheet),
                form: chip.sheet.make.form,
                letters: vec![letter],
            }),
        }
    }
    pulls.sort_by_cached_key(|pull| pull.sheet.rank());
    pulls
}

/// How many of each letter are trimmed for `plan`, those that are stuck down left out.
fn trimmed(plan: &Plan, stash: &Stash) -> HashMap<ChipIx, u16> {
    let slots = plan.strips().iter().flat_map(|strip| (0..strip.len()).map(move |slot| (strip, slot)));
    let open = slots.filter(|(strip, slot)| !strip.is_down(*slot));
    let stood = open.filter_map(|(strip, slot)| strip.letter(slot));
    let mut trimmed = HashMap::new();
    for stood in stood {
        if let Sticker::Chip { id, stands_in: Some(StandInKind::Trimmed) } = &stood.sticker
            && let Some(ix) = stash.find(id)
        {
            *trimmed.entry(ix).or_default() += 1;
        }
    }
    trimmed
}

/// Marks the sheets of an order that tag and name do not tell apart.
pub(super) fn tell_apart(pulls: &mut [Pull], strips: &mut [StripOrder]) {
    let mut sheets: Vec<&mut SheetName> = pulls.iter_mut().map(|pull| &mut pull.sheet).collect();
    let steps = strips.iter_mut().flat_map(|strip| &mut strip.steps);
    sheets.extend(steps.filter_map(|step| match &mut step.used {
        Used::Letter(letter) => Some(&mut letter.sheet),
        Used::Thing(_) | Used::Missing(_) => None,
    }));
    let mut first: HashMap<(Option<String>, String), SheetId> = HashMap::new();
    let mut alike: Vec<(Option<String>, String)> = Vec::new();
    for sheet in &sheets {
        let seen = (sheet.tag.clone(), sheet.name.clone());
        if *first.entry(seen.clone()).or_insert_with(|| sheet.id.clone()) != sheet.id {
            alike.push(seen);
        }
    }
    for sheet in sheets {
        sheet.alike = alike.iter().any(|(tag, name)| *tag == sheet.tag && *name == sheet.name);
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Order, trial};

    #[test]
    fn each_sheet_is_handled_once_by_the_figures_of_its_tag() {
        let order =
            Order::of(&trial::plan("LANE", &["kelp/L", "blocks/A", "kelp/N", "blocks/E"]), &trial::stash());
        let tags: Vec<_> = order.pulls.iter().map(|pull| pull.sheet.tag.as_deref()).collect();
        assert_eq!(tags, [Some("4"), Some("37")]);
        let kelp: Vec<_> = order.pulls[0].letters.iter().map(|letter| letter.character.as_str()).collect();
        assert_eq!(kelp, ["L", "N"]);
    }

    #[test]
    fn a_letter_used_more_often_than_left_is_short() {
        let order = Order::of(&trial::plan("NN", &["kelp/N", "kelp/N"]), &trial::stash());
        let short: Vec<_> =
            order.short().map(|(sheet, letter)| (sheet.id.as_str(), letter.count, letter.left)).collect();
        assert_eq!(short, [("kelp", 2, 1)]);
    }

    #[test]
    fn what_is_trimmed_before_it_is_pulled_is_counted() {
        let order = Order::of(&trial::plan("OQ", &["kelp/Q", "kelp/Q"]), &trial::stash());
        let letter = &order.pulls[0].letters[0];
        assert_eq!((letter.count, letter.trimmed), (2, 1));
    }

    #[test]
    fn sheets_of_one_name_are_told_apart_by_id() {
        let order = Order::of(&trial::plan("AO", &["plain-a/A", "plain-b/O"]), &trial::stash());
        assert!(order.pulls.iter().all(|pull| pull.sheet.alike));
        assert!(order.strips[0].letters().all(|letter| letter.sheet.alike));
        let order = Order::of(&trial::plan("A", &["plain-a/A"]), &trial::stash());
        assert!(order.pulls.iter().all(|pull| !pull.sheet.alike));
    }
}
