//! Where the panes lie on a screen of a given size.
//!
//! Must not know what is in them.

/// The smallest screen on which every act can be done: columns and rows.
pub const SMALLEST: (u16, u16) = (60, 18);

/// A rectangle of cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Area {
    /// Left column.
    pub x: u16,
    /// Top row.
    pub y: u16,
    /// Columns.
    pub width: u16,
    /// Rows.
    pub height: u16,
}

impl Area {
    /// Whether a cell lies in it.
    #[must_use]
    pub const fn holds(self, column: u16, row: u16) -> bool {
        column >= self.x && column < self.x + self.width && row >= self.y && row < self.y + self.height
    }
}

/// The panes of the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Panes {
    /// The first line: what is open, its score.
    pub head: Area,
    /// The chips, with a line for their heading.
    pub grid: Area,
    /// The checks, with a line for their heading.
    pub checks: Area,
    /// The strip, with a line for its heading.
    pub strip: Area,
    /// What was done last, or what is being typed.
    pub notice: Area,
    /// The keys that work now.
    pub keys: Area,
}

impl Panes {
    /// The lines that a page over the bench shows within its frame.
    #[must_use]
    pub fn page_rows(&self) -> usize {
        usize::from((self.grid.height + self.strip.height).saturating_sub(2))
    }
}

/// Lays the panes out: chips on the left and checks on the right of the upper half, the strip over the whole width of
/// the lower, then one line for notices and one for keys.
#[must_use]
pub fn panes(columns: u16, rows: u16) -> Panes {
    let line = |y: u16| Area { x: 0, y, width: columns, height: 1 };
    let body = rows.saturating_sub(3);
    let strip = (body * 9 / 20).max(7).min(body);
    let upper = body - strip;
    let checks = if columns >= 120 { columns * 2 / 5 } else { columns * 9 / 20 };
    let grid = columns - checks;
    Panes {
        head: line(0),
        grid: Area { x: 0, y: 1, width: grid, height: upper },
        checks: Area { x: grid, y: 1, width: checks, height: upper },
        strip: Area { x: 0, y: 1 + upper, width: columns, height: strip },
        notice: line(rows.saturating_sub(2)),
        keys: line(rows.saturating_sub(1)),
    }
}

/// The panes of the page's view, between the head line and the notice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PagePanes {
    /// The page.
    pub page: Area,
    /// What lies on it, with a line for its heading.
    pub things: Area,
    /// The checks of the place, with a line for their heading.
    pub checks: Area,
}

/// The rows that the checks of the place keep at least, heading included.
const FEWEST_CHECKS: u16 = 7;

/// Lays the page's view out: the page on the left, and on the right the list of `things` above the checks. From near the
/// page has the whole width, and the two stand side by side below it.
#[must_use]
pub fn page_panes(columns: u16, rows: u16, near: bool, things: usize) -> PagePanes {
    let body = rows.saturating_sub(3);
    if near {
        let below = (body * 2 / 5).max(7).min(body);
        let (y, half) = (1 + body - below, columns * 9 / 20);
        return PagePanes {
            page: Area { x: 0, y: 1, width: columns, height: body - below },
            things: Area { x: 0, y, width: half, height: below },
            checks: Area { x: half, y, width: columns - half, height: below },
        };
    }
    let side = if columns >= 120 { columns * 2 / 5 } else { columns * 9 / 20 };
    let (x, page) = (columns - side, columns - side);
    let most = body.saturating_sub(FEWEST_CHECKS).min(body / 2).max(3);
    let list = u16::try_from(things + 1).unwrap_or(most).min(most).min(body);
    PagePanes {
        page: Area { x: 0, y: 1, width: page.saturating_sub(1), height: body },
        things: Area { x, y: 1, width: side, height: list },
        checks: Area { x, y: 1 + list, width: side, height: body - list },
    }
}

/// The panes of the wording's view, between the head line and the notice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WordPanes {
    /// The wording that is looked at, framed.
    pub line: Area,
    /// What the stash says to it.
    pub answer: Area,
    /// The wishes, with a line for their heading.
    pub wishes: Area,
    /// The ideas, with a line for their heading.
    pub ideas: Area,
}

/// Lays the wording's view out: the wording, what is said of it, and below the wishes and the ideas side by side.
#[must_use]
pub fn word_panes(columns: u16, rows: u16) -> WordPanes {
    let body = rows.saturating_sub(3);
    let line = 4.min(body);
    let answer = (body / 4).max(4).min(body - line);
    let (y, height) = (1 + line + answer, body - line - answer);
    let ideas = columns * 7 / 20;
    WordPanes {
        line: Area { x: 0, y: 1, width: columns, height: line },
        answer: Area { x: 0, y: 1 + line, width: columns, height: answer },
        wishes: Area { x: 0, y, width: (columns - ideas).saturating_sub(1), height },
        ideas: Area { x: columns - ideas, y, width: ideas, height },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_belongs_to_one_pane() {
        for (columns, rows) in [(80, 24), (140, 45), (60, 18), (200, 60)] {
            let panes = panes(columns, rows);
            assert_eq!(panes.grid.width + panes.checks.width, columns);
            assert_eq!(1 + panes.grid.height + panes.strip.height + 2, rows);
            assert!(panes.grid.height >= 5 && panes.strip.height >= 7);
        }
    }

    #[test]
    fn the_page_and_what_is_told_of_it_fill_the_screen() {
        for (columns, rows) in [(80, 24), (140, 45), (60, 18), (200, 60)] {
            for (near, count) in [(false, 0), (false, 40), (true, 5)] {
                let panes = page_panes(columns, rows, near, count);
                let below = if near { panes.page.height } else { 0 };
                assert_eq!(panes.checks.y + panes.checks.height, rows - 2);
                assert_eq!(panes.things.y, 1 + below);
                assert!(panes.things.height >= 1 && panes.checks.height >= 7);
                assert_eq!(panes.checks.x + panes.checks.width, columns);
            }
        }
    }

    #[test]
    fn the_smallest_screens_do_not_panic() {
        for columns in 0..4 {
            for rows in 0..12 {
                let _ = panes(columns, rows);
                let _ = word_panes(columns, rows);
                let _ = [true, false].map(|near| page_panes(columns, rows, near, 3));
            }
        }
    }
}
