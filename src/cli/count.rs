//! `oddment count SHEET LETTERS`: counts letters in, out or anew.
//!
//! Must not know how a count is kept.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::letter::{Character, characters};
use crate::stash::{ChipId, Deed, Kind, Mark, Stash};

use super::args::{Args, Count};
use super::opened::writer;
use super::say::{Fault, answer_json, answer_words, refused};
use super::sheet_called::sheet_called;
use super::today::today;

#[derive(Serialize)]
struct Answer {
    format: u32,
    sheet: String,
    /// The ledger's.
    entry: u32,
    letters: Vec<LetterAnswer>,
}

#[derive(Serialize)]
struct LetterAnswer {
    chip: String,
    was: u16,
    left: u16,
}

pub(super) fn run(args: &Args, count: &Count) -> Result<ExitCode> {
    let folder = args.folder()?;
    let (lock, loaded) = writer(&folder)?;
    let sheet = sheet_called(&loaded, &count.sheet)?.id.clone();
    let mark = count.mark.as_deref().map(Mark::new).transpose();
    let mark = mark.map_err(|error| Fault::Input(format!("--mark: {error}")))?;
    let mut chips: BTreeMap<ChipId, i32> = BTreeMap::new();
    for text in characters(&count.letters).filter(|text| !text.trim().is_empty()) {
        let character = Character::new(text).map_err(|error| Fault::Input(format!("LETTERS: {error}")))?;
        *chips.entry(ChipId { sheet: sheet.clone(), character, mark: mark.clone() }).or_default() += 1;
    }
    let kind = if count.set { Kind::Counted } else { Kind::Added };
    if count.take {
        for count in chips.values_mut() {
            *count = -*count;
        }
    }
    let before = loaded.stash;
    let entry = match folder.record(&lock, Deed { kind, of: None, chips: chips.clone() }, &today()) {
        Ok(entry) => entry,
        Err(error) => return refused(error),
    };
    let after = folder.load()?.stash;
    let left = |stash: &Stash, chip: &ChipId| stash.find(chip).map_or(0, |ix| stash.chip(ix).letter.left);
    let letters = chips.keys().map(|chip| LetterAnswer {
        chip: chip.to_string(),
        was: left(&before, chip),
        left: left(&after, chip),
    });
    let answer = Answer { format: 1, sheet: sheet.to_string(), entry, letters: letters.collect() };
    if args.json {
        answer_json(&answer)?;
    } else {
        let mut text = String::new();
        for letter in &answer.letters {
            let _ = writeln!(text, "{:<28} {:>3} left, {} before", letter.chip, letter.left, letter.was);
        }
        let _ = writeln!(text, "entry {entry} of the ledger");
        answer_words(&text)?;
    }
    Ok(ExitCode::SUCCESS)
}
