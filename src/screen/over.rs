//! What lies over the bench: lists, pages, a line being typed, a question.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::layout::Position;
use ratatui::style::Style;

use crate::app::{Area, Comparison, Over, PlanList, Question, Scroll, State, StripMap, Typing, What};
use crate::checks::Verdict;
use crate::title::Layout;

use super::alternates::draw_alternates;
use super::leaf::{page, sheet};
use super::paint::{Paint, chosen, faint, strong};
use super::strip::draw_letters;
use super::suggestions::{draw_one_more, draw_suggestion};
use super::words::{fit, put};

/// Draws what lies over the bench; gives back where the cursor stands while a line is typed.
pub(super) fn draw_over(state: &State, buffer: &mut Buffer) -> Option<Position> {
    let panes = state.panes();
    let upper = Area { width: state.look.columns, ..panes.grid };
    let whole = Area { height: panes.grid.height + panes.strip.height, ..upper };
    match &state.over {
        Over::Nothing => None,
        Over::Alternates(list) => {
            draw_alternates(state, list, page(upper, "letters that could stand here", buffer), buffer);
            None
        }
        Over::Compare(comparison) => {
            let score = format!(
                "kept: score {}; on the bench: score {}",
                comparison.kept.score,
                state.trial.verdict().score
            );
            draw_kept(state, comparison, page(upper, &score, buffer), buffer);
            None
        }
        Over::Suggestions(view) => {
            draw_suggestion(state, view, upper, buffer);
            None
        }
        Over::OneMore => {
            draw_one_more(state, upper, buffer);
            None
        }
        Over::Page(heading, scroll) => {
            draw_scroll(scroll, sheet(whole, heading, buffer), buffer);
            None
        }
        Over::Help(scroll, _) => {
            draw_scroll(scroll, sheet(whole, "keys that work here", buffer), buffer);
            None
        }
        Over::Plans(list) => {
            draw_plans(list, page(upper, "page plans", buffer), buffer);
            None
        }
        Over::Typing(typing) => Some(draw_typing(state, typing, buffer)),
        Over::Question(question) => {
            draw_question(state, question, buffer);
            None
        }
    }
}

fn draw_scroll(scroll: &Scroll, area: Area, buffer: &mut Buffer) {
    let height = usize::from(area.height);
    let top = scroll.top.min(scroll.lines.len().saturating_sub(height));
    for (y, line) in (area.y..area.y + area.height).zip(scroll.lines.iter().skip(top)) {
        put(buffer, area.x, y, area.width, line, Style::new());
    }
    if top + height < scroll.lines.len() {
        let more = format!(" {} more lines ", scroll.lines.len() - top - height);
        put(buffer, area.x + 1, area.y + area.height, area.width, &more, faint());
    }
}

fn draw_plans(list: &PlanList, area: Area, buffer: &mut Buffer) {
    if list.slugs.is_empty() {
        put(buffer, area.x, area.y, area.width, "no plan is saved yet", faint());
    }
    let top = (list.chosen + 1).saturating_sub(usize::from(area.height));
    for (y, (place, slug)) in (area.y..area.y + area.height).zip(list.slugs.iter().enumerate().skip(top)) {
        let style = if place == list.chosen { chosen() } else { Style::new() };
        put(buffer, area.x, y, area.width, &fit(slug, usize::from(area.width)), style);
    }
}

/// The kept trial's strip over the present one.
fn draw_kept(state: &State, comparison: &Comparison, area: Area, buffer: &mut Buffer) {
    let Some(kept) = &state.bench.kept else { return };
    let place = state.bench.strip.min(kept.strips().len() - 1);
    let strip = &kept.strips()[place];
    let line = format!("kept: {}", strip.wording().text().replace('\n', " | "));
    put(buffer, area.x, area.y, area.width, &line, strong());
    let map_area = Area { y: area.y + 1, height: area.height.saturating_sub(2), ..area };
    let map = StripMap::lay(Layout::of(strip, &state.shelf.stash), map_area, state.bench.slot);
    draw_letters(&map, strip, state, Paint(state.look.colours), buffer);
    let findings = |verdict: &Verdict| verdict.findings.iter().filter(|finding| !finding.accepted).count();
    let below = format!(
        "{} findings here; below, on the bench: {}",
        findings(&comparison.kept),
        findings(state.trial.verdict())
    );
    put(buffer, area.x, area.y + area.height.saturating_sub(1), area.width, &below, faint());
}

/// The line being typed, over the lowest rows: what to type, the line, what is wrong with it.
fn draw_typing(state: &State, typing: &Typing, buffer: &mut Buffer) -> Position {
    let (columns, rows) = (state.look.columns, state.look.rows);
    let hint = typing.what.hint();
    let below = typing.wrong.as_deref().unwrap_or(&hint);
    let told = textwrap::wrap(below, usize::from(columns.saturating_sub(2).max(1)));
    let height = u16::try_from(told.len().max(1)).unwrap_or(1) + 3;
    // A wording that is only asked about is typed where it is shown.
    let y = if typing.what == What::Spell { state.word_panes().line.y } else { rows.saturating_sub(height) };
    let place = Area { x: 0, y, width: columns, height };
    let area = page(place, typing.what.prompt(), buffer);
    let width = usize::from(area.width.max(1));
    // A line longer than the screen is shown around the cursor.
    let skipped = (typing.cursor() + 1).saturating_sub(width);
    let mut columns_left = skipped;
    let text: String = crate::letter::characters(typing.text())
        .skip_while(|cluster| {
            let skip = columns_left > 0;
            columns_left = columns_left.saturating_sub(unicode_width::UnicodeWidthStr::width(*cluster));
            skip
        })
        .collect();
    put(buffer, area.x, area.y, area.width, &text, if typing.fresh { chosen() } else { Style::new() });
    let style = if typing.wrong.is_some() { strong() } else { faint() };
    for (y, line) in (area.y + 1..).zip(&told) {
        put(buffer, area.x, y, area.width, line, style);
    }
    let column = u16::try_from(typing.cursor() - skipped).unwrap_or(0).min(area.width.saturating_sub(1));
    Position::new(area.x + column, area.y)
}

fn draw_question(state: &State, question: &Question, buffer: &mut Buffer) {
    let (columns, rows) = (state.look.columns, state.look.rows);
    let text = question.text();
    let answers = question.answers(&state.look.keys);
    let widest = text.chars().count().max(answers.chars().count()) + 4;
    let wide = u16::try_from(widest).unwrap_or(columns).min(columns);
    let lines = textwrap::wrap(&text, usize::from(wide.saturating_sub(4)).max(1));
    let height = u16::try_from(lines.len()).unwrap_or(1) + 3;
    let place = Area { x: (columns - wide) / 2, y: (rows / 3).max(1), width: wide, height };
    let area = page(place, "?", buffer);
    for (y, line) in (area.y..).zip(&lines) {
        put(buffer, area.x + 1, y, area.width, line, strong());
    }
    let below = area.y + area.height.saturating_sub(1);
    put(buffer, area.x + 1, below, area.width, &answers, Style::new());
}
