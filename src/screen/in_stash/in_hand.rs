//! A sheet in hand: its fields, the colours to choose from, the letters as they are read off.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::layout::Position;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::{Area, Count, Counting, SWATCH_WIDTH, Stage, State};
use crate::stash::Lot;

use super::super::paint::{Paint, chosen, faint, strong};
use super::super::words::{fit, put};
use super::one::{made, named, painted, told};

/// Draws the sheet in hand; gives back where the cursor stands while something is typed.
pub(super) fn draw(state: &State, counting: &Counting, area: Area, buffer: &mut Buffer) -> Option<Position> {
    let y = draw_heading(state, counting, area, buffer);
    let below = Area { y, height: (area.y + area.height).saturating_sub(y), ..area };
    match counting.stage {
        Stage::Fields => {
            draw_fields(state, counting, below, buffer);
            None
        }
        Stage::Colour => Some(draw_swatches(state, counting, below, buffer)),
        Stage::Letters => Some(draw_letters(state, counting, below, buffer)),
    }
}

/// What is done with which sheet, and what is told of it; gives back the row after it.
fn draw_heading(state: &State, counting: &Counting, area: Area, buffer: &mut Buffer) -> u16 {
    let sheet = &counting.sheet;
    let heading = match (counting.count, &counting.like) {
        (Count::New, Some(like)) => format!("a new sheet, like {like}"),
        (Count::New, None) => "a new sheet".to_owned(),
        (Count::Anew, _) => format!("all letters of {}, counted anew", sheet.told()),
        (Count::More, _) => format!("letters counted in on {}", sheet.told()),
        (Count::Fewer, _) => format!("letters counted out of {}", sheet.told()),
        (Count::Told, _) => format!("what is told of {}", sheet.told()),
    };
    let line = |buffer: &mut Buffer, y: u16, text: &str, style: Style| {
        put(buffer, area.x + 1, y, area.width.saturating_sub(1), text, style);
    };
    line(buffer, area.y, &fit(&heading, usize::from(area.width.saturating_sub(1))), strong());
    if counting.stage == Stage::Fields {
        return area.y + 2;
    }
    let colour = match counting.stage {
        Stage::Letters => format!("; {}", painted(sheet)),
        _ => String::new(),
    };
    let mut y = area.y + 1;
    for text in wrapped(&format!("{}{colour}", made(sheet, state)), area.width) {
        line(buffer, y, &text, Style::new());
        y += 1;
    }
    if let (Count::New, Some(tag)) = (counting.count, &sheet.label.tag) {
        line(buffer, y, &format!("tag {tag}: write it on the sheet"), Style::new());
        y += 1;
    }
    y + 1
}

fn draw_fields(state: &State, counting: &Counting, area: Area, buffer: &mut Buffer) {
    let fields: Vec<_> = counting.fields().collect();
    let now = fields.iter().position(|field| *field == counting.field).unwrap_or(0);
    let rows = usize::from(area.height);
    let top = (now + 1).saturating_sub(rows);
    for (y, field) in (area.y..area.y + area.height).zip(fields.iter().skip(top)) {
        let style = if *field == counting.field { chosen() } else { Style::new() };
        let told = field.spell(&counting.sheet, &state.shelf.names, state.unit());
        let told = if told.is_empty() { "-".to_owned() } else { told };
        put(buffer, area.x + 1, y, 12, &fit(field.label(), 12), faint());
        put(buffer, area.x + 14, y, area.width.saturating_sub(15), &told, style);
    }
}

/// The beginning of a colour's name, and the colours that it may be.
fn draw_swatches(state: &State, counting: &Counting, area: Area, buffer: &mut Buffer) -> Position {
    let swatches = &counting.swatches;
    let end = put(buffer, area.x + 1, area.y, area.width, "colour: ", strong());
    let end = put(buffer, end, area.y, area.width.saturating_sub(end), &swatches.begun, Style::new());
    if swatches.begun.is_empty() {
        put(buffer, end + 1, area.y, area.width.saturating_sub(end + 1), "type how its name begins", faint());
    }
    let (per_row, rows) = (state.swatches_per_row(), usize::from(area.height.saturating_sub(2)).max(1));
    let first = (swatches.chosen / per_row + 1).saturating_sub(rows) * per_row;
    for (place, tint) in swatches.offers.iter().enumerate().skip(first).take(per_row * rows) {
        let (row, column) = ((place - first) / per_row, (place - first) % per_row);
        let y = area.y + 2 + u16::try_from(row).unwrap_or(u16::MAX);
        let x = area.x + u16::try_from(column).unwrap_or(0) * SWATCH_WIDTH;
        let is_chosen = place == swatches.chosen;
        let x = put(buffer, x, y, 1, if is_chosen { ">" } else { " " }, strong());
        let x = put(buffer, x, y, 3, " A ", Paint(state.look.colours).swatch(tint.colour));
        let style = if is_chosen { chosen() } else { Style::new() };
        let name = fit(&tint.name(), usize::from(SWATCH_WIDTH) - 6);
        put(buffer, x + 1, y, SWATCH_WIDTH - 6, name.trim_end(), style);
    }
    if swatches.offers.is_empty() {
        let text = "no colour is called so; type another beginning, or #rrggbb";
        put(buffer, area.x + 1, area.y + 2, area.width.saturating_sub(1), text, Style::new());
    }
    Position::new(end.min(area.x + area.width.saturating_sub(1)), area.y)
}

/// The letters as they were read off, and how many of each there are.
fn draw_letters(state: &State, counting: &Counting, area: Area, buffer: &mut Buffer) -> Position {
    let tally = &counting.tally;
    let now = &tally.lots()[tally.chosen()];
    let name = format!("{}: ", called(tally.lots(), tally.chosen()));
    let x =
        put(buffer, area.x + 1, area.y, 3, " A ", Paint(state.look.colours).swatch(now.colours[0].colour));
    let x = put(buffer, x + 1, area.y, area.width.saturating_sub(x), &name, strong());
    // The end of a long run is what matters.
    let room = usize::from((area.x + area.width).saturating_sub(x + 2));
    let run: String = tally.run().iter().map(|(character, _)| character.as_str()).collect();
    let mut shown = run.as_str();
    while shown.width() > room {
        let next = crate::letter::characters(shown).next().map_or(shown.len(), str::len);
        shown = &shown[next..];
    }
    let cursor = put(buffer, x, area.y, area.width.saturating_sub(x), shown, Style::new());
    if run.is_empty() {
        let text = "type the letters as you read them off";
        put(buffer, x + 1, area.y, area.width.saturating_sub(x + 1), text, faint());
    }
    draw_lots(counting, Area { y: area.y + 2, height: area.height.saturating_sub(2), ..area }, buffer);
    Position::new(cursor.min(area.x + area.width.saturating_sub(1)), area.y)
}

/// Lot by lot how many of each letter there are, and of all; where there is too little room, down to the lot in hand.
fn draw_lots(counting: &Counting, area: Area, buffer: &mut Buffer) {
    let tally = &counting.tally;
    let (mut lines, mut end_of_chosen) = (Vec::new(), 0);
    for place in 0..tally.lots().len() {
        let letters = tally.in_lot(place).into_iter().map(|(character, count)| told(character, count));
        let letters = letters.collect::<Vec<_>>().join(" ");
        if letters.is_empty() && tally.lots().len() == 1 {
            continue;
        }
        let style = if place == tally.chosen() { strong() } else { Style::new() };
        let text = format!("{}: {letters}", called(tally.lots(), place));
        lines.extend(wrapped(&text, area.width).into_iter().map(|line| (line, style)));
        if place == tally.chosen() {
            end_of_chosen = lines.len();
        }
    }
    let rows = usize::from(area.height.saturating_sub(2));
    let shown = lines.iter().skip(end_of_chosen.saturating_sub(rows)).take(rows);
    let mut y = area.y;
    for (line, style) in shown {
        put(buffer, area.x + 1, y, area.width.saturating_sub(1), line, *style);
        y += 1;
    }
    let count = tally.run().len();
    let sum = if count == 1 { "1 letter".to_owned() } else { format!("{count} letters") };
    put(buffer, area.x + 1, y + 1, area.width.saturating_sub(1), &sum, faint());
    let below = Area { y: y + 3, height: (area.y + area.height).saturating_sub(y + 3), ..area };
    draw_there(counting, below, buffer);
}

/// What the stash counts of the sheet until now, as far as there is room.
fn draw_there(counting: &Counting, area: Area, buffer: &mut Buffer) {
    if !matches!(counting.count, Count::Anew | Count::More | Count::Fewer) {
        return;
    }
    let lots = counting.tally.lots();
    let there = |place: usize| {
        let letters = counting.sheet.letters.iter();
        let letters = letters.filter(|letter| letter.mark == lots[place].mark && letter.left > 0);
        let told: Vec<String> = letters.map(|letter| told(&letter.character, letter.left)).collect();
        (!told.is_empty()).then(|| format!("{}: {}", called(lots, place), told.join(" ")))
    };
    let there: Vec<String> = (0..lots.len()).filter_map(there).collect();
    let there = if there.is_empty() { "none left".to_owned() } else { there.join("; ") };
    let lines = wrapped(&format!("there until now: {there}"), area.width);
    for (y, line) in (area.y..area.y + area.height).zip(&lines) {
        put(buffer, area.x + 1, y, area.width.saturating_sub(1), line, faint());
    }
}

/// A lot by its colours, and by its mark where another has the same.
fn called(lots: &[Lot], place: usize) -> String {
    let name = named(&lots[place].colours);
    let is_shared = lots.iter().filter(|lot| named(&lot.colours) == name).count() > 1;
    match &lots[place].mark {
        Some(mark) if is_shared => format!("{name} ({})", mark.as_str()),
        _ => name,
    }
}

fn wrapped(text: &str, width: u16) -> Vec<String> {
    let options = textwrap::Options::new(usize::from(width.saturating_sub(2)).max(8)).subsequent_indent("  ");
    textwrap::wrap(text, options).into_iter().map(std::borrow::Cow::into_owned).collect()
}
