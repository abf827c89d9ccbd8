//! The paper and the things on it as points, and which thing is seen in each cell.
//!
//! Must not know letters beyond their outlines.

use ratatui::buffer::Buffer;
use ratatui::style::Color;

use crate::app::{PageMap, State};
use crate::measure::{Colour, Polygon};
use crate::page::{Element, Footprint, Page};

use super::super::canvas::{Canvas, Dot};
use super::super::paint::Paint;

/// What a thing that names no colour is shown in: both black and white stand out from it.
const NO_COLOUR_NAMED: Colour = Colour { r: 118, g: 118, b: 118 };

/// The page as it is drawn.
pub(super) struct Drawing<'a> {
    pub(super) map: PageMap,
    pub(super) paint: Paint,
    pub(super) page: &'a Page,
    pub(super) footprints: Vec<Footprint>,
    canvas: Canvas,
    /// For each cell, row by row, the topmost thing at its middle.
    things: Vec<Option<usize>>,
}

/// The outline of a letter on the page.
pub(super) struct Inked {
    pub(super) edge: Vec<Polygon>,
    pub(super) print: Option<Vec<Polygon>>,
    /// Of what is stuck down, and of what is printed on it.
    pub(super) colours: (Colour, Colour),
}

/// A cell of the drawing: column and row from its corner.
pub(super) type At = (i32, i32);

impl<'a> Drawing<'a> {
    /// Draws paper and things.
    pub(super) fn of(state: &'a State, map: &PageMap, paint: Paint) -> Self {
        let page = &state.trial.plan().page;
        let footprints = page.footprints();
        let (columns, rows) = (i32::from(map.area.width), i32::from(map.area.height));
        let middles = (0..rows).flat_map(|row| (0..columns).map(move |column| (column, row)));
        let seen = |at: At| {
            let (x, y) = map.on_page((f64::from(at.0) + 0.5, f64::from(at.1) + 0.5));
            footprints.iter().rposition(|one| one.covers(x, y))
        };
        let things = middles.map(seen).collect();
        let canvas = Canvas::new(map.area, Dot::Clear);
        let mut drawing = Self { map: *map, paint, page, footprints, canvas, things };
        if let (Some(size), Some(_)) = (page.size, &page.ground) {
            let (right, bottom) = (size.width.mm(), size.height.mm());
            let sheet = vec![(0.0, 0.0), (right, 0.0), (right, bottom), (0.0, bottom)];
            drawing.fill(&[sheet], drawing.bare());
        }
        for element in &page.elements {
            drawing.fill(&[element.lie.polygon()], of_thing(element));
        }
        drawing
    }

    /// Inks the letters of the strips.
    pub(super) fn ink_letters<'b>(&mut self, letters: impl Iterator<Item = &'b Inked>) {
        for cut in letters {
            self.fill(&cut.edge, Dot::Ink(cut.colours.0));
            if let Some(print) = &cut.print {
                self.fill(print, Dot::Ground(cut.colours.1));
            }
        }
    }

    /// Fills polygons, given in mm on the page.
    fn fill(&mut self, polygons: &[Polygon], dot: Dot) {
        let place = |&at: &(f64, f64)| {
            let (across, down) = self.map.place(at);
            (across * 2.0, down * 2.0)
        };
        let placed: Vec<Polygon> = polygons.iter().map(|one| one.iter().map(place).collect()).collect();
        self.canvas.fill(&placed, dot);
    }

    /// Puts the points on the screen.
    pub(super) fn show(&self, buffer: &mut Buffer) {
        self.canvas.show(self.map.area, buffer, self.paint);
    }

    /// Every cell.
    pub(super) fn cells(&self) -> impl Iterator<Item = At> + use<> {
        let (columns, rows) = (i32::from(self.map.area.width), i32::from(self.map.area.height));
        (0..rows).flat_map(move |row| (0..columns).map(move |column| (column, row)))
    }

    /// The cell in which a place on the page lies; it may be none of the drawing's.
    pub(super) fn cell_at(&self, place: (f64, f64)) -> At {
        let (across, down) = self.map.place(place);
        #[expect(clippy::cast_possible_truncation, reason = "saturates")]
        let cell = (across.floor() as i32, down.floor() as i32);
        cell
    }

    /// The place on the screen of a cell; `None` where it is none of the drawing's.
    pub(super) fn on_screen(&self, (column, row): At) -> Option<(u16, u16)> {
        let (column, row) = (u16::try_from(column).ok()?, u16::try_from(row).ok()?);
        let area = self.map.area;
        (column < area.width && row < area.height).then_some((area.x + column, area.y + row))
    }

    /// The topmost thing at the middle of a cell.
    pub(super) fn thing(&self, (column, row): At) -> Option<usize> {
        self.on_screen((column, row))?;
        let place =
            usize::try_from(row).ok()? * usize::from(self.map.area.width) + usize::try_from(column).ok()?;
        *self.things.get(place)?
    }

    /// The topmost thing at the middle of a cell, where the cell shows nothing but it.
    pub(super) fn whole_thing(&self, at: At) -> Option<(usize, &'a Element)> {
        let place = self.thing(at)?;
        let element = &self.page.elements[place];
        self.canvas.is_all(at, of_thing(element)).then_some((place, element))
    }

    /// Whether the thing seen at a cell ends there: one of the cells beside it shows none, or one that lies lower.
    pub(super) fn is_at_edge(&self, (column, row): At) -> bool {
        let Some(thing) = self.thing((column, row)) else { return false };
        let beside = [(0, -1), (0, 1), (-1, 0), (1, 0)].map(|(x, y)| self.thing((column + x, row + y)));
        beside.iter().any(|other| other.is_none_or(|other| other < thing))
    }

    /// Whether a cell shows nothing but bare paper.
    pub(super) fn is_bare(&self, at: At) -> bool {
        self.canvas.is_all(at, self.bare()) && self.thing(at).is_none()
    }

    /// Whether most of a cell is letters.
    pub(super) fn is_inked(&self, at: At) -> bool {
        self.canvas.inked(at) > 1
    }

    fn bare(&self) -> Dot {
        self.page.ground.as_ref().map_or(Dot::Clear, |tint| Dot::Ground(tint.colour))
    }

    /// The colour of what lies at the middle of a cell, letters apart; `None`: the terminal's own background.
    pub(super) fn colour_at(&self, at: At) -> Option<Colour> {
        if let Some(place) = self.thing(at) {
            return Some(main_colour(&self.page.elements[place]));
        }
        let size = self.page.size?;
        let (x, y) = self.map.on_page((f64::from(at.0) + 0.5, f64::from(at.1) + 0.5));
        let within = (0.0..size.width.mm()).contains(&x) && (0.0..size.height.mm()).contains(&y);
        self.page.ground.as_ref().filter(|_| within).map(|tint| tint.colour)
    }

    /// Writes one character over what lies at a cell, in ink that reads on it; the ground is what lies at its middle.
    pub(super) fn write(&self, buffer: &mut Buffer, at: At, symbol: &str, bold: bool) {
        let Some(cell) = self.on_screen(at).and_then(|place| buffer.cell_mut(place)) else { return };
        let colour = self.colour_at(at);
        let shown = |colour: Colour| self.paint.colour(colour).unwrap_or(Color::Reset);
        cell.reset();
        cell.set_symbol(symbol);
        cell.bg = colour.map_or(Color::Reset, shown);
        cell.fg = colour.map_or(Color::Reset, |colour| shown(colour.readable_ink()));
        if bold {
            cell.set_style(super::super::paint::strong());
        }
    }
}

/// The colour that a thing is shown in.
pub(super) fn main_colour(element: &Element) -> Colour {
    element.colours.first().map_or(NO_COLOUR_NAMED, |tint| tint.colour)
}

fn of_thing(element: &Element) -> Dot {
    Dot::Ground(main_colour(element))
}
