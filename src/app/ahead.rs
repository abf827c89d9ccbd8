//! Looking ahead: which letters run out first, what a sheet seen in a shop would unlock, and what spent sheets still make.
//!
//! Must not know whether a screen or a command tells it.

use crate::letter::Character;
use crate::stash::{ChipIx, Sheet, Stash};
use crate::supply::{
    Asking, Count, Leftover, NEARLY_SPENT, Possible, Running, RunningOut, Shop, Unlocks, Verdict, WordList,
    leftovers,
};
use crate::title::Wording;

use super::answer_told::short_told;

/// So many letters are told; the others last longer.
const TOLD: usize = 10;

/// All that is to be told.
#[derive(Debug)]
pub struct Ahead<'a> {
    /// What is left.
    pub stash: &'a Stash,
    /// Titles wished for.
    pub wishes: &'a [Wording],
    /// How long the letters last.
    pub running: Running,
    /// How many wishes can be made together with what is left.
    pub together: Count,
    /// Sheets on sale, each with what it would unlock.
    pub on_sale: Vec<(Sheet, Unlocks)>,
    /// Sheets that are spent or nearly so.
    pub leftovers: Vec<Leftover>,
}

impl<'a> Ahead<'a> {
    /// Looks ahead. `spare` says how many of a chip are kept for something else; `steps` is how far to look for the most wishes
    /// together, each time, a microsecond or less a step.
    #[must_use]
    pub fn new(
        stash: &'a Stash,
        asking: &Asking,
        spare: impl Fn(ChipIx) -> u16,
        wishes: &'a [Wording],
        on_sale: Vec<Sheet>,
        steps: u64,
    ) -> Self {
        let running = Running::new(stash, &spare);
        let shop = Shop::new(stash, asking.clone(), &spare, wishes, steps);
        let on_sale = on_sale.into_iter().map(|sheet| {
            let unlocks = shop.unlocks(&sheet);
            (sheet, unlocks)
        });
        let on_sale = on_sale.collect();
        let leftovers = leftovers(stash, asking, &spare, NEARLY_SPENT, WordList::english().words(), wishes);
        Self { stash, wishes, running, together: shop.together(), on_sale, leftovers }
    }
}

/// What is to be told, a line each; a line that belongs to the one before is set in.
#[must_use]
pub fn ahead_told(ahead: &Ahead<'_>) -> Vec<String> {
    let mut lines = vec!["Letters that run out first:".to_owned()];
    let all = &ahead.running.letters;
    let (left, gone): (Vec<&RunningOut>, Vec<_>) = all.iter().partition(|one| one.capitals + one.small > 0);
    let gone = gone.iter().map(|one| &one.letter).chain(&ahead.running.gone);
    let gone: Vec<String> = gone.map(Character::spoken).collect();
    if !gone.is_empty() {
        lines.push(format!("  gone: {}", gone.join(" ")));
    }
    lines.extend(left.into_iter().take(TOLD).map(letter));
    let together = count(ahead.together);
    lines.push(match (ahead.on_sale.len(), ahead.wishes.len()) {
        (0, _) => "Sheets on sale: none; put those that you see in a shop into on-sale.toml".into(),
        (_, 0) => "Sheets on sale: nothing is wished for that one of them could unlock".into(),
        (_, wishes) => {
            format!("Sheets on sale; of {wishes} wishes {together} can be made at once without them:")
        }
    });
    if !ahead.wishes.is_empty() {
        for (sheet, unlocks) in &ahead.on_sale {
            on_sale(ahead, sheet, unlocks, &mut lines);
        }
    }
    if !ahead.leftovers.is_empty() {
        lines.push("Sheets that are spent or nearly so:".into());
        lines.extend(ahead.leftovers.iter().map(|one| leftover(ahead, one)));
    }
    lines
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
    let sheet = ahead.stash.sheets()[one.sheet].told();
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

fn so_many(count: u32, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// A wording of two lines on one.
fn on_one_line(wording: &str) -> String {
    wording.replace('\n', " / ")
}
