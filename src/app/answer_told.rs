//! What the stash says to a wording, in words.
//!
//! Must not know whether a screen or a command says it.

use crate::checks::tell_length;
use crate::letter::{Evidence, StandIn, StandInKind, find_stand_in};
use crate::measure::Unit;
use crate::stash::{ChipIx, Stash};
use crate::supply::{Answer, Band, Demand, Short, StandsIn, Supply, There, Verdict};

/// `now, from 18 to 22 mm`; `short of E 2, T`.
#[must_use]
pub fn verdict_told(answer: &Answer, unit: Unit) -> String {
    let within = heights_told(answer, unit).map_or_else(String::new, |told| format!(", from {told}"));
    match answer.verdict {
        Verdict::Now => format!("now{within}"),
        Verdict::StandIns => format!("with stand-ins{within}"),
        Verdict::MixedHeights => "only with mixed heights".into(),
        Verdict::Short => format!("short of {}", short_told(&answer.short)),
    }
}

/// `letters of 18 to 22 mm`: those to choose from; where small letters are among them, `letters like capitals of 18 to 22 mm`.
#[must_use]
pub fn heights_told(answer: &Answer, unit: Unit) -> Option<String> {
    let like = if answer.as_capitals { "like capitals of" } else { "of" };
    answer.band.map(|band| format!("letters {like} {}", band_told(band, unit)))
}

/// `18 to 22 mm`, or `20 mm`.
#[must_use]
pub fn band_told(band: Band, unit: Unit) -> String {
    let [low, high] = [band.low, band.high].map(|height| tell_length(height, unit));
    if low == high {
        return high;
    }
    // The unit is said once.
    let number = low.trim_end_matches([' ', 'm', 'i', 'n']);
    format!("{number} to {high}")
}

/// `E 2, T`: how many are lacking, where it is more than one.
#[must_use]
pub fn short_told(short: &[Short]) -> String {
    let told = |one: &Short| match one.letters {
        1 => one.character.spoken(),
        letters => format!("{} {letters}", one.character.spoken()),
    };
    short.iter().map(told).collect::<Vec<_>>().join(", ")
}

/// `W by M turned over, of 33 Boat names`; `2 x` before it where it is so often.
#[must_use]
pub fn stand_in_told(one: &StandsIn, stash: &Stash) -> String {
    let chip = stash.chip(one.chip);
    let times = if one.letters == 1 { String::new() } else { format!("{} x ", one.letters) };
    let mark = chip.letter.mark.as_ref().map_or_else(String::new, |mark| format!(":{}", mark.as_str()));
    let (wanted, used) = (one.wanted.spoken(), chip.letter.character.spoken() + &mark);
    let how = row(one, stash).map_or("", |row| how(&row));
    format!("{times}{wanted} by {used}{how}, of {}", chip.sheet.told())
}

/// What stands in for what, why it may and what it costs, and where nothing can be done what is short: a paragraph a line.
#[must_use]
pub fn answer_explained(
    (answer, nearest): (&Answer, Option<&Answer>),
    demand: &Demand,
    supply: &Supply,
    stash: &Stash,
    unit: Unit,
) -> String {
    let mut lines = vec![match answer.verdict {
        Verdict::Now => format!("It can be spelled {}.", verdict_told(answer, unit)),
        Verdict::StandIns => format!(
            "It can be spelled {}: no other letters cost less than these stand-ins, {} in all.",
            verdict_told(answer, unit),
            answer.cost
        ),
        Verdict::MixedHeights => {
            "It can be spelled only with letters of unlike heights side by side: no band of 1.25 to 1 has all of them.".into()
        }
        Verdict::Short => format!(
            "It cannot be spelled: it is {}. No other use of the letters leaves less short.",
            verdict_told(answer, unit)
        ),
    }];
    lines.extend(answer.stand_ins.iter().map(|one| stand_in_explained(one, supply, stash)));
    if let Some(band) = answer.band {
        lines.push(String::new());
        lines.push(format!("Letters to choose from, each asked for so often, of {}:", band_told(band, unit)));
        lines.extend(supply.letters_there(demand, band).iter().map(|one| there_told(one, stash)));
    }
    if answer.band.is_some() {
        lines.push(String::new());
        lines.push("By sizes, the largest letters first:".into());
        lines.extend(supply.by_band(demand).iter().map(|one| match one.verdict {
            Verdict::Now => format!("  {}", verdict_told(one, unit)),
            _ => format!("  {}: {} in all", verdict_told(one, unit), one.cost),
        }));
    }
    if let Some(nearest) = nearest.filter(|nearest| !nearest.short.is_empty()) {
        let band = nearest.band.map_or_else(|| "one band of heights".into(), |band| band_told(band, unit));
        lines.push(String::new());
        lines.push(format!(
            "Within {band}, which comes nearest, it is short of {}.",
            short_told(&nearest.short)
        ));
        lines.extend(nearest.stand_ins.iter().map(|one| stand_in_explained(one, supply, stash)));
    }
    let all = answer.stand_ins.iter().chain(nearest.iter().flat_map(|nearest| &nearest.stand_ins));
    if all.into_iter().any(|one| one.kind == StandInKind::Trimmed) {
        lines.push(String::new());
        lines.push(
            "Trimming: cut away from the fingers, on a cutting mat, with a fresh blade; practise on a letter nobody needs."
                .into(),
        );
    }
    lines.join("\n")
}

/// `A 2, of 14: 3 on 07 Harbour blocks, 2 on 15 Tin lids ...`.
fn there_told(one: &There, stash: &Stash) -> String {
    const MOST: usize = 4;
    let sum: u32 = one.chips.iter().map(|&(_, left)| u32::from(left)).sum();
    let sheet = |pair: &(ChipIx, u16)| stash.sheet_place(pair.0);
    let sheets: Vec<&[(ChipIx, u16)]> = one.chips.chunk_by(|a, b| sheet(a) == sheet(b)).collect();
    let on = sheets.iter().take(MOST).map(|chips| {
        let left: u32 = chips.iter().map(|&(_, left)| u32::from(left)).sum();
        format!("{left} on {}", stash.chip(chips[0].0).sheet.told())
    });
    let mut on: Vec<String> = on.collect();
    match sheets.len().saturating_sub(MOST) {
        0 => {}
        1 => on.push("and on one more".into()),
        more => on.push(format!("and on {more} more")),
    }
    let on = if on.is_empty() { String::new() } else { format!(": {}", on.join(", ")) };
    format!("  {} {}, of {sum}{on}", one.character.spoken(), one.asked)
}

/// What a wish takes when others are made besides: a paragraph a line.
pub(super) fn share_explained(share: &Answer, supply: &Supply, stash: &Stash, unit: Unit) -> String {
    let mut lines = vec![format!("{}.", verdict_told(share, unit))];
    lines.extend(share.stand_ins.iter().map(|one| stand_in_explained(one, supply, stash)));
    lines.join("\n")
}

fn stand_in_explained(one: &StandsIn, supply: &Supply, stash: &Stash) -> String {
    let why = row(one, stash).map_or_else(String::new, |row| source_told(&row));
    let each = if one.letters == 1 { "" } else { " each" };
    format!("  {}: {}{each}; {why}", stand_in_told(one, stash), supply.asking().costs.of(one.kind))
}

fn row(one: &StandsIn, stash: &Stash) -> Option<StandIn> {
    find_stand_in(&one.wanted, &stash.chip(one.chip).letter.character, one.kind)
}

/// How a letter serves, after its name.
const fn how(row: &StandIn) -> &'static str {
    match (row.kind, row.turn) {
        (StandInKind::Turned, crate::letter::Turn::None) => " moved off its line",
        (StandInKind::Turned, crate::letter::Turn::Quarter) => " on its side",
        (StandInKind::Turned, crate::letter::Turn::Half) => " turned over",
        (StandInKind::LookAlike | StandInKind::OtherCase, _) => "",
        (StandInKind::Trimmed, _) => " trimmed",
    }
}

/// Why a row of the table is believed.
#[must_use]
pub fn source_told(row: &StandIn) -> String {
    match row.evidence {
        Evidence::Overlap(share) => {
            format!(
                "turned over in the reference face, their outlines share at least {share:.2} of their union"
            )
        }
        Evidence::Confusable => "confusable by Unicode Technical Standard #39".into(),
        Evidence::Practice => "common practice, no source".into(),
    }
}
