//! The order's view: what the placement order says, and the sheets of paper as they will print.
//!
//! Must not know what a key does.

mod lines;
mod picture;
mod writing;

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Action, Area, OrderPanes, OrderSide, State};
use crate::order::Form;
use crate::page::Paper;

use super::paint::{chosen, faint, strong};
use super::words::{fit, put};

/// Draws the order's view.
pub(super) fn draw_order(state: &State, buffer: &mut Buffer) {
    let panes = state.order_panes();
    if panes.words.width > 0 {
        draw_words(state, panes, buffer);
    }
    if panes.heading.width > 0 {
        draw_sheets(state, panes, buffer);
    }
}

/// The words, and which of their lines are seen.
fn draw_words(state: &State, panes: OrderPanes, buffer: &mut Buffer) {
    let (area, words) = (panes.words, &state.order.words);
    let (first, count) = (words.top, words.lines.len());
    let last = (first + state.order_rows()).min(count);
    let told = if last - first == count {
        format!("{count} lines")
    } else {
        format!("lines {} to {last} of {count}", first + 1)
    };
    draw_heading(state, (OrderSide::Words, &told), area, buffer);
    for (y, line) in (area.y + 1..area.y + area.height).zip(words.lines.iter().skip(first)) {
        // On fewer columns than a line has it is told that something is missing.
        put(buffer, area.x, y, area.width, fit(line, usize::from(area.width)).trim_end(), Style::new());
    }
}

/// The chosen sheet of paper, what it is, and the list of all; or why there is none.
fn draw_sheets(state: &State, panes: OrderPanes, buffer: &mut Buffer) {
    let told = match state.order.count() {
        0 => "none".to_owned(),
        1 => "1".into(),
        count => format!("{} of {count}", state.order.chosen + 1),
    };
    let told = match state.seen_of_paper() {
        Some(seen) => format!("{told}, {seen}"),
        None => told,
    };
    let heading = panes.heading;
    draw_heading(state, (OrderSide::Sheets, &told), heading, buffer);
    let below = Area { y: heading.y + 1, height: heading.height.saturating_sub(1), ..heading };
    let Some(sheet) = state.order.sheet() else {
        let height = below.height + panes.picture.height;
        return write_wrapped(&why_none(state), Area { y: below.y + 1, height, ..below }, strong(), buffer);
    };
    write_wrapped(&[state.sheet_told(sheet)], below, Style::new(), buffer);
    if let Some(map) = state.order_map() {
        picture::draw(sheet, &map, state.look.colours, buffer);
    }
    draw_list(state, panes, buffer);
}

/// The name of a look, which is marked where it has the keys; and what is told of it.
fn draw_heading(state: &State, (side, told): (OrderSide, &str), area: Area, buffer: &mut Buffer) {
    let (name, other) = match side {
        OrderSide::Words => (" words ", "the sheets"),
        OrderSide::Sheets | OrderSide::Near => (" sheets ", "the words"),
    };
    let has_keys = (side == OrderSide::Words) == (state.order.side == OrderSide::Words);
    let style = if has_keys { chosen() } else { strong() };
    let x = put(buffer, area.x, area.y, area.width, name, style) + 1;
    let is_near = state.order.side == OrderSide::Near && state.order.sheet().is_some();
    let way = if is_near {
        format!("{told}; {}: all of it", state.key_told(Action::PaperNear))
    } else if state.order_panes().is_narrow() {
        format!("{told}; {}: {other}", state.key_told(Action::OtherSide))
    } else {
        told.to_owned()
    };
    put(buffer, x, area.y, (area.x + area.width).saturating_sub(x), &way, faint());
}

/// Why there is no sheet, and what would make one.
fn why_none(state: &State) -> Vec<String> {
    let key = |action| state.key_told(action);
    if state.order.form == Form::Text {
        let form = key(Action::NextForm);
        return vec![
            "Text has no sheets of paper: it is the words alone, for any printer.".into(),
            format!("{form} goes on to svg, a file for each sheet, and to pdf."),
        ];
    }
    match &state.order.sheets {
        Ok(_) => vec!["There is nothing to print yet.".into()],
        Err(problem) if state.order_paper() == Paper::Page => {
            let (paper, page) = (key(Action::NextPaper), key(Action::ToPage));
            let cure = format!(
                "{paper} chooses another paper; {page}, then {}, gives the page its size.",
                key(Action::PageSize)
            );
            vec![format!("No sheets: {problem}."), cure]
        }
        Err(problem) => vec![format!("No sheets: {problem}.")],
    }
}

/// Sentences over as many lines as there is room for: the first in `style`.
fn write_wrapped(sentences: &[String], area: Area, mut style: Style, buffer: &mut Buffer) {
    let width = usize::from(area.width.max(1));
    let mut rows = area.y..area.y + area.height;
    for sentence in sentences {
        for line in textwrap::wrap(sentence, width) {
            let Some(y) = rows.next() else { return };
            put(buffer, area.x, y, area.width, &line, style);
        }
        style = Style::new();
    }
}

/// All sheets, the chosen one marked.
fn draw_list(state: &State, panes: OrderPanes, buffer: &mut Buffer) {
    let area = panes.list;
    let Ok(sheets) = &state.order.sheets else { return };
    let listed = sheets.iter().enumerate().skip(panes.first_listed);
    for (y, (place, sheet)) in (area.y..area.y + area.height).zip(listed) {
        let is_chosen = place == state.order.chosen;
        let style = match state.order.side {
            OrderSide::Sheets | OrderSide::Near if is_chosen => chosen(),
            OrderSide::Words if is_chosen => strong(),
            _ => Style::new(),
        };
        let told = format!("{}{:>2}  {}", if is_chosen { '>' } else { ' ' }, place + 1, sheet.told);
        put(buffer, area.x, y, area.width, &fit(&told, usize::from(area.width)), style);
    }
}
