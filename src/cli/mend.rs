//! `oddment mend`: tells what is wrong in the stash's folder, and sets it right.
//!
//! Must not know what can be wrong.

use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::files::{Ailment, Cure, Mended, StashFolder};

use super::args::{Args, Mend};
use super::opened::right_to_mend;
use super::say::{answer_json, answer_words, say_beside};
use super::today::today;

#[derive(Serialize)]
struct Answer {
    format: u32,
    found: Vec<Found>,
    /// Whether anything was set right.
    written: bool,
    /// The folder with the files as they were before; null: none was changed.
    kept: Option<String>,
}

#[derive(Serialize)]
struct Found {
    file: String,
    line: Option<usize>,
    column: Option<usize>,
    what: String,
    /// What mending does, or did; null: only the owner can do it.
    will: Option<String>,
    /// How the owner does it.
    by_hand: Option<String>,
}

pub(super) fn run(args: &Args, mend: &Mend) -> Result<ExitCode> {
    let folder = args.folder()?;
    let Mended { found, is_written, kept } = look(&folder, mend.write)?;
    let left = found.iter().any(|ailment| !mend.write || ailment.is_by_hand());
    let kept = kept.map(|path| path.display().to_string());
    if args.json {
        let found = found.into_iter().map(told).collect();
        answer_json(&Answer { format: 1, found, written: is_written, kept })?;
    } else {
        answer_words(&in_words(&found, mend.write, kept.as_deref()))?;
    }
    Ok(ExitCode::from(u8::from(left)))
}

fn look(folder: &StashFolder, write: bool) -> Result<Mended> {
    // A folder that is not there is not made for the sake of looking.
    if write && folder.path().exists() {
        let lock = right_to_mend(folder)?;
        return Ok(folder.mend(&lock, &today())?);
    }
    if folder.is_held() {
        say_beside("another oddment has this stash open; what it writes just now may be told as half done")?;
    }
    Ok(Mended { found: folder.ailments(&today())?, is_written: false, kept: None })
}

fn told(ailment: Ailment) -> Found {
    let (will, by_hand) = match ailment.cure {
        Cure::Mending(will) => (Some(will), None),
        Cure::ByHand(how) => (None, Some(how)),
    };
    let (line, column) = ailment.place.unzip();
    Found { file: ailment.file, line, column, what: ailment.what, will, by_hand }
}

fn in_words(found: &[Ailment], write: bool, kept: Option<&str>) -> String {
    if found.is_empty() {
        return "nothing is wrong\n".into();
    }
    let mut text = String::new();
    for ailment in found {
        let cure = match &ailment.cure {
            Cure::Mending(will) => format!("mending {will}"),
            Cure::ByHand(how) => format!("by hand: {how}"),
        };
        let _ = writeln!(text, "{ailment}\n    {cure}");
    }
    let by_hand = found.iter().filter(|ailment| ailment.is_by_hand()).count();
    let (mended, things) = (found.len() - by_hand, if found.len() == 1 { "thing" } else { "things" });
    let _ = write!(text, "{} {things} wrong: ", found.len());
    let _ = match (write, mended) {
        (_, 0) => writeln!(text, "left to you"),
        (true, _) => writeln!(text, "{mended} mended, {by_hand} left to you"),
        (false, _) => writeln!(text, "`oddment mend --write` mends {mended}, {by_hand} left to you"),
    };
    if let Some(kept) = kept {
        let _ = writeln!(text, "the files as they were are in {kept}");
    }
    text
}
