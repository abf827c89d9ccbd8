//! What is wrong with sheets: counts below zero, counts that are behind the ledger, names that two of them share.
//!
//! Must not know plans.

use std::fs;
use std::path::PathBuf;

use toml_edit::{DocumentMut, Item, TableLike, Value};

use crate::files::error::FilesError;
use crate::files::folder::StashFolder;
use crate::files::line_ends;
use crate::files::load::Loaded;
use crate::files::question::{edited, entries};
use crate::files::save_sheet::write_sheet;
use crate::files::sheet::read_sheet;
use crate::measure::ColourNames;
use crate::stash::{Sheet, SheetId, shared_names};

use super::mended_ledger::has_place;
use super::{Ailment, Change, Look, Outlook};

/// A sheet's file.
#[derive(Debug)]
pub(super) struct SheetFile {
    path: PathBuf,
    /// As problems call it.
    pub(super) called: String,
    /// Its text, without counts below zero.
    text: String,
    /// Letters that were counted below zero.
    negative: Vec<String>,
    /// What it holds; `None` where it has errors.
    pub(super) sheet: Option<Sheet>,
}

impl StashFolder {
    /// The sheets' files that can be read as text.
    pub(super) fn sheet_files(&self, loaded: &Loaded) -> Result<Vec<SheetFile>, FilesError> {
        let mut files = Vec::new();
        for path in self.listed("sheets")? {
            let stem = path.file_stem().unwrap_or_default().to_string_lossy();
            let (Ok(id), Ok(text)) = (SheetId::new(&stem), fs::read_to_string(&path)) else { continue };
            files.push(file(path.clone(), self.called(&path), &id, text, &loaded.colours));
        }
        Ok(files)
    }
}

fn file(path: PathBuf, called: String, id: &SheetId, text: String, colours: &ColourNames) -> SheetFile {
    let read = |text: &str| read_sheet(&called, id, text, colours).0;
    if let Some(sheet) = read(&text) {
        return SheetFile { path, called, text, negative: Vec::new(), sheet: Some(sheet) };
    }
    let (raised, negative) = without_negative(&text);
    let sheet = read(&raised).filter(|_| !negative.is_empty());
    SheetFile { path, called, text: raised, negative, sheet }
}

/// Tells what is wrong with the sheets, and what their files become.
pub(super) fn mend(files: &[SheetFile], outlook: &Outlook, loaded: &Loaded, look: &mut Look) {
    for file in files {
        let Some(sheet) = &file.sheet else { continue };
        if !file.negative.is_empty() {
            let what = format!("it counts fewer than none of {}", file.negative.join(", "));
            look.ailments.push(Ailment::mended(&file.called, &what, "writes 0; count these anew"));
        }
        tell_behind(&file.called, sheet, outlook, look);
        let mut now = sheet.clone();
        outlook.mended.settle(&mut now);
        // One without letters, of which no entry can tell.
        if outlook.mended.is_outrun_by(&now) && has_place(&now) {
            now.record.as_of = Some(outlook.mended.last());
        }
        if let Ok(text) = write_sheet(&file.text, &now, &loaded.colours)
            && (text != file.text || !file.negative.is_empty())
        {
            look.changes.push(Change::Write(file.path.clone(), text));
        }
    }
    for (sheet, other, name) in shared_names(outlook.stash.sheets()) {
        let file = format!("sheets/{sheet}.toml");
        let what = format!(
            "it was called {name}, by its line was, and so is or was {other}: what is told of {name} counts on both"
        );
        let how = format!("take \"{name}\" out of was, in the one that never had the name");
        look.ailments.push(Ailment::by_hand(&file, &what, &how));
    }
}

/// Entries that wait, counts that were changed by hand over them, more used than there was; entries that were lost.
fn tell_behind(file: &str, sheet: &Sheet, outlook: &Outlook, look: &mut Look) {
    let as_of = sheet.record.as_of.unwrap_or_default();
    if !has_place(sheet) {
        let what = format!("as_of = {as_of} is a number that no entry can have");
        let how = "take the line as_of out: without it the counts are your own, and include all there was";
        look.ailments.push(Ailment::by_hand(file, &what, how));
        return;
    }
    if outlook.ledger.is_outrun_by(sheet) {
        let last = outlook.ledger.last();
        let what =
            format!("its counts include entry {as_of}, and the ledger ends with {last}: entries were lost");
        let will = "leaves the counts as they are, and writes them into the ledger as counted today";
        look.ailments.push(Ailment::mended(file, &what, will));
        return;
    }
    let Some((first, last)) = outlook.ledger.waiting(sheet) else { return };
    if let Some((what, last)) = edited(&outlook.ledger, sheet) {
        let will = format!(
            "counts that in now; if your counts include it already, write as_of = {last} into the file first"
        );
        look.ailments.push(Ailment::mended(file, &what, &will));
    } else {
        let what = format!("its counts do not include {}", entries(first, last));
        look.ailments.push(Ailment::mended(file, &what, "counts that in"));
    }
    let below = outlook.ledger.settle(&mut sheet.clone());
    if !below.is_empty() {
        let chips: Vec<String> = below.iter().map(ToString::to_string).collect();
        let what = format!("more was used than there was of {}", chips.join(", "));
        look.ailments.push(Ailment::mended(file, &what, "counts 0; count these anew"));
    }
}

/// `text` with 0 for every count below it, and the letters concerned.
fn without_negative(text: &str) -> (String, Vec<String>) {
    let mut raised = Vec::new();
    let Ok(mut document) = text.trim_start_matches('\u{feff}').parse::<DocumentMut>() else {
        return (text.to_owned(), raised);
    };
    if let Some(letters) = document.get_mut("letters").and_then(Item::as_table_like_mut) {
        for (letter, item) in letters.iter_mut() {
            if raise(item) {
                raised.push(letter.get().to_owned());
            }
        }
    }
    (line_ends::restore(text, &document.to_string()), raised)
}

/// Writes 0 for the counts of one letter that are below; whether there was any.
fn raise(item: &mut Item) -> bool {
    match item {
        Item::Value(value) => raise_value(value),
        Item::Table(table) => raise_left(table),
        Item::ArrayOfTables(tables) => tables.iter_mut().fold(false, |any, table| raise_left(table) | any),
        Item::None => false,
    }
}

fn raise_value(value: &mut Value) -> bool {
    match value {
        Value::Integer(count) if *count.value() < 0 => {
            let decor = value.decor().clone();
            *value = 0.into();
            *value.decor_mut() = decor;
            true
        }
        Value::InlineTable(table) => raise_left(table),
        Value::Array(list) => list.iter_mut().fold(false, |any, value| raise_value(value) | any),
        _ => false,
    }
}

fn raise_left(table: &mut dyn TableLike) -> bool {
    table.get_mut("left").is_some_and(raise)
}
