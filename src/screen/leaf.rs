//! Empty pages over whatever is there: a framed one, and one over the whole width.
//!
//! Must not know what is written on them.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::{Block, Clear, Widget};

use crate::app::Area;

use super::paint::strong;
use super::words::put;

/// A framed page with a heading over whatever is there; gives back its inside.
pub(super) fn page(area: Area, heading: &str, buffer: &mut Buffer) -> Area {
    let area = Rect::new(area.x, area.y, area.width, area.height).intersection(buffer.area);
    Clear.render(area, buffer);
    let block = Block::bordered().title(format!(" {heading} "));
    let inside = block.inner(area);
    block.render(area, buffer);
    Area { x: inside.x, y: inside.y, width: inside.width, height: inside.height }
}

/// A page over the whole width, so that 80 columns of text fit on 80 columns of screen: a heading, and a line below for
/// how much is left.
pub(super) fn sheet(area: Area, heading: &str, buffer: &mut Buffer) -> Area {
    Clear.render(Rect::new(area.x, area.y, area.width, area.height).intersection(buffer.area), buffer);
    let line = format!("{:─<1$}", format!("── {heading} "), usize::from(area.width));
    put(buffer, area.x, area.y, area.width, &line, strong());
    Area { y: area.y + 1, height: area.height.saturating_sub(2), ..area }
}
