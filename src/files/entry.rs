//! Reads what stands in the slots of a strip, and puts it there, also where the wording was changed by hand since.
//!
//! Must not know the rest of the strip's keys.

use crate::letter::{Character, StandInKind};
use crate::stash::{ChipId, Stash};
use crate::title::{ByHand, Sticker, Stood, Strip, Wording};

use super::reader::Keys;
use crate::words::nearest;

const KNOWN: &[&str] = &[
    "slot", "for", "chip", "nudge", "raise", "tilt", "pinned", "loose", "as", "by", "label", "width",
    "height", "colour",
];
const KNOWN_BY_HAND: &[&str] = &["label", "width", "height", "colour"];

/// One `[[strip.letter]]`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Entry {
    /// The slot as the file counts it, from 1.
    pub(super) slot: usize,
    /// What the wording asked there.
    pub(super) asked: Option<Character>,
    pub(super) stood: Stood,
    /// Where the entry's slot is told in the file.
    at: usize,
}

/// The entries of a strip in the file's order; those with an error are told and left out.
pub(super) fn read(strip: Keys<'_>, wording: Option<&Wording>, stash: Option<&Stash>) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    for keys in strip.tables("letter") {
        let Some(entry) = one(keys, stash) else { continue };
        if let Some(earlier) = entries.iter().find(|earlier| earlier.slot == entry.slot) {
            let (line, _) = keys.source.place(earlier.at);
            keys.error(
                entry.at,
                "slot",
                format!("slot {} is filled on line {line} already; keep one of the two", entry.slot),
            );
        }
        if let Some(wording) = wording
            && entry.asked.is_none()
            && entry.slot > wording.len()
        {
            let message =
                format!("slot {} is beyond the wording, which has {} letters", entry.slot, wording.len());
            keys.error(entry.at, "slot", message);
        }
        entries.push(entry);
    }
    entries
}

fn one(keys: Keys<'_>, stash: Option<&Stash>) -> Option<Entry> {
    keys.know(KNOWN);
    keys.require("slot", "slot = 1, counted from the left");
    let most = u32::try_from(Wording::MOST).unwrap_or(u32::MAX);
    let slot = keys.count("slot", 1..=most);
    let asked = keys.read("for", |found| Character::new(found.text()?).map_err(|error| error.to_string()));
    let sticker = if keys.has("by") { by_hand(keys) } else { chip(keys, stash) };
    let [nudge, raise] = ["nudge", "raise"].map(|key| keys.offset(key).unwrap_or_default());
    let tilt = keys.angle("tilt").unwrap_or_default();
    let [pinned, loose] = ["pinned", "loose"].map(|key| keys.flag(key).unwrap_or(false));
    let stood = Stood { sticker: sticker?, nudge, raise, tilt, pinned, loose };
    Some(Entry { slot: slot? as usize, asked, stood, at: keys.place_of("slot") })
}

fn chip(keys: Keys<'_>, stash: Option<&Stash>) -> Option<Sticker> {
    keys.require("chip", "chip = \"sheet/letter\", or by = \"hand\" for a thing that is no sticker");
    for key in KNOWN_BY_HAND.iter().filter(|key| keys.has(key)) {
        keys.warn(
            keys.place_of(key),
            key,
            "this is told of things that are by = \"hand\" and says nothing here".into(),
        );
    }
    let id = keys.read("chip", |found| ChipId::parse(found.text()?).map_err(|error| error.to_string()));
    let stands_in = keys.word("as", StandInKind::ALL, StandInKind::as_str);
    if let (Some(id), Some(stash)) = (&id, stash)
        && let Some(message) = lacks(stash, id)
    {
        keys.warn(keys.place_of("chip"), "chip", message);
    }
    Some(Sticker::Chip { id: id?, stands_in })
}

/// What the stash lacks of a chip; the letter stays in its slot all the same.
fn lacks(stash: &Stash, id: &ChipId) -> Option<String> {
    if stash.find(id).is_some() {
        return None;
    }
    let Some(sheet) = stash.sheet(&id.sheet) else {
        let ids = stash.sheets().iter().map(|sheet| sheet.id.as_str());
        let hint = nearest(id.sheet.as_str(), ids)
            .map_or_else(String::new, |near| format!("; did you mean {near}?"));
        return Some(format!(
            "the stash has no sheet {:?} that can be used; the slot shows as missing{hint}",
            id.sheet.as_str()
        ));
    };
    let marks: Vec<String> = sheet
        .letters
        .iter()
        .filter(|letter| letter.character == id.character)
        .map(|letter| {
            letter
                .mark
                .as_ref()
                .map_or_else(|| "one without a mark".into(), |mark| format!(":{}", mark.as_str()))
        })
        .collect();
    let has = if marks.is_empty() { String::new() } else { format!("; it has {}", marks.join(", ")) };
    Some(format!("the sheet has no such letter as {:?}; the slot shows as missing{has}", id.to_string()))
}

fn by_hand(keys: Keys<'_>) -> Option<Sticker> {
    keys.read("by", |found| match found.text()? {
        "hand" => Ok(()),
        other => {
            Err(format!("{other:?} is no way to fill a slot; write by = \"hand\", or name a chip instead"))
        }
    });
    for key in ["chip", "as"].iter().filter(|key| keys.has(key)) {
        keys.error(
            keys.place_of(key),
            key,
            "a slot holds a chip or a thing by = \"hand\", not both; keep one".into(),
        );
    }
    keys.require("label", "label = \"button\" or what it is");
    keys.require("width", "width = \"18 mm\" or as measured");
    let label = keys.text("label").map(str::to_owned);
    let (width, height, colour) = (keys.size("width"), keys.size("height"), keys.tint("colour"));
    Some(Sticker::Hand(ByHand { label: label?, width: width?, height, colour }))
}

/// Stands every entry on the strip: in its slot, or, where the wording was changed by hand, where it still serves.
pub(super) fn stand(keys: Keys<'_>, strip: &mut Strip, entries: &[Entry]) {
    let asks = |slot: usize| strip.wording().slots().get(slot - 1).map(|asked| asked.character.clone());
    let fits = |entry: &Entry| entry.asked.is_none() || entry.asked == asks(entry.slot);
    if entries.iter().all(fits) {
        for entry in entries {
            strip.put(entry.slot - 1, Some(entry.stood.clone()));
        }
        return;
    }
    let mut ordered: Vec<&Entry> = entries.iter().collect();
    ordered.sort_by_key(|entry| entry.slot);
    ordered.retain(|entry| entry.asked.is_some() || asks(entry.slot).is_some());
    let old: Vec<Character> =
        ordered.iter().filter_map(|entry| entry.asked.clone().or_else(|| asks(entry.slot))).collect();
    let kept = strip.wording().kept_from(&old);
    for (place, entry) in ordered.iter().enumerate() {
        let slot = kept.iter().position(|kept| *kept == Some(place));
        if slot != Some(entry.slot - 1) {
            keys.warn(entry.at, "letter.slot", moved(&old[place], entry.slot, slot));
        }
        if let Some(slot) = slot {
            strip.put(slot, Some(entry.stood.clone()));
        }
    }
}

/// What became of a letter that the wording no longer asks for in its slot.
fn moved(asked: &Character, was: usize, slot: Option<usize>) -> String {
    let asked = asked.as_str();
    match slot {
        Some(slot) => format!(
            "the wording was changed: this letter for {asked:?} stands in slot {} now, not {was}",
            slot + 1
        ),
        None => format!(
            "the wording was changed: nothing asks for {asked:?} in slot {was} now, so its letter is left off"
        ),
    }
}
