//! What happened to one sheet, the newest first.
//!
//! Must not know how the ledger is kept.

use std::fmt::Write;

use serde::Serialize;

use crate::files::escaped;
use crate::stash::{ChipId, Kind, Ledger, Sheet};

/// The widest line, in columns.
const WIDE: usize = 80;

/// What is said of letters of which some were counted in and some out.
const IN_AND_OUT: &str = "counted in and out";

/// One entry of the ledger, as far as it is about the sheet.
#[derive(Serialize)]
pub(super) struct Happened {
    entry: u32,
    date: String,
    kind: &'static str,
    /// The same for people.
    #[serde(skip)]
    what: &'static str,
    page: Option<String>,
    strip: Option<String>,
    /// Where single letters came off.
    slots: Vec<u32>,
    letters: Vec<LetterCount>,
}

#[derive(Serialize)]
struct LetterCount {
    /// By the sheet's present id.
    chip: String,
    /// The character, with its mark where it has one.
    #[serde(skip)]
    called: String,
    count: i32,
}

/// All that the ledger tells of `sheet`.
pub(super) fn of(ledger: &Ledger, sheet: &Sheet) -> Vec<Happened> {
    let each = ledger.history(sheet).map(|entry| {
        let of = entry.deed.of.as_ref();
        let letters = entry.deed.chips_of(sheet).map(|(chip, count)| {
            let chip = ChipId { sheet: sheet.id.clone(), ..chip.clone() };
            let mark = chip.mark.as_ref().map_or_else(String::new, |mark| format!(":{}", mark.as_str()));
            LetterCount { called: chip.character.spoken() + &mark, chip: chip.to_string(), count }
        });
        let letters: Vec<LetterCount> = letters.collect();
        Happened {
            entry: entry.number,
            date: entry.date.clone(),
            kind: entry.deed.kind.as_str(),
            what: what(entry.deed.kind, &letters),
            page: of.map(|of| of.page.clone()),
            strip: of.map(|of| of.role.clone()),
            slots: of.map(|of| of.slots.clone()).unwrap_or_default(),
            letters,
        }
    });
    each.collect()
}

/// A paragraph an entry.
pub(super) fn in_words(history: &[Happened]) -> String {
    if history.is_empty() {
        return "nothing was counted, stuck down or lifted yet\n".into();
    }
    let mut text = String::new();
    for one in history {
        let mut line = format!("{} {}", one.date, one.what);
        if let (Some(page), Some(strip)) = (&one.page, &one.strip) {
            let _ = write!(line, ", {} {}", escaped(page), escaped(strip));
        }
        if !one.slots.is_empty() {
            let slots: Vec<String> = one.slots.iter().map(ToString::to_string).collect();
            let _ = write!(line, ", {} {}", if slots.len() == 1 { "slot" } else { "slots" }, slots.join(" "));
        }
        let is_mixed = one.what == IN_AND_OUT;
        let letters = one.letters.iter().map(|letter| {
            let count = if is_mixed { format!("{:+}", letter.count) } else { letter.count.abs().to_string() };
            format!("{count}\u{a0}of\u{a0}{}", letter.called)
        });
        let _ = write!(line, ": {}", letters.collect::<Vec<_>>().join(", "));
        let options = textwrap::Options::new(WIDE).subsequent_indent("           ");
        // A count stays beside its letter.
        text += &(textwrap::fill(&line, options).replace('\u{a0}', " ") + "\n");
    }
    text
}

/// What happened, in words.
fn what(kind: Kind, letters: &[LetterCount]) -> &'static str {
    match kind {
        Kind::Stuck => "stuck down",
        Kind::Lifted => "lifted",
        Kind::Torn => "torn as they came off",
        Kind::Counted => "counted anew",
        Kind::Added if letters.iter().all(|letter| letter.count < 0) => "counted out",
        Kind::Added if letters.iter().all(|letter| letter.count >= 0) => "counted in",
        Kind::Added => IN_AND_OUT,
    }
}
