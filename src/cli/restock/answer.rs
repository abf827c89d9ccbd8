//! The answer in the shape that other programs read.
//!
//! Must not know how people read it.

use serde::Serialize;

use crate::app::Ahead;
use crate::letter::Character;
use crate::stash::Sheet;
use crate::supply::{Better, Count, Leftover, Possible, RunningOut, StillShort, Unlocks};

use super::super::spell::Lacking;

#[derive(Serialize)]
pub(super) struct Answer<'a> {
    format: u32,
    letters: Vec<LetterAnswer<'a>>,
    /// Figures, signs and letters with marks that are gone.
    gone: Vec<&'a str>,
    /// How many wishes can be made at once with what is left.
    together: CountAnswer,
    on_sale: Vec<SheetAnswer<'a>>,
    /// Sheets that are spent, or nearly so.
    spent: Vec<SpentAnswer<'a>>,
}

#[derive(Serialize)]
struct LetterAnswer<'a> {
    letter: &'a str,
    capitals: u32,
    small: u32,
    /// Letters of English text until it is used up.
    text: u64,
}

#[derive(Serialize)]
struct CountAnswer {
    made: usize,
    /// No more than this can be.
    most: usize,
}

#[derive(Serialize)]
struct SheetAnswer<'a> {
    name: String,
    unlocks: Vec<BetterAnswer<'a>>,
    still_short: Vec<ShortAnswer<'a>>,
    together: CountAnswer,
}

#[derive(Serialize)]
struct BetterAnswer<'a> {
    wording: &'a str,
    without: &'static str,
    with: &'static str,
}

#[derive(Serialize)]
struct ShortAnswer<'a> {
    wording: &'a str,
    /// What it is short of without the sheet and not with it.
    cured: Lacking<'a>,
    short: Lacking<'a>,
}

#[derive(Serialize)]
struct SpentAnswer<'a> {
    sheet: &'a str,
    name: String,
    left: u32,
    possible: Vec<PossibleAnswer<'a>>,
}

#[derive(Serialize)]
struct PossibleAnswer<'a> {
    wording: &'a str,
    verdict: &'static str,
    letters: usize,
    /// Whether it is wished for.
    wish: bool,
}

pub(super) fn of<'a>(ahead: &'a Ahead<'a>) -> Answer<'a> {
    Answer {
        format: 1,
        letters: ahead.running.letters.iter().map(letter).collect(),
        gone: ahead.running.gone.iter().map(Character::as_str).collect(),
        together: count(ahead.together),
        on_sale: ahead.on_sale.iter().map(|(sheet, unlocks)| on_sale(ahead, sheet, unlocks)).collect(),
        spent: ahead.leftovers.iter().map(|one| spent(ahead, one)).collect(),
    }
}

fn letter(one: &RunningOut) -> LetterAnswer<'_> {
    LetterAnswer { letter: one.letter.as_str(), capitals: one.capitals, small: one.small, text: one.text }
}

const fn count(count: Count) -> CountAnswer {
    CountAnswer { made: count.made, most: count.most }
}

fn on_sale<'a>(ahead: &'a Ahead<'a>, sheet: &Sheet, unlocks: &'a Unlocks) -> SheetAnswer<'a> {
    let better = |one: &Better| BetterAnswer {
        wording: ahead.wishes[one.wish].text(),
        without: one.without.as_str(),
        with: one.with.as_str(),
    };
    let short = |one: &'a StillShort| ShortAnswer {
        wording: ahead.wishes[one.wish].text(),
        cured: Lacking(&one.cured),
        short: Lacking(&one.short),
    };
    SheetAnswer {
        name: sheet.name(),
        unlocks: unlocks.better.iter().map(better).collect(),
        still_short: unlocks.still_short.iter().map(short).collect(),
        together: count(unlocks.together),
    }
}

fn spent<'a>(ahead: &'a Ahead<'a>, one: &'a Leftover) -> SpentAnswer<'a> {
    let possible = |one: &'a Possible| PossibleAnswer {
        wording: &one.text,
        verdict: one.verdict.as_str(),
        letters: one.letters,
        wish: one.wish.is_some(),
    };
    let sheet = &ahead.stash.sheets()[one.sheet];
    SpentAnswer {
        sheet: sheet.id.as_str(),
        name: sheet.name(),
        left: one.left,
        possible: one.possible.iter().map(possible).collect(),
    }
}
