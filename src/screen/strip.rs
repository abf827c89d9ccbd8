//! The strip to scale: letters as shapes, a ruler in the user's unit, and the slots below.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Area, Over, Pane, State, StripMap};
use crate::checks::under;
use crate::measure::{Colour, Length, Polygon, Unit};
use crate::stash::{Form, Stash};
use crate::title::{Cut, LetterBox, Sticker, Strip, cuts};

use super::canvas::{Canvas, Dot};
use super::paint::{Paint, chosen, faint, strong};
use super::words::{put, sign};

/// What letters are shown on where it is not known what lies under them: both black and white stand out from it.
const MIDDLE_GREY: Colour = Colour { r: 118, g: 118, b: 118 };

/// Draws the chosen strip on its pane.
pub(super) fn draw_strip(state: &State, buffer: &mut Buffer) {
    let map = StripMap::of(state);
    let pane = state.panes().strip;
    let paint = Paint(state.look.colours);
    heading(state, pane, buffer);
    let (strip, _) = state.strip_shown();
    draw_letters(&map, strip, state, paint, buffer);
    let ruler = Area { y: map.area.y + map.area.height, height: 1, ..pane };
    draw_ruler(&map, ruler, state.unit(), buffer);
    draw_slots(&map, state, Area { y: ruler.y + 1, ..ruler }, buffer);
}

/// Draws the letters of a strip as they lie on `map`.
pub(super) fn draw_letters(map: &StripMap, strip: &Strip, state: &State, paint: Paint, buffer: &mut Buffer) {
    let height = map.layout.letters.iter().map(|letter| letter.height).max().unwrap_or_default();
    let ground = under(strip, &state.trial.plan().page, map.layout.length(), height).unwrap_or(MIDDLE_GREY);
    let mut canvas = Canvas::new(map.area, Dot::Ground(ground));
    for cut in cuts(strip, &map.layout, &state.shelf.stash) {
        draw_cut(&mut canvas, map, strip, &cut, &state.shelf.stash);
    }
    canvas.show(map.area, buffer, paint);
    for (slot, letter) in map.layout.letters.iter().enumerate().filter(|(_, letter)| !letter.filled) {
        let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
        outline_missing(map, letter, &wanted.spoken(), buffer);
    }
}

fn heading(state: &State, pane: Area, buffer: &mut Buffer) {
    let (strip, slot) = state.strip_shown();
    let style = if state.bench.pane == Pane::Strip { chosen() } else { strong() };
    let suggested = if matches!(state.over, Over::Suggestions(_)) { "as suggested: " } else { "" };
    let name = format!(" {} ", strip.role());
    let end = put(buffer, pane.x, pane.y, pane.width, &name, style);
    let wording = strip.wording().text().replace('\n', " | ");
    let slots = match strip.len() {
        0 => "no wording yet".to_owned(),
        len => {
            let down = if strip.is_down(slot) { ", stuck down" } else { "" };
            format!("{suggested}slot {} of {len}{down}   {wording}", slot + 1)
        }
    };
    put(buffer, end + 1, pane.y, pane.width.saturating_sub(end + 1), &slots, Style::new());
}

/// Draws one letter: its tile if it has one, then its outline from the reference face.
fn draw_cut(canvas: &mut Canvas, map: &StripMap, strip: &Strip, cut: &Cut, stash: &Stash) {
    let on_map = |polygons: &[Polygon]| -> Vec<Polygon> {
        let place = |&(along, up): &(f64, f64)| {
            ((along - map.left) / map.mm_per_column * 2.0, (map.top - up) / map.mm_per_column)
        };
        polygons.iter().map(|polygon| polygon.iter().map(place).collect()).collect()
    };
    let (edge, print) = cut_colours(strip, cut.slot, stash);
    canvas.fill(&on_map(&cut.edge), Dot::Ink(edge));
    if let Some(polygons) = &cut.print {
        canvas.fill(&on_map(polygons), Dot::Ground(print));
    }
}

/// The colour of what stands in a slot, and of what is printed on it.
pub(super) fn cut_colours(strip: &Strip, slot: usize, stash: &Stash) -> (Colour, Colour) {
    match strip.letter(slot).map(|stood| &stood.sticker) {
        Some(Sticker::Hand(thing)) => {
            let colour = thing.colour.as_ref().map_or(Colour::WHITE, |tint| tint.colour);
            (colour, colour)
        }
        Some(Sticker::Chip { id, .. }) => {
            let chip = stash.find(id).map(|ix| stash.chip(ix));
            let ink = chip.map_or(Colour::WHITE, |chip| chip.colours()[0].colour);
            let sheet = chip.map(|chip| chip.sheet);
            let tile = sheet.and_then(|sheet| sheet.paint.tile.as_ref());
            match sheet.map(|sheet| sheet.make.form) {
                Some(Form::Tile) => (tile.map_or(ink.readable_ink(), |tint| tint.colour), ink),
                _ => (ink, ink),
            }
        }
        None => (Colour::WHITE, Colour::BLACK),
    }
}

/// The outline of an empty slot, with the character wanted.
fn outline_missing(map: &StripMap, letter: &LetterBox, wanted: &str, buffer: &mut Buffer) {
    let row = |up: Length| f64::from(map.area.y) + (map.top - up.mm()) / map.mm_per_column / 2.0;
    let column = |along: Length| f64::from(map.area.x) + map.column(along);
    #[expect(clippy::cast_possible_truncation, reason = "a screen is small")]
    let cells = |from: f64, to: f64| (from.round() as i32, (to.round() as i32 - 1).max(from.round() as i32));
    let (left, right) = cells(column(letter.left), column(letter.right()));
    let (top, bottom) = cells(row(letter.top()), row(letter.bottom));
    let mut mark = |x: i32, y: i32, text: &str| {
        let (Ok(x), Ok(y)) = (u16::try_from(x), u16::try_from(y)) else { return };
        if map.area.holds(x, y)
            && let Some(cell) = buffer.cell_mut((x, y))
        {
            cell.set_symbol(text);
            cell.fg = ratatui::style::Color::Reset;
            cell.bg = ratatui::style::Color::Reset;
        }
    };
    for y in top..=bottom {
        for x in left..=right {
            let side = if x == left || x == right { "┆" } else { " " };
            mark(x, y, if y == top || y == bottom { "┄" } else { side });
        }
    }
    let (Ok(x), Ok(y)) =
        (u16::try_from(i32::midpoint(left, right)), u16::try_from(i32::midpoint(top, bottom)))
    else {
        return;
    };
    if map.area.holds(x, y) {
        put(buffer, x, y, 2.min(map.area.x + map.area.width - x), sign(wanted), Style::reset());
    }
}

/// A ruler from the left edge of the first letter, in the user's unit, and where the strip goes on.
fn draw_ruler(map: &StripMap, area: Area, unit: Unit, buffer: &mut Buffer) {
    let (step, per_label): (f64, f64) = match unit {
        Unit::Millimetre => (10.0, 1.0),
        Unit::Inch => (25.4, 10.0 / 25.4),
    };
    let width = usize::from(area.width);
    let mut line: Vec<char> = vec!['─'; width];
    // Labels keep eight columns apart.
    let every = (8.0 * map.mm_per_column / step).ceil().max(1.0);
    #[expect(clippy::cast_possible_truncation, reason = "a strip has few ticks")]
    let (first, last) = (
        (map.left / step).floor() as i32,
        ((map.left + f64::from(area.width) * map.mm_per_column) / step).ceil() as i32,
    );
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "cut to the line")]
    let place = |tick: i32| {
        let column = (f64::from(tick) * step - map.left) / map.mm_per_column;
        (0.0..f64::from(area.width)).contains(&column).then_some(column as usize)
    };
    for column in (first.max(0)..=last).filter_map(place) {
        line[column] = '┴';
    }
    for tick in (first.max(0)..=last).filter(|&tick| (f64::from(tick) % every).abs() < 0.5) {
        let Some(column) = place(tick) else { continue };
        let label = format!("{}", (f64::from(tick) * 10.0 * per_label).round());
        // The unit stands at the end.
        for (place, c) in label.chars().enumerate().filter(|_| column + 1 + label.len() + 4 < width) {
            line[column + 1 + place] = c;
        }
    }
    let unit = if unit == Unit::Inch { " in" } else { " mm" };
    for (place, c) in unit.chars().enumerate().filter(|_| width > 20) {
        line[width - 3 + place] = c;
    }
    if map.beyond.0 {
        line[0] = '◀';
    }
    if map.beyond.1 && width > 4 {
        line[width - 4] = '▶';
    }
    put(buffer, area.x, area.y, area.width, &line.into_iter().collect::<String>(), faint());
}

/// The slots below the ruler: each character under its letter, the chosen one in brackets, the one marked for exchange in
/// angles; a pinned one is followed by an asterisk.
fn draw_slots(map: &StripMap, state: &State, area: Area, buffer: &mut Buffer) {
    let (strip, chosen_slot) = state.strip_shown();
    // Of two lines only the one with the chosen slot is told: their letters stand over each other.
    let line = strip.wording().lines().find(|line| line.contains(&chosen_slot)).unwrap_or(0..0);
    let order = line.filter(|&slot| slot != chosen_slot).chain([chosen_slot]);
    for slot in order {
        let (Some(letter), Some(asked)) = (map.layout.letters.get(slot), strip.wording().slots().get(slot))
        else {
            continue;
        };
        let character = strip.rules.wanted(&asked.character).spoken();
        let pin = if strip.letter(slot).is_some_and(|stood| stood.pinned) { "*" } else { "" };
        let (text, style) = if slot == chosen_slot {
            (format!("[{character}]{pin}"), chosen())
        } else if state.bench.marked == Some(slot) {
            (format!("<{character}>{pin}"), strong())
        } else {
            (format!("{character}{pin}"), if letter.filled { Style::new() } else { faint() })
        };
        let centre = map.column(letter.left + letter.width / 2);
        let brackets = if slot == chosen_slot || state.bench.marked == Some(slot) { 1.0 } else { 0.0 };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "checked to be on the line"
        )]
        if (0.0..f64::from(area.width)).contains(&centre) {
            let column = (centre - 0.5 - brackets).round().max(0.0) as u16;
            put(buffer, area.x + column, area.y, area.width.saturating_sub(column), &text, style);
        }
    }
}
