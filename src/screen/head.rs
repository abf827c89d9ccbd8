//! The first line: the views, what is open, whether it is saved, the scores.
//!
//! Must not know what a view shows.

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::{State, View};
use crate::measure::Points;

use super::paint::{chosen, faint, strong};
use super::words::put;

/// Draws the first line: as much of it as there is room for.
pub(super) fn draw_head(state: &State, buffer: &mut Buffer) {
    let area = state.panes().head;
    let open = open(state);
    let least = open.width() + 2;
    let room = usize::from(area.width).saturating_sub(least);
    let fits = |(views, scores): &&(Vec<(String, bool)>, String)| tabs_width(views) + scores.width() <= room;
    let ways = [
        (views(state, true), scores(state, true, true)),
        (views(state, false), scores(state, true, true)),
        (views(state, false), scores(state, true, false)),
        (views(state, false), scores(state, false, true)),
    ];
    let last = &ways[ways.len() - 1];
    let (views, scores) = ways.iter().find(fits).unwrap_or(last);
    let mut x = area.x;
    for (name, is_here) in views {
        let style = if *is_here { chosen() } else { faint() };
        x = put(buffer, x, area.y, area.width.saturating_sub(x), name, style) + 1;
    }
    let end = put(buffer, x, area.y, area.width.saturating_sub(x), &open, strong());
    let wide = u16::try_from(scores.width()).unwrap_or(area.width);
    let x = area.width.saturating_sub(wide).max(end + 2);
    put(buffer, x, area.y, area.width.saturating_sub(x), scores, Style::new());
}

/// The views, each with its key; in short only the present one has its name. And whether it is the present one.
fn views(state: &State, in_full: bool) -> Vec<(String, bool)> {
    let told = |view: View| {
        let is_here = view == state.look.view;
        let key = state.look.keys.told(view.action()).map_or_else(String::new, |key| key.to_string());
        let text = match (in_full, is_here) {
            (true, true) => format!(" {key} {} ", view.name()),
            (true, false) => format!("{key} {}", view.name()),
            (false, true) => format!(" {} ", view.name()),
            (false, false) => key,
        };
        (text, is_here)
    };
    View::ALL.into_iter().map(told).collect()
}

fn tabs_width(views: &[(String, bool)]) -> usize {
    views.iter().map(|(name, _)| name.width() + 1).sum()
}

/// What is open, and whether it is saved.
fn open(state: &State) -> String {
    let name = state.file.slug.as_deref().unwrap_or("new plan");
    let saved = match (state.file.read_only, state.is_unsaved()) {
        (Some(_), _) => " (read-only)",
        (None, true) => " (not saved)",
        (None, false) => "",
    };
    format!("{name}{saved}")
}

/// The scores: of each strip, of all, and how the last change changed it. On the page: of the places.
fn scores(state: &State, each: bool, change: bool) -> String {
    let verdict = state.trial.verdict();
    if matches!(state.look.view, View::Stash | View::Wording) {
        return String::new();
    }
    if state.look.view == View::Page {
        return match verdict.place {
            Some(points) => format!("place {points}   score {}", verdict.score),
            None => format!("score {}", verdict.score),
        };
    }
    let strips = state.trial.plan().strips().iter().zip(&verdict.strips);
    let strips: Vec<String> = strips.map(|(strip, one)| format!("{} {}", strip.role(), one.score)).collect();
    let change =
        state.trial.difference().filter(|by| change && by.tenths() != 0).map_or_else(String::new, signed);
    let all = format!("score {}{change}", verdict.score);
    if each { format!("{}   {all}", strips.join("  ")) } else { all }
}

fn signed(by: Points) -> String {
    let sign = if by.tenths() > 0 { "+" } else { "" };
    format!(" ({sign}{by})")
}
