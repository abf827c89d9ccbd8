//! The page drawn with characters: its edge, the outlines of the things on it, the strips, and a key.
//!
//! Must not know the rest of the order.

use crate::measure::{Lines, Polygon};
use crate::order::{Map, MapThing};

use super::super::column::{printable, wrap};
use super::COLUMNS;

/// The most columns and rows within the page's edge, which takes one more on each side.
const WIDEST: usize = 58;
const HIGHEST: usize = 28;

/// A printed character is about twice as high as it is wide (common practice, no source).
const HEIGHT_TO_WIDTH: f64 = 2.0;

/// What outlines are drawn with, thing by thing; all that are left over share the last.
const OF_THINGS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz?";

/// What strips are filled with; all that are left over share the last.
const OF_STRIPS: &[u8] = b"#=%@&$*";

/// The drawing and its key, line by line.
pub(super) fn lines(map: &Map) -> Vec<String> {
    let mut drawing = Drawing::of(map);
    let mut key = Vec::new();
    for (place, thing) in map.things.iter().enumerate() {
        let sign = sign(OF_THINGS, place);
        let shows = drawing.thing(&thing.outline, sign);
        key.push((sign, thing_told(thing, shows)));
    }
    for (place, strip) in map.strips.iter().enumerate() {
        let sign = sign(OF_STRIPS, place);
        let shows = drawing.fill(&strip.corners, sign);
        let beyond = if shows { "" } else { " (beyond the page)" };
        key.push((sign, format!("the {}{beyond}", strip.role)));
    }
    let mut lines = drawing.lines();
    for (sign, told) in key {
        for (place, line) in wrap(&printable(&told), COLUMNS - 4).iter().enumerate() {
            let sign = if place == 0 { sign } else { ' ' };
            lines.push(format!("  {sign} {line}"));
        }
    }
    lines
}

fn sign(signs: &[u8], place: usize) -> char {
    char::from(signs[place.min(signs.len() - 1)])
}

fn thing_told(thing: &MapThing, shows: bool) -> String {
    let kind = thing.kind.as_str();
    let kind = if thing.name == kind { String::new() } else { format!(", {kind}") };
    let original = if thing.original { ", original: nothing adhesive over it" } else { "" };
    let beyond = if shows { "" } else { " (beyond the page)" };
    format!("{}{kind}{original}{beyond}", thing.name)
}

/// The cells of the page.
struct Drawing {
    columns: usize,
    rows: usize,
    /// Width and height of a cell, in mm.
    cell: (f64, f64),
    signs: Vec<char>,
}

impl Drawing {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded and clamped")]
    #[expect(clippy::cast_precision_loss, reason = "a few dozen")]
    fn of(map: &Map) -> Self {
        let (width, height) = (map.size.width.mm(), map.size.height.mm());
        let wide = (width / WIDEST as f64).max(height / (HEIGHT_TO_WIDTH * HIGHEST as f64));
        let columns = ((width / wide).round() as usize).clamp(1, WIDEST);
        let rows = ((height / (HEIGHT_TO_WIDTH * wide)).round() as usize).clamp(1, HIGHEST);
        let cell = (width / columns as f64, height / rows as f64);
        Self { columns, rows, cell, signs: vec![' '; columns * rows] }
    }

    /// Draws an outline; what lies below is hidden within it. Whether any of it shows.
    fn thing(&mut self, outline: &Polygon, sign: char) -> bool {
        let covered = self.covered(outline);
        for (at, (column, row)) in self.places() {
            if covered.holds(column, row) {
                let beside = [(0, 1), (2, 1), (1, 0), (1, 2)]
                    .iter()
                    .all(|(across, down)| covered.holds_padded(column + across, row + down));
                self.signs[at] = if beside { ' ' } else { sign };
            }
        }
        covered.shows()
    }

    /// Fills an outline. Whether any of it shows.
    fn fill(&mut self, outline: &Polygon, sign: char) -> bool {
        let covered = self.covered(outline);
        for (at, (column, row)) in self.places() {
            if covered.holds(column, row) {
                self.signs[at] = sign;
            }
        }
        covered.shows()
    }

    /// The cells whose middles an outline covers, and one more all round; where it is too small to cover any, those that
    /// its corners lie in.
    #[expect(clippy::cast_precision_loss, reason = "a few dozen")]
    fn covered(&self, outline: &Polygon) -> Covered {
        let (wide, high) = self.cell;
        let mut covered = Covered { columns: self.columns, rows: self.rows, cells: Vec::new() };
        covered.cells = vec![false; (self.columns + 2) * (self.rows + 2)];
        let middles = Lines { start: -high / 2.0, step: high, count: self.rows + 2 };
        middles.across(std::slice::from_ref(outline), |row, from, to| {
            for column in 0..self.columns + 2 {
                let middle = (column as f64 - 0.5) * wide;
                if from <= middle && middle < to {
                    covered.cells[row * (self.columns + 2) + column] = true;
                }
            }
        });
        if !covered.cells.contains(&true) {
            for &(x, y) in outline {
                covered.touch((x / wide).floor(), (y / high).floor());
            }
        }
        covered
    }

    /// The place of each cell in the list, with its column and row.
    fn places(&self) -> impl Iterator<Item = (usize, (usize, usize))> + use<> {
        let columns = self.columns;
        (0..columns * self.rows).map(move |at| (at, (at % columns, at / columns)))
    }

    /// Row by row, within the page's edge.
    fn lines(&self) -> Vec<String> {
        let edge = format!("+{}+", "-".repeat(self.columns));
        let rows = self.signs.chunks(self.columns).map(|row| format!("|{}|", row.iter().collect::<String>()));
        std::iter::once(edge.clone()).chain(rows).chain([edge]).collect()
    }
}

/// Which cells something covers, and of those one beyond the page all round.
struct Covered {
    columns: usize,
    rows: usize,
    cells: Vec<bool>,
}

impl Covered {
    fn holds(&self, column: usize, row: usize) -> bool {
        self.holds_padded(column + 1, row + 1)
    }

    /// The same, counted from the first cell beyond the page.
    fn holds_padded(&self, column: usize, row: usize) -> bool {
        self.cells[row * (self.columns + 2) + column]
    }

    fn shows(&self) -> bool {
        (0..self.rows).any(|row| (0..self.columns).any(|column| self.holds(column, row)))
    }

    /// Takes the cell of that column and row, if it is on the page.
    #[expect(clippy::cast_precision_loss, reason = "a few dozen")]
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within the page")]
    fn touch(&mut self, column: f64, row: f64) {
        if (0.0..self.columns as f64).contains(&column) && (0.0..self.rows as f64).contains(&row) {
            let (column, row) = (column as usize + 1, row as usize + 1);
            self.cells[row * (self.columns + 2) + column] = true;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Length, Size};
    use crate::order::MapStrip;
    use crate::page::Kind;
    use crate::title::Role;

    fn map(width: i64, height: i64, things: Vec<(&str, Polygon)>) -> Map {
        let thing = |(name, outline): (&str, Polygon)| MapThing {
            name: name.into(),
            kind: Kind::Photo,
            original: name == "quay",
            outline,
        };
        let size = Size { width: Length::from_mm(width), height: Length::from_mm(height) };
        Map { size, things: things.into_iter().map(thing).collect(), strips: Vec::new() }
    }

    fn rect(left: f64, top: f64, right: f64, bottom: f64) -> Polygon {
        vec![(left, top), (right, top), (right, bottom), (left, bottom)]
    }

    #[test]
    fn a_thing_hides_what_lies_below_it() {
        // Cells of 5 mm by 10 mm.
        let things = vec![("mat", rect(10.0, 10.0, 60.0, 60.0)), ("quay", rect(30.0, 30.0, 90.0, 90.0))];
        let mut map = map(290, 100, things);
        map.strips.push(MapStrip {
            role: Role::title(),
            corners: rect(20.0, 80.0, 60.0, 100.0),
            letters: Vec::new(),
            prints: Vec::new(),
            missing: Vec::new(),
        });
        let lines = lines(&map);
        let shown: Vec<&str> = lines.iter().map(|line| line.get(..22).unwrap_or(line)).collect();
        assert_eq!(
            shown,
            [
                "+---------------------",
                "|                     ",
                "|  AAAAAAAAAA         ",
                "|  A        A         ",
                "|  A   BBBBBBBBBBBB   ",
                "|  A   B          B   ",
                "|  AAAAB          B   ",
                "|      B          B   ",
                "|      B          B   ",
                "|    ########BBBBBB   ",
                "|    ########         ",
                "+---------------------",
                "  A mat, photo",
                "  B quay, photo, origi",
                "  # the title",
            ]
        );
        assert_eq!(lines[0].len(), 60);
    }

    #[test]
    fn the_drawing_keeps_its_room_and_the_pages_proportion() {
        for (width, height, columns, rows) in
            [(300, 300, 58, 30), (1000, 1000, 58, 30), (210, 297, 42, 30), (900, 10, 60, 3), (10, 900, 3, 30)]
        {
            let lines = lines(&map(width, height, Vec::new()));
            assert_eq!((lines[0].len(), lines.len()), (columns, rows), "{width} x {height}");
        }
    }

    #[test]
    fn what_is_small_or_turned_shows_and_what_is_beyond_the_page_is_told() {
        let turned = vec![(60.0, 20.0), (80.0, 40.0), (60.0, 60.0), (40.0, 40.0)];
        let things =
            vec![("bead", rect(3.1, 3.1, 3.9, 3.9)), ("quay", turned), ("off", rect(-30.0, 0.0, -9.0, 9.0))];
        let lines = lines(&map(290, 100, things));
        assert_eq!(&lines[1][..2], "|A");
        let widths: Vec<usize> = lines[3..7].iter().map(|line| line.trim_matches(['|', ' ']).len()).collect();
        assert_eq!(widths, [2, 6, 6, 2]);
        assert!(lines.contains(&"  C off, photo (beyond the page)".to_owned()), "{lines:?}");
    }
}
