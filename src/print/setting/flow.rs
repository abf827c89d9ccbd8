//! Chunks put one below the other on as many sheets as they need.
//!
//! Must not know what they say.

use std::rc::Rc;

use crate::measure::Size;

use super::super::sheet::{Piece, Sense, Sheet};
use super::chunk::{Chunk, HAIR, moved};
use super::{MARGIN, room};

/// What a sheet holds that no part begins on.
const BEGINNING: &str = "what is made";

/// `chunks` on sheets of `size`. A chunk that is held lies on the sheet of the next one where both fit a sheet; one that is
/// higher than a sheet is parted between lines.
pub(super) fn flow(chunks: Vec<Chunk>, size: Size) -> Vec<Sheet> {
    let mut flow =
        Flow { size, height: room(size).1, down: 0.0, row: (0, 0), parts: Vec::new(), sheets: Vec::new() };
    let mut group = Vec::new();
    for chunk in chunks {
        let held = chunk.held;
        group.push(chunk);
        if !held {
            flow.group(std::mem::take(&mut group));
        }
    }
    flow.group(group);
    flow.told();
    flow.sheets
}

struct Flow {
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

    fn chunk(&mut self, mut chunk: Chunk) {
        if self.down > 0.0 && self.down + chunk.before + chunk.height > self.height + HAIR {
            self.next();
        }
        if self.sheets.is_empty() {
            self.next();
        }
        if self.down <= 0.0 {
            self.names(&chunk);
            while self.down + chunk.height > self.height + HAIR {
                let Some((upper, lower)) = chunk.part_at(self.height - self.down) else { break };
                self.put(upper);
                self.next();
                self.names(&lower);
                chunk = lower;
            }
        } else {
            self.down += chunk.before;
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
