//! What the stash says to the wording that is looked at.
//!
//! Must not know how it found out.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{
    Action, Area, Looked, LookedAt, Over, Said, State, band_told, short_told, stand_in_told, verdict_told,
};
use crate::supply::{Answer, Verdict};

use super::super::paint::{faint, strong};
use super::super::words::{fit, put};

/// Draws it: the verdict, what stands in, what comes nearest.
pub(super) fn draw(state: &State, area: Area, buffer: &mut Buffer) {
    let Some(now) = state.wordings.judged.as_ref().and_then(|judged| judged.now.as_ref()) else { return };
    let width = usize::from(area.width.saturating_sub(2).max(8));
    let lines = said(now, state);
    let lines: Vec<(String, Style)> = lines
        .into_iter()
        .flat_map(|(text, style)| {
            let options = textwrap::Options::new(width).subsequent_indent("  ");
            let wrapped = textwrap::wrap(&text, options);
            wrapped.into_iter().map(|line| (line.into_owned(), style)).collect::<Vec<_>>()
        })
        .collect();
    let rows = usize::from(area.height);
    for (place, (y, (text, style))) in (area.y..area.y + area.height).zip(&lines).enumerate() {
        put(buffer, area.x + 1, y, area.width.saturating_sub(1), text, *style);
        if place + 1 == rows && lines.len() > rows {
            let more = format!("… {} tells the rest", state.key_told(Action::ExplainWording));
            put(buffer, area.x + 1, y, area.width.saturating_sub(1), &fit(&more, width), faint());
        }
    }
}

/// What the chosen wish takes when all those that can be are made together.
fn with_others(state: &State) -> Option<(String, Style)> {
    if state.wordings.looked_at != LookedAt::Wish || matches!(state.over, Over::Typing(_)) {
        return None;
    }
    let (place, set) = (state.wordings.wish.chosen, &state.wordings.judged.as_ref()?.set);
    if set.refuses(place) {
        return Some(("! it must be made, but cannot be".into(), strong()));
    }
    let share = set.share_of(place)?;
    let stand_ins = share.stand_ins.iter().map(|one| stand_in_told(one, &state.shelf.stash));
    let stand_ins = stand_ins.collect::<Vec<_>>().join("; ");
    let told = verdict_told(share, state.unit());
    Some((
        format!("+ with the others: {told}{}{stand_ins}", if stand_ins.is_empty() { "" } else { ": " }),
        Style::new(),
    ))
}

fn said(now: &Looked, state: &State) -> Vec<(String, Style)> {
    let unit = state.unit();
    if now.text.trim_matches([' ', '|']).is_empty() {
        return Vec::new();
    }
    if state.shelf.stash.is_empty() {
        return vec![("no sheet is counted in yet: 3, then a".into(), strong())];
    }
    let Said { answer, nearest, by_size, .. } = match &now.said {
        Ok(said) => said,
        Err(why) => return vec![(why.clone(), strong())],
    };
    let mut lines = vec![(verdict_told(answer, unit), strong())];
    if !answer.stand_ins.is_empty() {
        let told = answer.stand_ins.iter().map(|one| stand_in_told(one, &state.shelf.stash));
        lines.push((told.collect::<Vec<_>>().join("; "), Style::new()));
    }
    if let Some(nearest) = nearest.as_ref().filter(|nearest| !nearest.short.is_empty()) {
        let band = nearest.band.map_or_else(|| "one band of heights".into(), |band| band_told(band, unit));
        lines.push((format!("within {band}: short of {}", short_told(&nearest.short)), Style::new()));
    }
    let is_other = |one: &&Answer| match (one.band, answer.band) {
        (Some(one), Some(told)) => one.is_apart(told),
        _ => false,
    };
    let others = by_size.iter().filter(is_other).map(|one| match one.verdict {
        Verdict::Now => verdict_told(one, unit),
        _ => format!("{} ({})", verdict_told(one, unit), one.cost),
    });
    let others = others.collect::<Vec<_>>().join("; ");
    lines.extend(with_others(state));
    if !others.is_empty() {
        lines.push((format!("or {others}"), faint()));
    }
    lines
}
