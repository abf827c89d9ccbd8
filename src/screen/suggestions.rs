//! A suggestion against the trial, slot by slot, with the reasons; and what one more letter would do.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::{Area, Change, LetterTold, Run, SlotChange, State, SuggestionView, signed};
use crate::measure::Points;

use super::leaf::page;
use super::paint::{Paint, chosen, faint, strong};
use super::words::{fit, put, sign};

/// Rows that the slots keep, however long the reasons are.
const FEWEST_ROWS: usize = 3;

/// Columns of a letter's sign on its swatch, with the blank after it.
const SIGN: usize = 4;

/// Columns of the difference that a slot alone makes.
const ALONE: usize = 8;

/// Draws the suggestion over the upper half; the strip below shows it to scale.
pub(super) fn draw_suggestion(state: &State, view: &SuggestionView, area: Area, buffer: &mut Buffer) {
    let (heading, proof) = head(state, view);
    let inside = page(area, &heading, buffer);
    let foot = " alone: how the score changes if that slot alone does ";
    let foot_at = (area.x + area.width).saturating_sub(u16::try_from(foot.len()).unwrap_or(0) + 1);
    put(buffer, foot_at.max(1), area.y + area.height.saturating_sub(1), area.width, foot, faint());
    let wrapped = |text: &str| -> Vec<String> {
        textwrap::wrap(text, usize::from(inside.width).max(1)).into_iter().map(Into::into).collect()
    };
    let (proof, reasons) = (wrapped(&proof), wrapped(&view.reasons.join("; ")));
    for (y, line) in (inside.y..inside.y + inside.height).zip(&proof) {
        put(buffer, inside.x, y, inside.width, line, strong());
    }
    let before = Columns::of(inside.width, view).before_alone();
    if proof.len() == 1 && proof[0].width() < before {
        let x = inside.x + u16::try_from(before).unwrap_or(0);
        let width = (inside.x + inside.width).saturating_sub(x);
        put(buffer, x, inside.y, width, &format!("{:>ALONE$}", "alone"), faint());
    }
    let height = usize::from(inside.height).saturating_sub(proof.len());
    let rows = height.saturating_sub(reasons.len()).max(FEWEST_ROWS).min(height);
    let lines = |count: usize| u16::try_from(count).unwrap_or(0);
    let list = Area { y: inside.y + lines(proof.len()), height: lines(rows), ..inside };
    draw_changes(state, view, list, buffer);
    let below = list.y + list.height;
    for (y, line) in (below..inside.y + inside.height).zip(&reasons) {
        put(buffer, inside.x, y, inside.width, line, Style::new());
    }
}

/// Which suggestion it is and what it gains; what is proved, and whether the search goes on.
fn head(state: &State, view: &SuggestionView) -> (String, String) {
    let Some(suggesting) = &state.work.suggesting else { return (String::new(), String::new()) };
    let pursuit = &suggesting.pursuit;
    let (now, then, found) =
        (state.trial.verdict().score, view.suggestion.score, pursuit.outcome().suggestions.len());
    let so_far = if pursuit.run() == Run::Done { "" } else { " so far" };
    let gain = match (now == then, view.changed()) {
        (true, 0) => format!("{now}, as it is"),
        (_, 1) => format!("{now} to {then}, 1 slot changes"),
        (_, changed) => format!("{now} to {then}, {changed} slots change"),
    };
    let heading = format!("suggestion {} of {found}{so_far}: {gain}", view.place + 1);
    // What lies under a line can change with its height.
    let lies = if view.score == then { String::new() } else { format!("; as it would lie {}", view.score) };
    let claim = format!("{}{lies}", pursuit.claim(view.place));
    let steps = pursuit.steps();
    let proof = match pursuit.run() {
        Run::Going => format!("{claim}; looking on, {steps} steps, s stops"),
        Run::Stopped => format!("{claim}; stopped at {steps} steps, s goes on"),
        Run::OutOfTime => format!("{claim}; took long, stopped at {steps} steps, s goes on"),
        Run::Done => claim,
    };
    (heading, proof)
}

/// The columns of a row: what stands there now and what would, of one width.
struct Columns {
    letter: usize,
    /// Columns of the looks within a letter's.
    looks: usize,
}

impl Columns {
    /// How many columns stand before the difference.
    const fn before_alone(&self) -> usize {
        12 + 2 * self.letter
    }

    /// Number and character take 9 columns, the arrow 3, the difference 8.
    fn of(width: u16, view: &SuggestionView) -> Self {
        let letter = usize::from(width).saturating_sub(12 + ALONE).div_euclid(2).clamp(12, 42);
        let letters = view.changes.iter().flat_map(|change| [&change.now, &change.then]).flatten();
        let looks = letters.map(|letter| letter.looks.width()).max().unwrap_or(0);
        // Where there is room the looks stand below each other.
        Self { letter, looks: if letter < 36 { 0 } else { looks.min(letter - SIGN - 8) } }
    }
}

fn draw_changes(state: &State, view: &SuggestionView, area: Area, buffer: &mut Buffer) {
    let columns = Columns::of(area.width, view);
    let rows = usize::from(area.height);
    let several = state.trial.plan().strips().len() > 1;
    let mut lines: Vec<Line<'_>> = Vec::new();
    for (row, change) in view.changes.iter().enumerate() {
        if several && change.at.1 == 0 {
            lines.push(Line::Strip(change.at.0));
        }
        lines.push(Line::Slot(row, change));
    }
    let place = lines.iter().position(|line| matches!(line, Line::Slot(row, _) if *row == view.chosen));
    let top = centred(place.unwrap_or(0), rows, lines.len());
    for (y, line) in (area.y..).zip(lines.iter().skip(top).take(rows)) {
        let area = Area { y, height: 1, ..area };
        match line {
            Line::Strip(strip) => draw_strip_line(state, view, *strip, area, buffer),
            Line::Slot(row, change) => {
                draw_change(state, change, *row == view.chosen, &columns, area, buffer);
            }
        }
    }
}

/// A line of the list.
enum Line<'a> {
    /// The heading of a strip, where there are several.
    Strip(usize),
    /// A slot, by its row among the changes.
    Slot(usize, &'a SlotChange),
}

/// The first of `len` lines shown on `rows`, so that the one at `place` is about in the middle.
fn centred(place: usize, rows: usize, len: usize) -> usize {
    place.saturating_sub(rows / 2).min(len.saturating_sub(rows))
}

fn draw_strip_line(state: &State, view: &SuggestionView, strip: usize, area: Area, buffer: &mut Buffer) {
    let role = state.trial.strip(strip).role();
    let now = state.trial.verdict().strips.get(strip).map_or(Points::ZERO, |one| one.score);
    let then = view.suggestion.strips.get(strip).map_or(Points::ZERO, |one| one.score);
    let text =
        if now == then { format!("{role}: {now}, as it is") } else { format!("{role}: {now} to {then}") };
    put(buffer, area.x, area.y, area.width, &text, strong());
}

fn draw_change(
    state: &State,
    change: &SlotChange,
    is_chosen: bool,
    columns: &Columns,
    area: Area,
    buffer: &mut Buffer,
) {
    let style = if is_chosen { chosen() } else { Style::new() };
    let mark = if is_chosen { ">" } else { " " };
    let slot = format!("{mark} {:>3} {} ", change.at.1 + 1, fit(sign(&change.wanted), 2));
    let end = area.x + area.width;
    let x = put(buffer, area.x, area.y, area.width, &slot, style);
    let x = draw_letter(state, change.now.as_ref(), "empty", columns, Area { x, ..area }, buffer);
    let moves = matches!(change.change, Change::Changes | Change::Unserved | Change::LeftEmpty)
        && change.now != change.then;
    let arrow = if moves { " → " } else { " = " };
    let x = put(buffer, x, area.y, end.saturating_sub(x), arrow, Style::new());
    let x = match change.change {
        Change::Changes => {
            draw_letter(state, change.then.as_ref(), "empty", columns, Area { x, ..area }, buffer)
        }
        other => {
            let text = match other {
                Change::Stays => "stays".to_owned(),
                Change::LeftAlone(why) => format!("stays: {why}"),
                Change::Unserved => "empty: nothing left serves".to_owned(),
                Change::LeftEmpty | Change::Changes => "empty".to_owned(),
            };
            let text = fit(&text, columns.letter);
            put(buffer, x, area.y, end.saturating_sub(x), &text, faint())
        }
    };
    let alone = change.alone.map_or_else(String::new, signed);
    put(buffer, x, area.y, end.saturating_sub(x), &format!("{alone:>ALONE$}"), Style::new());
}

/// A letter: its character on its colour, its sheet, its looks.
fn draw_letter(
    state: &State,
    letter: Option<&LetterTold>,
    none: &str,
    columns: &Columns,
    area: Area,
    buffer: &mut Buffer,
) -> u16 {
    let Some(letter) = letter else {
        return put(buffer, area.x, area.y, area.width, &fit(none, columns.letter), faint());
    };
    let style = letter.colour.map_or_else(Style::new, |colour| Paint(state.look.colours).swatch(colour));
    let x = put(buffer, area.x, area.y, area.width, &format!(" {}", fit(sign(&letter.sign), 2)), style);
    // What a long look takes more than its columns, the sheet's name has less.
    let room = columns.letter.saturating_sub(SIGN);
    let looks = letter.looks.width().max(columns.looks);
    let sheet = room.saturating_sub(looks + 1);
    let text = if sheet < 5 {
        fit(&letter.looks, room)
    } else {
        format!("{} {}", fit(&letter.sheet, sheet), fit(&letter.looks, looks))
    };
    put(buffer, x, area.y, area.width, &format!(" {text}"), Style::new())
}

/// Draws what one more letter would do.
pub(super) fn draw_one_more(state: &State, area: Area, buffer: &mut Buffer) {
    let inside = page(area, "what one more letter would do for the best mix", buffer);
    let Some(one_more) = &state.work.one_more else { return };
    let width = usize::from(inside.width).max(1);
    let mut y = inside.y;
    for (place, line) in one_more.lines().iter().enumerate() {
        for row in textwrap::wrap(line, textwrap::Options::new(width).subsequent_indent("  ")) {
            if y < inside.y + inside.height {
                put(
                    buffer,
                    inside.x,
                    y,
                    inside.width,
                    &row,
                    if place == 0 { strong() } else { Style::new() },
                );
                y += 1;
            }
        }
    }
}
