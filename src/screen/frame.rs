//! The whole screen.
//!
//! Must not know what changed since it was drawn last.

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Action, Area, Key, Over, Pane, Row, SMALLEST, State, View, is_of_place};
use crate::stash::{Chip, ChipIx, Form};
use crate::title::{Layout, Sticker};

use super::checks::draw_checks;
use super::grid::draw_grid;
use super::head::draw_head;
use super::in_order::draw_order;
use super::in_stash::draw_stash;
use super::in_words::draw_wordings;
use super::on_page::{draw_page, in_words};
use super::over::draw_over;
use super::paint::{faint, strong};
use super::strip::draw_strip;
use super::words::{fit, put};

/// Draws the state.
pub fn draw(state: &State, frame: &mut Frame<'_>) {
    let size = frame.area();
    if size.width < SMALLEST.0 || size.height < SMALLEST.1 {
        return too_small(state, frame.buffer_mut());
    }
    let cursor = {
        let buffer = frame.buffer_mut();
        draw_head(state, buffer);
        let typed = match state.look.view {
            View::Bench => {
                draw_grid(state, buffer);
                draw_checks(state, buffer);
                draw_strip(state, buffer);
                None
            }
            View::Page => {
                draw_page(state, buffer);
                None
            }
            View::Wording => {
                draw_wordings(state, buffer);
                None
            }
            View::Order => {
                draw_order(state, buffer);
                None
            }
            View::Stash => draw_stash(state, buffer).filter(|_| matches!(state.over, Over::Nothing)),
        };
        draw_keys(state, buffer);
        if matches!(state.over, Over::Typing(_)) {
            draw_over(state, buffer)
        } else {
            // A long notice lies over what is above it.
            let cursor = draw_over(state, buffer);
            draw_notice(state, buffer);
            cursor.or(typed)
        }
    };
    if let Some(cursor) = cursor {
        frame.set_cursor_position(cursor);
    }
}

fn too_small(state: &State, buffer: &mut Buffer) {
    let ((width, height), area) = (SMALLEST, buffer.area);
    let acts = if state.holds_letters() {
        "no key acts: letters are being counted."
    } else {
        "no key acts but q: it leaves, and the trial is kept."
    };
    let text = format!(
        "oddment needs {width} x {height} cells; this is {} x {}. Nothing is lost; {acts}",
        area.width, area.height
    );
    for (y, line) in (0..area.height).zip(textwrap::wrap(&text, usize::from(area.width.max(1)))) {
        put(buffer, 0, y, area.width, &line, Style::new());
    }
}

/// What was said last, over as many lines as it needs, the last of them at the bottom; else what is chosen.
fn draw_notice(state: &State, buffer: &mut Buffer) {
    let area = state.panes().notice;
    let said = state.notice.as_ref().map(|notice| notice.text.as_str());
    let text = match (said, state.progress()) {
        (Some(said), Some(progress)) => format!("{said}   {progress}"),
        (None, Some(progress)) => progress,
        (Some(said), None) => said.to_owned(),
        (None, None) if matches!(state.over, Over::Nothing) => {
            let text = fit(&chosen_in_words(state), usize::from(area.width));
            put(buffer, area.x, area.y, area.width, text.trim_end(), faint());
            return;
        }
        (None, None) => return,
    };
    let is_plain = state.progress().is_none() && state.notice.as_ref().is_some_and(|notice| !notice.fault);
    let style = if is_plain { Style::new() } else { strong() };
    let width = usize::from(area.width.max(1));
    for (y, line) in (0..=area.y).rev().zip(textwrap::wrap(&text, width).iter().rev()) {
        put(buffer, area.x, y, area.width, &fit(line, width), style);
    }
}

/// What has the keys, in words.
fn chosen_in_words(state: &State) -> String {
    match state.look.view {
        View::Page => return in_words(state),
        View::Stash | View::Wording | View::Order => return String::new(),
        View::Bench => {}
    }
    match state.bench.pane {
        Pane::Strip => letter_in_words(state),
        Pane::Grid => {
            state.bench.grid.chosen_chip().map_or_else(String::new, |chip| grid_chip_in_words(state, chip))
        }
        Pane::Checks => match state.findings().get(state.bench.finding) {
            Some(finding) if is_of_place(finding) => {
                format!("{}: enter goes to the page, where the strip is carried; a accepts it", finding.id)
            }
            Some(finding) => {
                format!("{}: enter goes there and lists what would cure it; a accepts it", finding.id)
            }
            None => "nothing is amiss".into(),
        },
    }
}

fn letter_in_words(state: &State) -> String {
    let (strip, slot) = (state.strip(), state.bench.slot);
    let Some(stood) = strip.letter(slot) else {
        return match strip.len() {
            0 => String::new(),
            _ => "nothing stands here; down swaps in the best letter".into(),
        };
    };
    let layout = Layout::of(strip, &state.shelf.stash);
    let unit = state.unit();
    let place = layout.letters.get(slot).map_or_else(String::new, |letter| {
        let about = if letter.estimated { "~" } else { "" };
        format!(", {about}{} wide, at {}", letter.width.show(unit), letter.left.show(unit))
    });
    match &stood.sticker {
        Sticker::Hand(thing) => format!("{} by hand{place}", thing.label),
        Sticker::Chip { id, stands_in } => match state.shelf.stash.find(id) {
            None => format!("{id}: the stash has it no more"),
            Some(chip) => {
                let as_what = stands_in.map_or_else(String::new, |kind| format!(", {kind}"));
                format!("{}{as_what}{place}", chip_in_words(state, state.shelf.stash.chip(chip)))
            }
        },
    }
}

fn grid_chip_in_words(state: &State, ix: ChipIx) -> String {
    let chip = state.shelf.stash.chip(ix);
    let mut text = format!("{}, {} left", chip_in_words(state, chip), chip.letter.left);
    if state.trial.spoken().times(ix) > 0 {
        text += &format!(", {} on the strips", state.trial.spoken().times(ix));
    }
    for (name, times) in state.shelf.scene.elsewhere.whose(ix) {
        text += &format!(", {times} in {name}");
    }
    text
}

/// `E of 07 Harbour blocks, teal tile, 12.0 mm`.
pub(super) fn chip_in_words(state: &State, chip: Chip<'_>) -> String {
    let form = match chip.sheet.make.form {
        Form::Tile => "tile",
        Form::DieCut => "die-cut",
    };
    let (sheet, height) = (chip.sheet.told(), chip.shown_height().show(state.unit()));
    format!("{} of {sheet}, {} {form}, {height}", chip.letter.character.spoken(), chip.colours()[0].name())
}

/// What must be found on every screen, in this order: the way to the other panes and views, to the keys and out.
const ALWAYS: [Action; 19] = [
    Action::PaneNext,
    Action::ThingNext,
    Action::Suggest,
    Action::RestNext,
    Action::ToBench,
    Action::ToPage,
    Action::ToStash,
    Action::ToWording,
    Action::ShowOrder,
    Action::FieldsDone,
    Action::Counted,
    Action::OtherColour,
    Action::TakeColour,
    Action::LeaveSheet,
    Action::HelpOnSheet,
    Action::Wording,
    Action::Save,
    Action::Help,
    Action::Quit,
];

/// The keys that work now, as many as there is room for; those of [`ALWAYS`] in any case, at the end.
fn draw_keys(state: &State, buffer: &mut Buffer) {
    if matches!(state.over, Over::Typing(_)) {
        return;
    }
    let Area { mut x, y, width, .. } = state.panes().keys;
    let told = |row: &&'static Row, keys: &[Key]| {
        let here = row.action == state.look.view.action();
        let key = keys.first().filter(|_| !row.label.is_empty() && !here)?;
        let carries = row.action == Action::CarryRight && key.to_string() == "right";
        Some((if carries { "←↑↓→".into() } else { arrows(&key.to_string()) }, row.label))
    };
    let working = || state.look.keys.working(state.focus()).filter(|(row, _)| state.is_of_use(row.action));
    let needs = |(key, label): &(String, &str)| {
        u16::try_from(key.chars().count() + label.chars().count() + 3).unwrap_or(0)
    };
    // Where there is little room the first line alone tells the way to the other views.
    let ways = View::ALL.map(View::action);
    let last: Vec<_> = ALWAYS
        .iter()
        .filter(|action| width >= 160 || !ways.contains(action))
        .filter_map(|action| working().find(|(row, _)| row.action == *action))
        .filter_map(|(row, keys)| told(&row, keys))
        .collect();
    let kept: u16 = last.iter().map(needs).sum();
    let first =
        working().filter(|(row, _)| !ALWAYS.contains(&row.action)).filter_map(|(row, keys)| told(&row, keys));
    let mut room = width.saturating_sub(kept);
    for (word, is_last) in
        first.map(|word| (word, false)).chain(last.iter().cloned().map(|word| (word, true)))
    {
        if is_last {
            room = width;
        }
        if x + needs(&word) > room {
            continue;
        }
        x = put(buffer, x, y, width - x, &word.0, strong());
        x = put(buffer, x + 1, y, width.saturating_sub(x + 1), word.1, Style::new()) + 2;
    }
}

fn arrows(key: &str) -> String {
    match key {
        "right" => "←→",
        "down" => "↑↓",
        other => other,
    }
    .into()
}
