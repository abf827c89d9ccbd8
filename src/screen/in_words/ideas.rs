//! Words that can be spelled now, as they are found.
//!
//! Must not know how they are looked for.

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::{Action, Area, State, WordingList};
use crate::supply::{Idea, Verdict};

use super::super::paint::{chosen, faint, strong};
use super::super::words::{fit, put};

/// Draws them.
pub(super) fn draw(state: &State, area: Area, buffer: &mut Buffer) {
    let has_keys = state.wordings.list == WordingList::Ideas;
    let heading = if has_keys { chosen() } else { strong() };
    let end = put(buffer, area.x, area.y, area.width, " ideas ", heading);
    let room = (area.x + area.width).saturating_sub(end + 1);
    put(buffer, end + 1, area.y, room, &summary(state, usize::from(room)), faint());
    let shown = state.ideas().iter().enumerate().skip(state.wordings.idea.top);
    for (y, (place, idea)) in (area.y + 1..area.y + area.height).zip(shown) {
        let style = if place == state.wordings.idea.chosen && has_keys { chosen() } else { Style::new() };
        draw_idea(idea, style, Area { y, height: 1, ..area }, buffer);
    }
}

/// A word, whether letters stand in, and how many of its letters are scarce.
fn draw_idea(idea: &Idea, style: Style, row: Area, buffer: &mut Buffer) {
    let scarce = match idea.scarce {
        0 => String::new(),
        scarce => format!("{scarce} scarce"),
    };
    let stand_ins = if idea.verdict == Verdict::StandIns { "stand-ins " } else { "" };
    let width = usize::from(row.width);
    let told = format!("{stand_ins}{scarce}");
    let text = fit(&idea.text, width.saturating_sub(told.width() + 1).max(6));
    let x = put(buffer, row.x, row.y, row.width, &text, style);
    put(buffer, x + 1, row.y, (row.x + row.width).saturating_sub(x + 1), &told, faint());
}

/// How many are found; how far the search is where there is `room` for that.
fn summary(state: &State, room: usize) -> String {
    let search = state.wordings.judged.as_ref().and_then(|judged| judged.ideas.as_ref());
    let (Some(search), Some(asked)) = (search, &state.wordings.ideas) else {
        return format!("{} finds some", state.key_told(Action::FindIdeas));
    };
    let found = search.found().len();
    let what = if asked.text.is_empty() { String::new() } else { format!(": {}", asked.text) };
    let told = match (search.is_going, found) {
        (true, _) => format!("{found} so far; {} words looked at", search.looked_at()),
        (false, _) if !search.is_done() => {
            format!("{found}, stopped after {} words{what}", search.looked_at())
        }
        (false, 0) => format!("none{what}"),
        (false, _) => format!("{found} found{what}"),
    };
    if search.is_going && told.width() > room { format!("{found} so far") } else { told }
}
