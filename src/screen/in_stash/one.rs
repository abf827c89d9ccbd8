//! The chosen sheet: what is told of it, its letters, what happened to it last.
//!
//! Must not know the list.

use std::fmt::Write;

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Area, State, entry_told};
use crate::checks::tell_length;
use crate::letter::Character;
use crate::measure::Tint;
use crate::stash::{Form, HeightOf, Sheet};

use super::super::paint::{faint, strong};
use super::super::words::put;

/// Draws what is told of the chosen sheet.
pub(super) fn draw(state: &State, area: Area, buffer: &mut Buffer) {
    let Some(sheet) = state.sheet() else { return };
    let mut lines = vec![(sheet.told(), strong())];
    let mut say = |text: String, style: Style| {
        let width = usize::from(area.width.max(8));
        let options = textwrap::Options::new(width).subsequent_indent("  ");
        lines.extend(textwrap::wrap(&text, options).into_iter().map(|line| (line.into_owned(), style)));
    };
    say(made(sheet, state), Style::new());
    say(painted(sheet), Style::new());
    if sheet.label.aside {
        say("set aside: its letters are not offered (x uses it again)".into(), strong());
    }
    if let Some(note) = &sheet.label.note {
        say(note.clone(), faint());
    }
    say(String::new(), Style::new());
    for (heading, letters) in lots(sheet) {
        say(format!("{heading}{letters}"), Style::new());
    }
    say(counted(sheet, state), faint());
    let mut history = state.shelf.ledger.history(sheet).peekable();
    if history.peek().is_some() {
        say(String::new(), Style::new());
    }
    for entry in history.take(3) {
        say(entry_told(entry, sheet), faint());
    }
    for (y, (text, style)) in (area.y..area.y + area.height).zip(lines) {
        put(buffer, area.x, y, area.width, &text, style);
    }
}

/// `die-cut, capitals 20 mm, gloss; letters that join`.
pub(super) fn made(sheet: &Sheet, state: &State) -> String {
    let unit = state.unit();
    let height = if sheet.size.height.nm() > 0 {
        tell_length(sheet.size.height, unit)
    } else {
        "height not measured yet".into()
    };
    let mut text = match (sheet.make.form, sheet.size.height_of, sheet.size.tile_width) {
        (Form::Tile, _, Some(width)) => format!("tile {} wide, {height} high", tell_length(width, unit)),
        (Form::Tile, _, None) => format!("tile {height}"),
        (Form::DieCut, HeightOf::Capital, _) => format!("die-cut, capitals {height}"),
        (Form::DieCut, HeightOf::Small, _) => format!("die-cut, small letters {height}"),
        (Form::DieCut, HeightOf::Tall, _) => format!("die-cut, tall letters {height}"),
    };
    let _ = write!(text, ", {}", sheet.make.finish);
    let words = [
        (sheet.make.plain_tile, "can be turned"),
        (sheet.make.neutral, "goes with any page"),
        (sheet.make.joined, "letters that join"),
    ];
    for (_, word) in words.iter().filter(|(is, _)| *is) {
        let _ = write!(text, "; {word}");
    }
    if let Some(thick) = sheet.size.thick {
        let _ = write!(text, "; {} thick", tell_length(thick, unit));
    }
    text
}

/// `gold on black`.
pub(super) fn painted(sheet: &Sheet) -> String {
    let mut text = named(&sheet.paint.colours);
    if let Some(tile) = &sheet.paint.tile {
        let _ = write!(text, " on {}", tile.name());
    }
    if let Some(outline) = &sheet.paint.outline {
        let _ = write!(text, ", rim {}", outline.name());
    }
    text
}

/// Names of colours, joined.
pub(super) fn named(colours: &[Tint]) -> String {
    colours.iter().map(|tint| tint.name()).collect::<Vec<_>>().join(" and ")
}

/// The letters that are left, mark by mark: what the mark is told as, and `A2 E1`.
fn lots(sheet: &Sheet) -> Vec<(String, String)> {
    let mut lots: Vec<(String, String)> = Vec::new();
    for letter in sheet.letters.iter().filter(|letter| letter.left > 0) {
        let heading = match &letter.mark {
            Some(_) if !letter.colours.is_empty() => format!("{}: ", named(&letter.colours)),
            Some(mark) => format!("{}: ", mark.as_str()),
            None => String::new(),
        };
        let told = told(&letter.character, letter.left);
        match lots.iter_mut().find(|(other, _)| *other == heading) {
            Some((_, letters)) => {
                let _ = write!(letters, " {told}");
            }
            None => lots.push((heading, told)),
        }
    }
    lots
}

/// `A2`; of a figure `3×2`.
pub(super) fn told(character: &Character, count: u16) -> String {
    let times = if character.base().is_numeric() { "×" } else { "" };
    format!("{character}{times}{count}")
}

fn counted(sheet: &Sheet, state: &State) -> String {
    let stash = &state.shelf.stash;
    let place = stash.sheets().iter().position(|other| other.id == sheet.id);
    let spoken: u32 = place.map_or(0, |place| {
        let chips = stash.chips_of(place);
        chips
            .map(|chip| u32::from(state.trial.spoken().times(chip) + state.shelf.scene.elsewhere.times(chip)))
            .sum()
    });
    match (sheet.left(), spoken) {
        (0, _) => "no letter is left: a spent sheet".into(),
        (left, 0) => format!("{left} left"),
        (left, spoken) => format!("{left} left, {spoken} spoken for by plans"),
    }
}
