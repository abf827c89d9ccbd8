//! Beside the page: the list of what lies on it, and the checks of the place.
//!
//! Must not know how the page is drawn.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{State, Thing, cover_told};
use crate::checks::{Level, tell_length, tell_touch};
use crate::measure::Angle;
use crate::page::Element;

use super::super::paint::{Paint, chosen, faint, strong};
use super::super::words::{fit, put};
use super::drawing::main_colour;
use super::textures::texture;

/// Draws the list of things, the topmost first.
pub(in super::super) fn draw_things(state: &State, buffer: &mut Buffer) {
    let pane = state.page_panes().things;
    let things = state.things();
    let end = put(buffer, pane.x, pane.y, pane.width, " on the page ", strong());
    let count = match state.trial.plan().page.elements.len() {
        0 => " nothing yet".to_owned(),
        1 => " 1 thing".to_owned(),
        more if pane.width < 36 => format!(" {more}"),
        more => format!(" {more}, topmost first"),
    };
    put(buffer, end, pane.y, (pane.x + pane.width).saturating_sub(end), &count, faint());
    let now = state.thing();
    let rows = usize::from(pane.height.saturating_sub(1));
    for (y, thing) in (pane.y + 1..).zip(things.skip(state.first_thing()).take(rows)) {
        draw_row(state, thing, thing == now, (pane.x, y, pane.width), buffer);
    }
}

/// One row: what is chosen is marked; a swatch with the texture; the name; the size, or where a strip stands.
fn draw_row(
    state: &State,
    thing: Thing,
    is_chosen: bool,
    (x, y, width): (u16, u16, u16),
    buffer: &mut Buffer,
) {
    let paint = Paint(state.look.colours);
    let end = x + width;
    let style = if is_chosen { chosen() } else { Style::new() };
    let x = put(buffer, x, y, width, if is_chosen { ">" } else { " " }, strong());
    let (swatch, swatch_style, name, told) = match thing {
        Thing::Strip(place) => {
            let strip = state.trial.strip(place);
            let told = match (strip.stuck, strip.place.at, state.trial.verdict().strips[place].lying.as_ref())
            {
                (Some(_), ..) => "stuck down".to_owned(),
                (_, None, _) => "not on the page".to_owned(),
                (_, _, Some(lying)) => format!("place {}", lying.points),
                (_, Some(_), None) => String::new(),
            };
            let wording = strip.wording().text().replace('\n', " | ");
            ("Aa", strong(), format!("{}: {wording}", strip.role()), told)
        }
        Thing::Element(place) => {
            let element = &state.trial.plan().page.elements[place];
            let told = size_told(element, state);
            let swatch = texture(element.kind);
            let mut style = paint.swatch(main_colour(element));
            if let Some(colour) = element.colours.get(1).and_then(|tint| paint.colour(tint.colour)) {
                style.fg = Some(colour);
            }
            (swatch, style, element.called().to_owned(), told)
        }
    };
    let x = put(
        buffer,
        x,
        y,
        3,
        &format!("{swatch}{}", if swatch.len() == 2 { "" } else { swatch }),
        swatch_style,
    );
    let room = usize::from(end.saturating_sub(x + 2));
    let name_room = room.saturating_sub(told.chars().count() + 1);
    put(buffer, x, y, 1, " ", Style::new());
    let text = format!("{} {told}", fit(&name, name_room.max(4)));
    put(buffer, x + 1, y, end.saturating_sub(x + 2), &text, style);
}

/// `152 x 102 mm`, cut where there is little room.
fn size_told(element: &Element, state: &State) -> String {
    let unit = state.unit();
    let (width, height) =
        (tell_length(element.lie.size.width, unit), tell_length(element.lie.size.height, unit));
    let bare = |text: String| text.rsplit_once(' ').map_or(text.clone(), |(number, _)| number.to_owned());
    let kind = if element.name.is_some() && state.look.columns >= 120 { element.kind.as_str() } else { "" };
    format!("{kind:>13} {} x {}", bare(width), bare(height)).trim_start().to_owned()
}

/// Draws what the checks find amiss with the places of the strips.
pub(in super::super) fn draw_place_checks(state: &State, buffer: &mut Buffer) {
    let pane = state.page_panes().checks;
    let findings = state.place_findings();
    let open = findings.iter().filter(|finding| !finding.accepted).count();
    let end = put(buffer, pane.x, pane.y, pane.width, " checks of the place", strong());
    let count = if open > 0 { format!(": {open}") } else { String::new() };
    put(buffer, end, pane.y, (pane.x + pane.width).saturating_sub(end), &count, strong());
    let mut y = pane.y + 1;
    for line in state.place_lines() {
        let finding = findings[line.finding];
        let style = match (finding.accepted, finding.level) {
            (true, _) => faint(),
            (false, Level::Stop | Level::Warn) if line.first => strong(),
            _ => Style::new(),
        };
        let end = put(buffer, pane.x, y, pane.width, if line.first { "· " } else { "  " }, faint());
        put(buffer, end, y, (pane.x + pane.width).saturating_sub(end), &line.text, style);
        y += 1;
    }
    if findings.is_empty() {
        for line in textwrap::wrap(&nothing_found(state), usize::from(pane.width.saturating_sub(2)).max(8)) {
            put(buffer, pane.x + 1, y, pane.width.saturating_sub(1), &line, faint());
            y += 1;
        }
    }
}

/// What is said where the checks find nothing amiss.
fn nothing_found(state: &State) -> String {
    let (plan, strip) = (state.trial.plan(), state.strip());
    let role = strip.role();
    if plan.page.size.is_none() {
        return "The page has no size yet, so nothing can be said of a place: P chooses one.".into();
    }
    let Some(lying) = state.trial.verdict().strips[state.bench.strip].lying.as_ref() else {
        return format!("The {role} is not on the page yet: n finds where it rests, an arrow puts it down.");
    };
    let touched: Vec<String> = lying.meeting.touches.iter().map(|touch| tell_touch(plan, touch)).collect();
    if touched.is_empty() {
        return "All is well.".into();
    }
    format!("All is well. The {role} touches {}.", touched.join(", "))
}

/// What is chosen, in words.
pub(in super::super) fn in_words(state: &State) -> String {
    let Some((_, element)) = state.element() else { return state.where_told() };
    let unit = state.unit();
    let lie = &element.lie;
    let place = (tell_length(lie.at.x, unit), tell_length(lie.at.y, unit));
    let x = place.0.rsplit_once(' ').map_or(place.0.as_str(), |(figures, _)| figures);
    let turned = if lie.turn == Angle::ZERO { String::new() } else { format!(", turned {}", lie.turn) };
    let bed = element.is_bed(state.trial.plan().page.size);
    let original = if element.original { "original " } else { "" };
    let bed = if bed { "; counts as bare paper" } else { "" };
    let kind = if element.name.is_some() || element.original {
        format!("; {original}{}", element.kind)
    } else {
        String::new()
    };
    format!("{} at {x}, {}{turned}{kind}; {}{bed}", element.called(), place.1, cover_told(element.cover()))
}
