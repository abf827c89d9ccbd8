//! A sheet of paper drawn small: its edge, its lines and outlines, and what is written on it.
//!
//! Must not know which sheet it is.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::{Block, Widget};

use crate::app::{Colours, PageMap, SheetPicture};
use crate::measure::{Colour, Polygon};

use super::super::canvas::{Canvas, Dot};
use super::super::paint::{Paint, faint};
use super::writing;

/// What thin lines are drawn in, so that letters stand out from them.
const LINE: Colour = Colour { r: 130, g: 130, b: 130 };

/// Draws the sheet to scale.
pub(super) fn draw(sheet: &SheetPicture, map: &PageMap, colours: Colours, buffer: &mut Buffer) {
    let (area, paint) = (map.area, Paint(colours));
    let around =
        Rect::new(area.x.saturating_sub(1), area.y.saturating_sub(1), area.width + 2, area.height + 2);
    Block::bordered().border_style(faint()).render(around.intersection(buffer.area), buffer);
    let mut canvas = Canvas::new(area, Dot::Ground(Colour::WHITE));
    // In points, of which a cell has two in each direction.
    let place = |&at: &(f64, f64)| {
        let (across, down) = map.place(at);
        (across * 2.0, down * 2.0)
    };
    for (from, to) in &sheet.lines {
        canvas.line(place(from), place(to), Dot::Ink(LINE));
    }
    for shape in &sheet.shapes {
        let placed: Vec<Polygon> = shape.iter().map(|one| one.iter().map(place).collect()).collect();
        canvas.fill(&placed, Dot::Ink(Colour::BLACK));
    }
    canvas.show(area, buffer, paint);
    writing::draw(&sheet.writing, map, &canvas, paint, buffer);
}
