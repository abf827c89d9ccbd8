//! The wording's view: the wording that is looked at, what the stash says to it, the wishes, and ideas.
//!
//! Must not know what a key does.

mod answer;
mod ideas;
mod wishes;

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Action, Area, LookedAt, State};
use crate::title::{CaseRule, FormRule};

use super::leaf::page;
use super::paint::{faint, strong};
use super::words::{fit, put};

/// Draws the wording's view.
pub(super) fn draw_wordings(state: &State, buffer: &mut Buffer) {
    let panes = state.word_panes();
    draw_line(state, page(panes.line, "wording", buffer), buffer);
    answer::draw(state, panes.answer, buffer);
    wishes::draw(state, panes.wishes, buffer);
    ideas::draw(state, panes.ideas, buffer);
}

/// The wording that is looked at, where it is from, and what is asked of its letters.
fn draw_line(state: &State, area: Area, buffer: &mut Buffer) {
    let text = state.wording_looked_at();
    let width = usize::from(area.width);
    if text.is_empty() {
        let key = state.key_told(Action::Wording);
        let told = format!("{key}: type one, and see whether it can be spelled");
        put(buffer, area.x, area.y, area.width, fit(&told, width).trim_end(), Style::new());
    } else {
        put(buffer, area.x, area.y, area.width, fit(&text, width).trim_end(), strong());
    }
    let from = match state.looked_at() {
        LookedAt::Typed if state.wordings.typed.is_some() => "typed",
        LookedAt::Typed => "the strip's",
        LookedAt::Wish => "a wish",
        LookedAt::Idea => "an idea",
    };
    let beside = state.beside_looked_at().map_or_else(String::new, |beside| format!(" beside {beside}"));
    let told = format!("{from}{beside}; {}", rules_told(state));
    put(buffer, area.x, area.y + 1, area.width, fit(&told, width).trim_end(), faint());
}

/// What is asked of the letters.
fn rules_told(state: &State) -> String {
    let rules = state.wordings.rules;
    let mut told = vec![match rules.case {
        CaseRule::Any => "any case".to_owned(),
        CaseRule::AsWritten => "case as written".into(),
        CaseRule::Upper => "capitals only".into(),
        CaseRule::Lower => "small letters only".into(),
    }];
    told.push(match rules.forms {
        FormRule::Any => "any form".into(),
        FormRule::Tile => "tiles only".into(),
        FormRule::DieCut => "die-cut only".into(),
    });
    told.push(rules.tall.map_or_else(
        || "any height".into(),
        |(low, high)| crate::app::band_told(crate::supply::Band { low, high }, state.unit()),
    ));
    if rules.spare_plans {
        told.push("without the letters that plans speak for".into());
    }
    told.join(", ")
}
