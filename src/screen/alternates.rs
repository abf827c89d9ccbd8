//! The list of alternates: each with why it is where it is and what taking it would leave.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{AlternateList, Area, State, signed};
use crate::checks::{Alternate, Tryout, tell_length};
use crate::measure::Points;

use super::paint::{Paint, chosen, faint, strong};
use super::words::{fit, put, sign};

/// Draws the list, and under it the difference that the chosen one makes, check by check.
pub(super) fn draw_alternates(state: &State, list: &AlternateList, area: Area, buffer: &mut Buffer) {
    let below = below(state, list, usize::from(area.width));
    let rows = usize::from(area.height.saturating_sub(1)).saturating_sub(below.len()).max(1);
    let name = usize::from(area.width).saturating_sub(64).clamp(8, 40);
    let heading = format!(
        "    {} {:<10} {:>9} {:<8} {:>6} {:>7} left after",
        fit("sheet", name),
        "colour",
        "height",
        "form",
        "score",
        ""
    );
    put(buffer, area.x, area.y, area.width, &heading, faint());
    let top = (list.chosen + 1).saturating_sub(rows);
    for (row, (place, alternate)) in list.alternates.iter().enumerate().skip(top).take(rows).enumerate() {
        let y = area.y + 1 + u16::try_from(row).unwrap_or(0);
        draw_row(state, alternate, place == list.chosen, name, Area { y, height: 1, ..area }, buffer);
    }
    let first = area.y + 1 + u16::try_from(rows).unwrap_or(0);
    for (y, line) in (first..area.y + area.height).zip(&below) {
        put(buffer, area.x, y, area.width, line, strong());
    }
}

/// What stands below the list: the difference that the chosen one makes; once it is asked, why not that one.
fn below(state: &State, list: &AlternateList, width: usize) -> Vec<String> {
    let Some(alternate) = list.alternates.get(list.chosen) else { return Vec::new() };
    let lines = match state.work.why_not.as_ref().filter(|why| why.chosen == list.chosen) {
        None => vec![difference(state, alternate)],
        Some(why) => {
            let suggesting = state.work.suggesting.as_ref().filter(|one| one.is_for(state.trial.plan()));
            why.lines(suggesting.map(|one| &one.pursuit))
        }
    };
    let options = || textwrap::Options::new(width.max(1)).subsequent_indent("  ");
    lines.iter().flat_map(|line| textwrap::wrap(line, options())).map(Into::into).collect()
}

fn draw_row(
    state: &State,
    alternate: &Alternate,
    is_chosen: bool,
    name: usize,
    area: Area,
    buffer: &mut Buffer,
) {
    let chip = state.shelf.stash.chip(alternate.candidate.chip);
    let tint = &chip.colours()[0];
    let now = state.trial.verdict().strips[state.bench.strip].score;
    let style = if is_chosen { chosen() } else { Style::new() };
    let swatch = format!(" {}", fit(sign(&chip.letter.character.spoken()), 2));
    let x = put(buffer, area.x, area.y, area.width, &swatch, Paint(state.look.colours).swatch(tint.colour));
    let stands_in = alternate.candidate.stands_in.map_or_else(String::new, |kind| format!(", {kind}"));
    let too_long = if alternate.too_long.is_some() { ", too long" } else { "" };
    let text = format!(
        " {} {} {:>9} {:<8} {:>6} {:>7} {}{too_long}{stands_in}",
        fit(&chip.sheet.told(), name),
        fit(&tint.name(), 10),
        chip.shown_height().show(state.unit()),
        chip.sheet.make.form.as_str(),
        alternate.score.to_string(),
        signed(alternate.score - now),
        alternate.leaves,
    );
    put(buffer, x, area.y, (area.x + area.width).saturating_sub(x), &text, style);
}

/// What would be worse and what better with it, the largest difference first.
fn difference(state: &State, alternate: &Alternate) -> String {
    let (plan, shelf) = (state.trial.plan(), &state.shelf);
    let mut tryout = Tryout::new(plan, state.bench.strip, state.bench.slot, &shelf.stash, &shelf.scene);
    let now = tryout.points();
    tryout.put(alternate.candidate);
    let with = tryout.points();
    let mut changes: Vec<(&str, Points)> = now
        .iter()
        .zip(&with)
        .map(|(&(id, before), &(_, after))| (id, after - before))
        .filter(|(_, by)| by.tenths() != 0)
        .collect();
    changes.sort_by_key(|(_, by)| -by.tenths().abs());
    let over = alternate.too_long.map_or_else(String::new, |over| {
        format!("; the line would be {} longer than its room", tell_length(over, state.unit()))
    });
    if changes.is_empty() {
        return format!("this one, or one just like it, stands here{over}");
    }
    let told: Vec<String> = changes.into_iter().map(|(id, by)| format!("{id} {}", signed(by))).collect();
    format!("with it: {}{over}", told.join(", "))
}
