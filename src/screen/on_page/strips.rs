//! The strips where they lie on the page: letters as shapes where there is room for shapes, else each as its character.
//!
//! Must not know what lies under them.

use std::collections::BTreeMap;

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{PageMap, State};
use crate::measure::{Colour, Polygon};
use crate::title::{Layout, LetterBox, Strip, cuts};

use super::super::paint::{faint, strong};
use super::super::strip::cut_colours;
use super::super::words::{put, sign};
use super::drawing::{At, Drawing, Inked};

/// From so many rows a letter on, its shape can be made out.
const ROWS_OF_A_SHAPE: f64 = 2.2;

/// A strip where it lies.
pub(super) struct Lying {
    /// Its place in the plan.
    pub(super) place: usize,
    /// The corners of its letters' box in mm, from the lower left one clockwise.
    pub(super) corners: Polygon,
    /// What is inked, in mm on the page.
    pub(super) letters: Vec<Inked>,
    /// Characters that stand for letters, by their cells.
    pub(super) signs: BTreeMap<At, Sign>,
}

/// A character that stands for a letter.
pub(super) struct Sign {
    character: String,
    /// `None`: the slot is empty.
    colours: Option<(Colour, Colour)>,
}

/// Every strip that is placed.
pub(super) fn lie(state: &State, map: &PageMap) -> Vec<Lying> {
    let strips = state.trial.plan().strips().iter().enumerate();
    strips.filter_map(|(place, strip)| one(state, map, place, strip)).collect()
}

fn one(state: &State, map: &PageMap, place: usize, strip: &Strip) -> Option<Lying> {
    let stash = &state.shelf.stash;
    let layout = Layout::of(strip, stash);
    let corners = layout.box_on_page(&strip.place)?;
    let on_page = |polygons: &[Polygon]| -> Vec<Polygon> {
        polygons.iter().map(|one| one.iter().filter_map(|&at| strip.place.on_page(at)).collect()).collect()
    };
    let height = layout.letters.iter().map(|letter| letter.height).max().unwrap_or_default();
    let as_shapes = height.mm() / map.scale.1 >= ROWS_OF_A_SHAPE;
    let inked = cuts(strip, &layout, stash).into_iter().map(|cut| {
        let colours = cut_colours(strip, cut.slot, stash);
        if as_shapes {
            let print = cut.print.as_deref().map(on_page);
            Inked { edge: on_page(&cut.edge), print, colours }
        } else {
            let corners = block(&layout.letters[cut.slot]);
            Inked { edge: on_page(&[corners]), print: None, colours }
        }
    });
    let letters = inked.collect();
    let signs = signs(state, map, strip, &layout, as_shapes);
    Some(Lying { place, corners, letters, signs })
}

/// The box of a letter on its strip.
fn block(letter: &LetterBox) -> Polygon {
    let [left, right] = [letter.left, letter.right()].map(crate::measure::Length::mm);
    let [bottom, top] = [letter.bottom, letter.top()].map(crate::measure::Length::mm);
    vec![(left, bottom), (left, top), (right, top), (right, bottom)]
}

/// The characters of the letters, where each has a cell of its own; of shapes only those of empty slots. Where they are
/// too many for their cells, empty slots are dots.
fn signs(
    state: &State,
    map: &PageMap,
    strip: &Strip,
    layout: &Layout,
    as_shapes: bool,
) -> BTreeMap<At, Sign> {
    let mut signs = BTreeMap::new();
    let mut crowded = false;
    for (slot, letter) in layout.letters.iter().enumerate() {
        let middle = ((letter.left + letter.width / 2).mm(), (letter.bottom + letter.height / 2).mm());
        let Some(middle) = strip.place.on_page(middle) else { continue };
        let filled = letter.filled;
        if as_shapes && filled {
            continue;
        }
        let (across, down) = map.place(middle);
        #[expect(clippy::cast_possible_truncation, reason = "saturates")]
        let at = (across.floor() as i32, down.floor() as i32);
        let character = match strip.letter(slot).filter(|_| filled) {
            Some(stood) => stood.chip().map_or_else(|| "o".to_owned(), |id| id.character.spoken()),
            None => strip.rules.wanted(&strip.wording().slots()[slot].character).spoken(),
        };
        let colours = filled.then(|| cut_colours(strip, slot, &state.shelf.stash));
        crowded |= signs.insert(at, Sign { character, colours }).is_some();
    }
    if crowded {
        signs.retain(|_, sign| sign.colours.is_none());
        for sign in signs.values_mut() {
            sign.character = "·".into();
        }
    }
    signs
}

/// Writes the characters.
pub(super) fn draw_signs(drawing: &Drawing<'_>, strips: &[Lying], buffer: &mut Buffer) {
    for (&at, sign) in strips.iter().rev().flat_map(|strip| &strip.signs) {
        let Some((x, y)) = drawing.on_screen(at) else { continue };
        let character = self::sign(&sign.character);
        drawing.write(buffer, at, " ", false);
        let style = match sign.colours {
            Some((edge, print)) if print != edge => {
                let ink = drawing.paint.colour(print).zip(drawing.paint.colour(edge));
                ink.map_or_else(Style::new, |(ink, patch)| Style::new().fg(ink).bg(patch)).patch(strong())
            }
            Some((edge, _)) => drawing.paint.swatch(edge).patch(strong()),
            None => {
                let shade = drawing.colour_at(at).map(|colour| colour.mixed(colour.readable_ink(), 6));
                shade
                    .and_then(|shade| drawing.paint.colour(shade))
                    .map_or_else(faint, |ink| Style::new().fg(ink))
            }
        };
        let room = drawing.map.area.x + drawing.map.area.width - x;
        put(buffer, x, y, room.min(2), character, style);
    }
}
