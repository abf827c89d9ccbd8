//! `oddment take-in FILE`: takes a table of letters into the stash, all of it or nothing.
//!
//! Must not know the table's columns or how a count is kept.

use std::fmt::Write;
use std::fs;
use std::io::{self, Read};
use std::path::Path;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::files::{CsvFaults, FilesError, Intake, Loaded, escaped, read_csv};
use crate::stash::{ChipId, Sheet, Stash};

use super::args::{Args, TakeIn};
use super::opened::writer;
use super::say::{Fault, answer_json, answer_words, refused, say_beside, so_many};
use super::today::today;

#[derive(Serialize)]
struct Answer {
    format: u32,
    /// The ledger's; null where nothing was taken in.
    entry: Option<u32>,
    /// New sheets in the order of the table, then those that were there.
    sheets: Vec<SheetAnswer>,
}

#[derive(Serialize)]
struct SheetAnswer {
    id: String,
    name: String,
    new: bool,
    letters: Vec<LetterAnswer>,
}

#[derive(Serialize)]
struct LetterAnswer {
    chip: String,
    /// Null on a new sheet.
    was: Option<u16>,
    left: u16,
}

impl SheetAnswer {
    fn is_as_it_was(&self) -> bool {
        !self.new && self.letters.iter().all(|letter| letter.was == Some(letter.left))
    }
}

pub(super) fn run(args: &Args, take: &TakeIn) -> Result<ExitCode> {
    let (called, text) = read(&take.file)?;
    let folder = args.folder()?;
    // Looked at before anything is touched: a table with a mistake in it leaves the folder as it is.
    let loaded = folder.load()?;
    let intake = read_csv(&called, &text, &loaded).map_err(|faults| told(&faults))?;
    if intake.is_empty() {
        say_beside(&format!("{called} holds no letter; there is nothing to take in"))?;
        return Ok(ExitCode::from(1));
    }
    if take.only_tell {
        return say(args, None, &intake, &loaded.stash);
    }
    let (lock, loaded): (_, Loaded) = writer(&folder)?;
    let intake = read_csv(&called, &text, &loaded).map_err(|faults| told(&faults))?;
    if intake.changes_nothing(&loaded.stash) {
        return say(args, None, &intake, &loaded.stash);
    }
    match folder.take_in(&lock, &intake.new, intake.counted.clone(), &today()) {
        Ok(entry) => say(args, Some(entry), &intake, &loaded.stash),
        Err(error) => refused(error),
    }
}

/// How messages call the table, and its text.
fn read(file: &Path) -> Result<(String, String)> {
    let is_standard = file == Path::new("-");
    let called = if is_standard { "standard input".into() } else { file.display().to_string() };
    let mut bytes = Vec::new();
    let read = if is_standard {
        io::stdin().lock().read_to_end(&mut bytes).map(|_| ())
    } else {
        fs::read(file).map(|read| bytes = read)
    };
    read.map_err(|source| {
        let is_wrong_name = matches!(source.kind(), io::ErrorKind::NotFound | io::ErrorKind::IsADirectory);
        let error = FilesError::Read { path: file.to_owned(), source };
        if is_wrong_name { Fault::Input(error.to_string()).into() } else { anyhow::Error::from(error) }
    })?;
    let text = String::from_utf8(bytes).map_err(|error| {
        let sound = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = sound.split(|byte| *byte == b'\n').count();
        let message = "here is a byte that is no UTF-8; save the table as UTF-8";
        Fault::Input(format!("{}:{line}: {message}; nothing was taken in", escaped(&called)))
    })?;
    Ok((called, text))
}

fn told(faults: &CsvFaults) -> Fault {
    Fault::Input(format!("{faults}\nnothing was taken in"))
}

fn say(args: &Args, entry: Option<u32>, intake: &Intake, before: &Stash) -> Result<ExitCode> {
    let new = intake.new.iter().map(new_sheet);
    let known = intake.counted.sheets().filter_map(|id| Some(known_sheet(before.sheet(id)?, intake, before)));
    let answer = Answer { format: 1, entry, sheets: new.chain(known).collect() };
    if args.json {
        answer_json(&answer)?;
    } else {
        answer_words(&in_words(&answer))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn new_sheet(sheet: &Sheet) -> SheetAnswer {
    let letters = sheet.letters.iter().map(|letter| {
        let (character, mark) = (letter.character.clone(), letter.mark.clone());
        let chip = ChipId { sheet: sheet.id.clone(), character, mark };
        LetterAnswer { chip: chip.to_string(), was: None, left: letter.left }
    });
    SheetAnswer { id: sheet.id.to_string(), name: sheet.name(), new: true, letters: letters.collect() }
}

fn known_sheet(sheet: &Sheet, intake: &Intake, before: &Stash) -> SheetAnswer {
    let letters = intake.counted.chips_of(sheet).map(|(chip, left)| LetterAnswer {
        chip: chip.to_string(),
        was: Some(before.find(chip).map_or(0, |ix| before.chip(ix).letter.left)),
        left: u16::try_from(left).unwrap_or(0),
    });
    SheetAnswer { id: sheet.id.to_string(), name: sheet.name(), new: false, letters: letters.collect() }
}

/// A line a sheet; below one that was there, the letters whose counts changed.
fn in_words(answer: &Answer) -> String {
    let mut text = String::new();
    for sheet in &answer.sheets {
        let (id, name) = (&sheet.id, escaped(&sheet.name));
        let kinds = so_many(u32::try_from(sheet.letters.len()).unwrap_or(u32::MAX), "kind");
        if sheet.new {
            let left: u32 = sheet.letters.iter().map(|letter| u32::from(letter.left)).sum();
            let _ = writeln!(text, "{id:<24} new: {kinds}, {left} left  {name}");
            continue;
        }
        let changed = || sheet.letters.iter().filter(|letter| letter.was != Some(letter.left));
        let _ = writeln!(text, "{id:<24} recounted: {kinds}, {} changed  {name}", changed().count());
        for LetterAnswer { chip, was, left } in changed() {
            let _ = writeln!(text, "  {chip:<28} {left:>3} left, {} before", was.unwrap_or(0));
        }
    }
    text + &match answer.entry {
        Some(entry) => format!("entry {entry} of the ledger\n"),
        None if answer.sheets.iter().all(SheetAnswer::is_as_it_was) => {
            "nothing changes: the ledger gets no entry\n".into()
        }
        None => "only told: nothing was taken in\n".into(),
    }
}
