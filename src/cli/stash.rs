//! `oddment stash [SHEET]`: what is left.
//!
//! Must not know how it is counted.

use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::files::{Loaded, Problems};
use crate::plan::Spoken;
use crate::stash::{Sheet, SheetId};

use super::args::{Args, Stash};
use super::say::{Fault, answer_json, answer_words, warn};

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
    let mut spoken = Spoken::default();
    for plan in loaded.plans.iter().filter_map(|entry| entry.plan.as_ref()) {
        spoken.add(plan, &loaded.stash);
    }
    let sheets =
        (0..loaded.stash.sheets().len()).filter(|&place| chosen.is_none_or(|chosen| place == chosen));
    let sheets: Vec<SheetAnswer> = sheets.map(|place| sheet(&loaded, place, &spoken)).collect();
    if args.json {
        answer_json(&Answer { format: 1, sheets })?;
    } else if !sheets.is_empty() || !loaded.problems.has_errors() {
        answer_words(&in_words(&sheets, chosen.is_some()))?;
    }
    Ok(ExitCode::from(if loaded.problems.has_errors() { 2 } else { 0 }))
}

fn find(loaded: &Loaded, name: &str) -> Result<usize> {
    let unknown = || Fault::Input(format!("there is no sheet {name:?}; `oddment stash` lists them"));
    let id = SheetId::new(name).map_err(|_| unknown())?;
    let found = loaded.stash.sheet(&id).ok_or_else(unknown)?;
    Ok(loaded.stash.sheets().iter().position(|sheet| sheet.id == found.id).ok_or_else(unknown)?)
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
    }
}

fn in_words(sheets: &[SheetAnswer], whole: bool) -> String {
    let mut text = String::new();
    if sheets.is_empty() {
        return "no sheets yet; put one in sheets/, as oddment-files(5) tells, or try `oddment --sample`\n"
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
            sheet.name
        );
        if whole {
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
