//! Where the panes of the order's view lie on a screen of a given size.
//!
//! Must not know what is in them.

use super::order_view::OrderSide;
use super::panes::Area;

/// From so many columns on the words and a sheet of paper are seen side by side.
const BOTH: u16 = 120;

/// The words of an order are so wide.
const WORDS: u16 = 80;

/// A list of sheets needs so many columns.
const LIST: u16 = 30;

/// From so many columns on what is told of a sheet of paper takes one line, or two.
const ONE_LINE: u16 = 90;
const TWO_LINES: u16 = 48;

/// The panes of the order's view, between the head line and the notice. One that is not seen has no cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OrderPanes {
    /// The words, with a line for their heading.
    pub words: Area,
    /// What is told of the sheets, and of the chosen one below.
    pub heading: Area,
    /// The chosen sheet to scale; a cell around it is left for its edge.
    pub picture: Area,
    /// How many rows the whole sheet takes: from near more than the picture has.
    pub sheet_rows: u16,
    /// All sheets.
    pub list: Area,
    /// The first sheet that the list shows, from 0.
    pub first_listed: usize,
}

impl OrderPanes {
    /// Whether only one of both looks is seen.
    #[must_use]
    pub const fn is_narrow(&self) -> bool {
        self.words.width == 0 || self.heading.width == 0
    }
}

/// Lays the order's view out for `side`: the words on the left and the sheets on the right, or one of both where there is
/// little room; from near the sheet alone, as wide as the screen. `sheet`: the size of the chosen sheet of paper in mm, if there is one; `chosen`: its place among `count`.
#[must_use]
pub fn order_panes(
    (columns, rows): (u16, u16),
    side: OrderSide,
    sheet: Option<(f64, f64)>,
    (chosen, count): (usize, usize),
) -> OrderPanes {
    let whole = Area { x: 0, y: 1, width: columns, height: rows.saturating_sub(3) };
    let (words, sheets) = match side {
        OrderSide::Words | OrderSide::Sheets if columns >= BOTH => {
            let x = WORDS + 2;
            (Area { width: WORDS, ..whole }, Area { x, width: columns - x, ..whole })
        }
        OrderSide::Words => (whole, Area::default()),
        OrderSide::Sheets | OrderSide::Near => (Area::default(), whole),
    };
    let told = match sheets.width {
        ..TWO_LINES => 3,
        TWO_LINES..ONE_LINE => 2,
        ONE_LINE.. => 1,
    };
    let heading = Area { height: sheets.height.min(1 + told), ..sheets };
    let below = Area { y: sheets.y + heading.height, height: sheets.height - heading.height, ..sheets };
    let room = if side == OrderSide::Near { Area { height: u16::MAX, ..below } } else { below };
    let Some(laid) = sheet.map(|size| place(room, size)) else {
        return OrderPanes { words, heading, picture: below, ..OrderPanes::default() };
    };
    let sheet_rows = laid.height.saturating_sub(2);
    let picture = Area { height: laid.height.min(below.height), ..laid };
    let list = if count > 1 { list(below, picture) } else { Area::default() };
    let first_listed = (chosen + 1).saturating_sub(usize::from(list.height));
    OrderPanes { words, heading, picture, sheet_rows, list, first_listed }
}

/// A sheet of paper as large as fits into `area`, its edge included; a cell is taken to be twice as high as wide.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within the area")]
fn place(area: Area, (width, height): (f64, f64)) -> Area {
    let room = |cells: u16| f64::from(cells.saturating_sub(2).max(1));
    let mm_per_column = (width / room(area.width)).max(height / room(area.height) / 2.0);
    let cells = |mm: f64, per_cell: f64, most: u16| {
        ((mm / per_cell).round().max(1.0) as u16).saturating_add(2).min(most)
    };
    Area {
        width: cells(width, mm_per_column, area.width),
        height: cells(height, mm_per_column * 2.0, area.height),
        ..area
    }
}

/// Where the list of sheets lies: beside the picture, or below it; nowhere where there is no room.
fn list(area: Area, picture: Area) -> Area {
    let (beside, below) =
        (area.width.saturating_sub(picture.width + 2), area.height.saturating_sub(picture.height + 1));
    if beside >= LIST {
        Area { x: picture.x + picture.width + 2, width: beside, ..area }
    } else if below >= 2 && area.width >= LIST {
        Area { y: picture.y + picture.height + 1, height: below, ..area }
    } else {
        Area::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const UPRIGHT: Option<(f64, f64)> = Some((210.0, 297.0));
    const ACROSS: Option<(f64, f64)> = Some((297.0, 210.0));

    fn within(inner: Area, outer: Area) -> bool {
        inner.width == 0
            || inner.x >= outer.x
                && inner.y >= outer.y
                && inner.x + inner.width <= outer.x + outer.width
                && inner.y + inner.height <= outer.y + outer.height
    }

    #[test]
    fn all_of_it_fits_at_every_size() {
        for size in [(80, 24), (140, 45), (60, 18), (120, 30), (200, 60), (119, 24), (0, 0), (3, 4)] {
            for side in [OrderSide::Words, OrderSide::Sheets, OrderSide::Near] {
                for sheet in [None, UPRIGHT, ACROSS, Some((125.0, 125.0)), Some((1000.0, 125.0))] {
                    let panes = order_panes(size, side, sheet, (3, 9));
                    let whole = Area { x: 0, y: 1, width: size.0, height: size.1.saturating_sub(3) };
                    for area in [panes.words, panes.heading, panes.picture, panes.list] {
                        assert!(within(area, whole), "{size:?} {side:?} {panes:?}");
                    }
                    assert_eq!(panes.is_narrow(), size.0 < BOTH || side == OrderSide::Near, "{panes:?}");
                }
            }
        }
    }

    #[test]
    fn from_near_a_sheet_is_as_wide_as_the_screen_and_longer() {
        for (size, rows) in [((80, 24), 55), ((140, 45), 98), ((200, 60), 140)] {
            let panes = order_panes(size, OrderSide::Near, UPRIGHT, (0, 4));
            assert_eq!((panes.picture.x, panes.picture.width, panes.sheet_rows), (0, size.0, rows));
            assert_eq!(panes.picture.y + panes.picture.height, size.1 - 2);
        }
        let panes = order_panes((80, 24), OrderSide::Near, Some((1000.0, 125.0)), (0, 4));
        assert_eq!((panes.sheet_rows, panes.picture.height), (5, 7), "all of it is seen");
    }

    #[test]
    fn beside_an_upright_sheet_stands_the_list_of_all_and_below_one_that_lies_across() {
        let panes = order_panes((80, 24), OrderSide::Sheets, UPRIGHT, (0, 4));
        assert_eq!((panes.picture.width, panes.picture.height), (25, 18));
        assert_eq!((panes.list.x, panes.list.width), (27, 53));
        let panes = order_panes((80, 24), OrderSide::Sheets, ACROSS, (0, 4));
        assert_eq!((panes.list.width, panes.picture.width), (31, 47));
        let panes = order_panes((140, 45), OrderSide::Words, ACROSS, (0, 4));
        assert!(panes.list.y > panes.picture.y + panes.picture.height && panes.list.height > 10);
        let panes = order_panes((80, 24), OrderSide::Sheets, UPRIGHT, (29, 42));
        assert_eq!((panes.first_listed, panes.list.height), (12, 18), "the chosen one is in the list");
    }
}
