//! The wishes, each with what the stash says to it.
//!
//! Must not know how it found out.

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

use crate::app::{Action, Area, State, WordingList, short_told};
use crate::supply::{Answer, Verdict};

use super::super::paint::{chosen, faint, strong};
use super::super::words::{fit, put};

/// Columns for the verdict.
const VERDICT: u16 = 10;

/// Draws them.
pub(super) fn draw(state: &State, area: Area, buffer: &mut Buffer) {
    let has_keys = state.wordings.list == WordingList::Wishes;
    let heading = if has_keys { chosen() } else { strong() };
    let end = put(buffer, area.x, area.y, area.width, " wishes ", heading);
    let answers = state.wordings.judged.as_ref().map_or(&[][..], |judged| &judged.wishes);
    let room = area.width.saturating_sub(end + 1);
    put(buffer, end + 1, area.y, room, &summary(state, answers, usize::from(room)), faint());
    let shown = state.shelf.wishes.iter().zip(answers).enumerate().skip(state.wordings.wish.top);
    for (y, (place, (wish, answer))) in (area.y + 1..area.y + area.height).zip(shown) {
        let is_chosen = place == state.wordings.wish.chosen && has_keys;
        let style = match (is_chosen, answer.verdict) {
            (true, _) => chosen(),
            (false, Verdict::Short | Verdict::MixedHeights) => faint(),
            (false, _) => Style::new(),
        };
        let x = put(buffer, area.x, y, 2, &marks(state, place), strong());
        let x = put(buffer, x, y, VERDICT, &fit(word(answer), usize::from(VERDICT)), strong());
        let room = area.width.saturating_sub(x - area.x);
        let text = wish.wording.text().replace('\n', " | ");
        let told = match answer.verdict {
            Verdict::Short => format!("{text}: {}", short_told(&answer.short)),
            _ => text,
        };
        put(buffer, x, y, room, fit(&told, usize::from(room)).trim_end(), style);
    }
}

/// `!`: must be among those made together; `+`: is.
fn marks(state: &State, place: usize) -> String {
    let wish = &state.shelf.wishes[place];
    let must = if state.wordings.must.contains(wish.wording.text()) { '!' } else { ' ' };
    let is_made = state.wordings.judged.as_ref().is_some_and(|judged| judged.set.holds(place));
    let is_made = if is_made { '+' } else { ' ' };
    format!("{must}{is_made}")
}

/// The verdict in one word or two.
const fn word(answer: &Answer) -> &'static str {
    match answer.verdict {
        Verdict::Now => "now",
        Verdict::StandIns => "stand-ins",
        Verdict::MixedHeights => "mixed",
        Verdict::Short => "short",
    }
}

/// How many can be made, each alone and together; in short where `room` is too little for the whole.
fn summary(state: &State, answers: &[Answer], room: usize) -> String {
    if state.shelf.are_wishes_amiss && state.shelf.wishes.is_empty() {
        return "has errors: oddment mend".into();
    }
    if state.shelf.wishes.is_empty() {
        return format!("none yet: {} adds the wording above", state.key_told(Action::AddWish));
    }
    let can = answers.iter().filter(|one| matches!(one.verdict, Verdict::Now | Verdict::StandIns)).count();
    let Some(judged) = &state.wordings.judged else { return String::new() };
    let (made, most) = judged.set.counts();
    let together = match () {
        () if judged.set.is_proven() => format!("{made} together: +"),
        () if judged.set.is_going() => format!("{made} together so far: +"),
        () => format!("{made} to {most} together: +"),
    };
    let wishes = answers.len();
    let ways = [
        format!("{can} of {wishes} can be made, {together}"),
        format!("{can} of {wishes} can, {together}"),
        format!("{can} of {wishes}, {}", together.replace(" together so far", " so far")),
    ];
    let fitting = ways.iter().find(|told| told.width() <= room);
    fitting.unwrap_or(&ways[2]).clone()
}
