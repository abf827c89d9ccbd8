//! The answer as people read it: letters, then sheets in the shop, then sheets that are nearly spent.
//!
//! Must not know how it was reckoned.

use crate::app::short_told;
use crate::files::escaped;
use crate::letter::Character;
use crate::stash::Sheet;
use crate::supply::{Count, Leftover, Possible, RunningOut, Unlocks, Verdict};

use super::super::say::so_many;
use super::super::spell::on_one_line;
use super::Ahead;

/// So many letters that are left are told; the others last longer.
const TOLD: usize = 10;

pub(super) fn of(ahead: &Ahead<'_>) -> String {
    let mut lines = vec!["Letters that run out first:".to_owned()];
    let (left, gone): (Vec<&RunningOut>, Vec<_>) =
        ahead.running.letters.iter().partition(|one| one.capitals + one.small > 0);
    let gone = gone.iter().map(|one| &one.letter).chain(&ahead.running.gone);
    let gone: Vec<String> = gone.map(Character::spoken).collect();
    if !gone.is_empty() {
        lines.push(format!("  gone: {}", gone.join(" ")));
    }
    lines.extend(left.into_iter().take(TOLD).map(letter));
    let wishes = ahead.wishes.len();
    if !ahead.on_sale.is_empty() && wishes > 0 {
        let together = count(ahead.shop.together());
        lines
            .push(format!("Sheets on sale; of {wishes} wishes {together} can be made at once without them:"));
        for (sheet, unlocks) in &ahead.on_sale {
            on_sale(ahead, sheet, unlocks, &mut lines);
        }
    }
    if !ahead.leftovers.is_empty() {
        lines.push("Sheets that are spent or nearly so:".into());
        lines.extend(ahead.leftovers.iter().map(|one| leftover(ahead, one)));
    }
    lines.iter().map(|line| escaped(line) + "\n").collect()
}

fn letter(one: &RunningOut) -> String {
    let RunningOut { letter, capitals, small, text } = one;
    let left = match (capitals, small) {
        (0, small) => format!("{small} small"),
        (capitals, 0) => so_many(*capitals, "capital"),
        (capitals, small) => format!("{}, {small} small", so_many(*capitals, "capital")),
    };
    format!("  {letter}: {left}; enough for a text of {text} letters")
}

/// `3`, or `3 to 5` where it is not proved that no more can be.
fn count(count: Count) -> String {
    let Count { made, most } = count;
    if made == most { made.to_string() } else { format!("{made} to {most}") }
}

fn on_sale(ahead: &Ahead<'_>, sheet: &Sheet, unlocks: &Unlocks, lines: &mut Vec<String>) {
    let wording = |wish: usize| on_one_line(ahead.wishes[wish].text());
    lines.push(format!("  {}: {} at once", sheet.name(), count(unlocks.together)));
    lines.extend(unlocks.better.iter().map(|one| {
        let before = if one.without == Verdict::Short { "short" } else { one.without.as_str() };
        format!("    {}: {}; {before} without it", wording(one.wish), one.with)
    }));
    lines.extend(unlocks.still_short.iter().map(|one| {
        let cured = match one.cured.as_slice() {
            [] => String::new(),
            cured => format!(", no longer of {}", short_told(cured)),
        };
        format!("    {}: still short of {}{cured}", wording(one.wish), short_told(&one.short))
    }));
}

fn leftover(ahead: &Ahead<'_>, one: &Leftover) -> String {
    let sheet = ahead.hand.loaded.stash.sheets()[one.sheet].told();
    let told = |one: &Possible| {
        let wish = if one.wish.is_some() { ", a wish" } else { "" };
        let verdict = if one.verdict == Verdict::StandIns { " with stand-ins" } else { "" };
        format!("{}{verdict}{wish}", on_one_line(&one.text))
    };
    let possible: Vec<String> = one.possible.iter().map(told).collect();
    let possible = match possible.as_slice() {
        [] => String::new(),
        possible => format!(", enough for {}", possible.join("; ")),
    };
    match one.left {
        0 => format!("  {sheet}: spent"),
        left => format!("  {sheet}: {}{possible}", so_many(left, "letter")),
    }
}
