//! A sheet of paper drawn small: its edge, its outlines and lines, and what is written on it.
//!
//! Must not know which sheet it is.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::widgets::{Block, Borders, Widget};

use crate::app::{Colours, PageMap, SheetPicture};
use crate::measure::{Colour, Polygon};

use super::super::canvas::{Canvas, Dot};
use super::super::paint::{Paint, faint, strong};
use super::lines::Lines;
use super::writing;

/// What thin lines and small writing are drawn in, so that letters and headings stand out.
const GREY: Colour = Colour { r: 118, g: 118, b: 118 };

/// Draws the sheet to scale.
pub(super) fn draw(sheet: &SheetPicture, map: &PageMap, colours: Colours, buffer: &mut Buffer) {
    let (area, paint) = (map.area, Paint(colours));
    let around =
        Rect::new(area.x.saturating_sub(1), area.y.saturating_sub(1), area.width + 2, area.height + 2);
    Block::new()
        .borders(edges(sheet, map))
        .border_style(faint())
        .render(around.intersection(buffer.area), buffer);
    let mut canvas = Canvas::new(area, Dot::Ground(Colour::WHITE));
    // In points, of which a cell has two in each direction.
    let place = |&at: &(f64, f64)| {
        let (across, down) = map.place(at);
        (across * 2.0, down * 2.0)
    };
    for shape in &sheet.shapes {
        let placed: Vec<Polygon> = shape.iter().map(|one| one.iter().map(place).collect()).collect();
        canvas.fill(&placed, Dot::Ink(Colour::BLACK));
    }
    canvas.show(area, buffer, paint);
    let (dim, bold) = (on_paper(GREY, paint, faint()), on_paper(Colour::BLACK, paint, Style::new()));
    let is_free = |at: (i32, i32)| canvas.is_on(at) && canvas.inked(at) == 0;
    let lines = Lines::of(&sheet.lines, map);
    lines.draw(map, dim, is_free, buffer);
    let is_bare = |at: (i32, i32)| is_free(at) && !lines.runs_through(at);
    writing::draw(&sheet.writing, map, (bold.patch(strong()), dim), (&is_free, &is_bare), buffer);
}

/// The edges of the paper that are seen: from near it may go on above or below.
fn edges(sheet: &SheetPicture, map: &PageMap) -> Borders {
    let (_, bottom) = map.on_page((0.0, f64::from(map.area.height)));
    let mut edges = Borders::ALL;
    edges.set(Borders::TOP, map.corner.1 <= 0.0);
    edges.set(Borders::BOTTOM, bottom >= sheet.height - map.scale.1 / 2.0);
    edges
}

/// `ink` on white paper; `plain` where there are no colours.
fn on_paper(ink: Colour, paint: Paint, plain: Style) -> Style {
    let colours = paint.colour(ink).zip(paint.colour(Colour::WHITE));
    colours.map_or(plain, |(ink, paper)| Style::new().fg(ink).bg(paper))
}
