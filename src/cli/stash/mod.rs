//! `oddment stash [SHEET]`: what is left, in words, on paper, or as a table for a spreadsheet.
//!
//! Must not know how it is counted.

mod by_tag;
mod history;

use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::files::{Loaded, Problems, csv_text, escaped};
use crate::plan::Spoken;
use crate::stash::Sheet;

use super::args::{Args, Stash};
use super::say::{answer, answer_json, answer_words, warn};
use super::sheet_called::sheet_called;
use history::Happened;

#[derive(Serialize)]
struct Answer {
    format: u32,
    sheets: Vec<SheetAnswer>,
}

#[derive(Serialize)]
struct SheetAnswer {
    id: String,
    name: String,
    tag: Option<String>,
    form: &'static str,
    /// In mm.
    height: f64,
    left: u32,
    letters: Vec<LetterAnswer>,
    /// Of one sheet that is asked for: what happened to it, the newest first.
    #[serde(skip_serializing_if = "Option::is_none")]
    history: Option<Vec<Happened>>,
}

#[derive(Serialize)]
struct LetterAnswer {
    chip: String,
    character: String,
    colour: String,
    left: u16,
    spoken_for: u16,
}

pub(super) fn run(args: &Args, stash: &Stash) -> Result<ExitCode> {
    let loaded = args.folder()?.load()?;
    warn(&loaded.problems, &Problems::new())?;
    let chosen = stash.sheet.as_deref().map(|name| find(&loaded, name)).transpose()?;
    let all = loaded.stash.sheets();
    let mut places: Vec<usize> =
        (0..all.len()).filter(|&place| chosen.is_none_or(|chosen| place == chosen)).collect();
    if stash.by_tag {
        places.sort_by(|&a, &b| by_tag::order(&all[a], &all[b]));
    }
    let sheets: Vec<&Sheet> = places.iter().map(|&place| &all[place]).collect();
    // A stash of which nothing can be read has its errors told, not that it is empty.
    let is_unreadable = sheets.is_empty() && loaded.problems.has_errors();
    if stash.csv {
        answer(&csv_text(sheets, &loaded.colours))?;
    } else if args.json {
        answer_json(&Answer { format: 1, sheets: told(&loaded, &places, chosen.is_some()) })?;
    } else if stash.by_tag && !sheets.is_empty() {
        answer_words(&by_tag::list(&sheets))?;
    } else if !is_unreadable {
        let told = told(&loaded, &places, chosen.is_some());
        answer_words(&in_words(&told, chosen.is_some(), stash.history))?;
    }
    Ok(ExitCode::from(if loaded.problems.has_errors() { 2 } else { 0 }))
}

/// What is told of the sheets at `places`; of a single one also what happened to it.
fn told(loaded: &Loaded, places: &[usize], single: bool) -> Vec<SheetAnswer> {
    let mut spoken = Spoken::default();
    for plan in loaded.plans.iter().filter_map(|entry| entry.plan.as_ref()) {
        spoken.add(plan, &loaded.stash);
    }
    let happened = |place: usize| single.then(|| history::of(&loaded.ledger, &loaded.stash.sheets()[place]));
    let each =
        places.iter().map(|&place| SheetAnswer { history: happened(place), ..sheet(loaded, place, &spoken) });
    each.collect()
}

fn find(loaded: &Loaded, name: &str) -> Result<usize> {
    let found = sheet_called(loaded, name)?;
    Ok(loaded.stash.sheets().iter().position(|sheet| sheet.id == found.id).unwrap_or(0))
}

fn sheet(loaded: &Loaded, place: usize, spoken: &Spoken) -> SheetAnswer {
    let sheet: &Sheet = &loaded.stash.sheets()[place];
    let letters = loaded.stash.chips_of(place).map(|ix| {
        let chip = loaded.stash.chip(ix);
        LetterAnswer {
            chip: chip.id().to_string(),
            character: chip.letter.character.to_string(),
            colour: chip.colours()[0].name().into_owned(),
            left: chip.letter.left,
            spoken_for: spoken.times(ix),
        }
    });
    SheetAnswer {
        id: sheet.id.to_string(),
        name: sheet.name(),
        tag: sheet.label.tag.clone(),
        form: sheet.make.form.as_str(),
        height: sheet.size.height.mm(),
        left: sheet.left(),
        letters: letters.collect(),
        history: None,
    }
}

fn in_words(sheets: &[SheetAnswer], whole: bool, with_history: bool) -> String {
    let mut text = String::new();
    if sheets.is_empty() {
        return "no sheets yet; count one in (`oddment`, then 3 and a) or write one, as oddment-files(5) tells, or try `oddment --sample`\n"
            .into();
    }
    for sheet in sheets {
        let tag = sheet.tag.as_deref().unwrap_or("");
        let _ = writeln!(
            text,
            "{:<24} {tag:<6} {:<8} {:>7} mm {:>4} left  {}",
            sheet.id,
            sheet.form,
            format!("{:.1}", sheet.height),
            sheet.left,
            escaped(&sheet.name)
        );
        if let Some(history) = sheet.history.as_ref().filter(|_| with_history) {
            text += &history::in_words(history);
        } else if whole {
            for letter in &sheet.letters {
                let spoken = if letter.spoken_for > 0 {
                    format!("  {} spoken for", letter.spoken_for)
                } else {
                    String::new()
                };
                let _ = writeln!(
                    text,
                    "  {:<28} {:>3} left  {}{spoken}",
                    letter.chip, letter.left, letter.colour
                );
            }
        }
    }
    text
}
