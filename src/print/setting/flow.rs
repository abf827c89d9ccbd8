//! Chunks put one below the other on as many sheets as they need.
//!
//! Must not know what they say.

use std::rc::Rc;

use crate::measure::Size;

use super::super::sheet::{Piece, Sense, Sheet};
use super::chunk::{Chunk, HAIR, moved};
use super::{MARGIN, room};

/// The last of several sheets is too little filled to be worth its paper, in mm.
const LITTLE: f64 = 40.0;

/// So many lines are worth beginning at the foot of a sheet.
const FEW: f64 = 3.0;

/// What a sheet holds that no part begins on.
const BEGINNING: &str = "what is made";

/// `chunks` on sheets of `size`. A chunk that is held lies on the sheet of the next one where both fit a sheet; one that is
/// higher than a sheet is parted between lines. All lie closer to each other where that saves a sheet with little on it.
pub(super) fn flow(chunks: Vec<Chunk>, size: Size) -> Vec<Sheet> {
    let laid = |chunks: Vec<Chunk>| {
        let mut flow = Flow::on(size);
        flow.lay(chunks);
        flow
    };
    let usual = laid(chunks.clone());
    if usual.sheets.len() > 1 && usual.down < LITTLE {
        let closer = chunks.into_iter().map(|chunk| Chunk { before: chunk.before / 2.0, ..chunk });
        let close = laid(closer.collect());
        if close.sheets.len() < usual.sheets.len() {
            return close.sheets();
        }
    }
    usual.sheets()
}

/// Sheets as they fill.
pub(super) struct Flow {
    size: Size,
    /// Of the room on a sheet.
    height: f64,
    /// How much of it is taken.
    down: f64,
    /// A table, and the number of its next row.
    row: (usize, usize),
    /// The parts that have something on the sheet.
    parts: Vec<Rc<str>>,
    sheets: Vec<Sheet>,
}

impl Flow {
    pub(super) fn on(size: Size) -> Self {
        let height = room(size).1;
        Self { size, height, down: 0.0, row: (0, 0), parts: Vec::new(), sheets: Vec::new() }
    }

    /// Puts `chunks` below what there is. One that is held lies on the sheet of the next where both fit a sheet; one that is
    /// higher than a sheet is parted between lines.
    pub(super) fn lay(&mut self, chunks: Vec<Chunk>) {
        let mut group = Vec::new();
        for chunk in chunks {
            let held = chunk.held;
            group.push(chunk);
            if !held {
                self.group(std::mem::take(&mut group));
            }
        }
        self.group(group);
    }

    /// How much of the sheet is left, in mm.
    pub(super) fn left(&self) -> f64 {
        self.height - self.down
    }

    pub(super) fn sheets(mut self) -> Vec<Sheet> {
        self.told();
        self.sheets
    }

    /// What belongs on one sheet.
    fn group(&mut self, group: Vec<Chunk>) {
        let needed: f64 = group.iter().map(|chunk| chunk.before + chunk.height).sum();
        if self.down > 0.0 && self.down + needed > self.height + HAIR {
            self.next();
        }
        for chunk in group {
            self.chunk(chunk);
        }
    }

    /// What is higher than a sheet begins where there is room for a few of its lines.
    fn chunk(&mut self, mut chunk: Chunk) {
        let left = self.left() - chunk.before;
        let begins = chunk.height > self.height + HAIR && left >= FEW * chunk.lines.1;
        if self.sheets.is_empty() || (self.down > 0.0 && chunk.height > left + HAIR && !begins) {
            self.next();
        }
        if self.down <= 0.0 {
            self.names(&chunk);
        } else {
            self.down += chunk.before;
        }
        while chunk.height > self.left() + HAIR {
            let Some((upper, lower)) = chunk.part_at(self.left()) else { break };
            self.put(upper);
            self.next();
            self.names(&lower);
            chunk = lower;
        }
        self.put(chunk);
    }

    fn next(&mut self) {
        self.told();
        self.sheets.push(Sheet { size: self.size, told: String::new(), pieces: Vec::new() });
        self.down = 0.0;
    }

    /// Says what the sheet holds.
    fn told(&mut self) {
        let parts = std::mem::take(&mut self.parts);
        if let Some(sheet) = self.sheets.last_mut() {
            // A long list of what is missing may fill the first sheet.
            sheet.told = if parts.is_empty() { BEGINNING.to_owned() } else { parts.join("; ") };
        }
    }

    /// Repeats the names of columns.
    fn names(&mut self, chunk: &Chunk) {
        if let Some(names) = &chunk.names {
            let marks = names.marks.clone();
            self.pieces(vec![Piece { sense: Sense::Ornament, marks }]);
            self.down += names.height;
        }
    }

    fn put(&mut self, chunk: Chunk) {
        if !chunk.part.is_empty() && self.parts.last() != Some(&chunk.part) {
            self.parts.push(chunk.part);
        }
        let rows = self.numbered(chunk.pieces);
        self.pieces(rows);
        self.down += chunk.height;
    }

    /// Rows numbered on from those before.
    fn numbered(&mut self, mut pieces: Vec<Piece>) -> Vec<Piece> {
        let mut most = None;
        for piece in &mut pieces {
            if let Sense::Cell(cell) = &mut piece.sense {
                if cell.table != self.row.0 {
                    self.row = (cell.table, 0);
                }
                most = most.max(Some(cell.row));
                cell.row += self.row.1;
            }
        }
        self.row.1 += most.map_or(0, |row| row + 1);
        pieces
    }

    fn pieces(&mut self, pieces: Vec<Piece>) {
        let down = self.down;
        let Some(sheet) = self.sheets.last_mut() else { return };
        sheet.pieces.extend(pieces.into_iter().map(|piece| {
            let marks = piece.marks.into_iter().map(|mark| moved(mark, MARGIN, MARGIN + down));
            Piece { sense: piece.sense, marks: marks.collect() }
        }));
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::super::super::sheet::Mark;
    use super::super::types::BODY;
    use super::*;
    use crate::measure::Unit;
    use crate::page::Paper;

    /// A chunk of so many lines, each numbered.
    fn lines(count: u16) -> Chunk {
        let marks = (0..count).map(|line| BODY.mark(line.to_string(), 0.0, f64::from(line) * BODY.line));
        let piece = Piece { sense: Sense::Paragraph, marks: marks.collect() };
        Chunk::of(vec![piece], f64::from(count) * BODY.line, BODY.line)
    }

    fn a4() -> Size {
        Paper::A4.size(None, Unit::Millimetre).unwrap()
    }

    fn counts(sheets: &[Sheet]) -> Vec<usize> {
        let marks = |sheet: &Sheet| sheet.pieces.iter().flat_map(|piece| &piece.marks).count();
        sheets.iter().map(marks).collect()
    }

    #[test]
    fn what_would_leave_little_on_the_last_sheet_is_set_closer() {
        // 277 mm of room: ten times 24.5 mm and 9 or 13 times 4 mm between.
        let chunks = |count: usize, lines_of: u16| vec![lines(lines_of).after(4.0); count];
        assert_eq!(flow(chunks(10, 5), a4()).len(), 1, "281 mm, set closer");
        assert_eq!(flow(chunks(12, 5), a4()).len(), 2, "no closer than that");
        let wide = flow(vec![lines(40).after(4.0), lines(20).after(4.0)], a4());
        assert_eq!(counts(&wide), [40, 20], "a sheet with much on it is left as it is");
    }

    #[test]
    fn what_is_higher_than_a_sheet_begins_below_its_heading() {
        let sheets = flow(vec![lines(1).held(), lines(100)], a4());
        assert_eq!(counts(&sheets), [1 + 55, 45]);
        let mut flow = Flow::on(a4());
        flow.lay(vec![lines(54), lines(100)]);
        assert_eq!(counts(&flow.sheets()), [54, 56, 44], "two lines are not worth beginning");
    }

    #[test]
    fn what_is_parted_keeps_every_line_in_order() {
        let sheets = flow(vec![lines(130)], a4());
        let said: Vec<String> = sheets
            .iter()
            .flat_map(|sheet| &sheet.pieces)
            .flat_map(|piece| &piece.marks)
            .filter_map(|mark| if let Mark::Words(words) = mark { Some(words.text.clone()) } else { None })
            .collect();
        assert_eq!(said, (0..130).map(|line| line.to_string()).collect::<Vec<_>>());
    }
}
