//! The page's view: the page to scale with what lies on it, and beside it the list of things and the checks of the place.
//!
//! Must not know what a key does.

mod beside;
mod drawing;
mod lines;
mod marks;
mod names;
mod strips;
mod textures;

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Area, PageMap, State};

use self::drawing::Drawing;
use super::paint::{Paint, faint, strong};
use super::words::put;

pub(super) use beside::in_words;

/// Draws the page's view.
pub(super) fn draw_page(state: &State, buffer: &mut Buffer) {
    let map = PageMap::of(state);
    draw_paper(state, &map, buffer);
    beside::draw_things(state, buffer);
    beside::draw_place_checks(state, buffer);
}

/// Draws the page: the paper, the things on it, the letters; then what is told over them.
fn draw_paper(state: &State, map: &PageMap, buffer: &mut Buffer) {
    let mut drawing = Drawing::of(state, map, Paint(state.look.colours));
    let strips = strips::lie(state, map);
    drawing.ink_letters(strips.iter().flat_map(|strip| &strip.letters));
    drawing.show(buffer);
    textures::draw(&drawing, buffer);
    marks::draw_edges(&drawing, state, buffer);
    let named = names::draw(&drawing, &strips, buffer);
    strips::draw_signs(&drawing, &strips, buffer);
    let kept = |at| named.contains(&at) || strips.iter().any(|strip| strip.signs.contains_key(&at));
    marks::draw_trapped(&drawing, state, kept, buffer);
    marks::draw_choice(&drawing, state, &strips, kept, buffer);
    draw_advice(state, map.area, buffer);
}

/// What to do where there is no page yet, or nothing on it.
fn draw_advice(state: &State, area: Area, buffer: &mut Buffer) {
    let page = &state.trial.plan().page;
    let advice: &[&str] = match (page.size.is_some(), page.elements.is_empty()) {
        (true, false) => return,
        (false, true) => &["No page yet:", "P  chooses its size,", "a  adds a photo, a mat ..."],
        (false, false) => &["The page has no size yet: P chooses it."],
        (true, true) => &["Bare paper: a adds a photo, a mat,", "a border ...; G colours the paper."],
    };
    let height = u16::try_from(advice.len()).unwrap_or(1);
    let top = area.y + area.height.saturating_sub(height) / 2;
    let wide = advice.iter().map(|line| line.chars().count()).max().unwrap_or(0);
    let x = area.x + area.width.saturating_sub(u16::try_from(wide).unwrap_or(0)) / 2;
    let style =
        if page.size.is_some() { Style::reset().patch(faint()) } else { Style::reset().patch(strong()) };
    for (y, line) in (top..).zip(advice) {
        put(buffer, x, y, (area.x + area.width).saturating_sub(x), line, style);
    }
}
