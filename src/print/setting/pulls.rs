//! What to take off the sheets, as a list to tick off.
//!
//! Must not know where the letters go.

use std::rc::Rc;

use super::super::sheet::{Cell, Mark, Piece, Sense};
use super::super::told::{Taken, TakenLetter};
use super::chunk::{Chunk, Names};
use super::types::{BODY, FAINT, NAMES, STRONG, rule, swatches, tick_box};

/// From a row's rule to its words, and how wide the column of counts is.
const PAD: f64 = 0.6;
const COUNT: f64 = 17.0;
/// Between columns.
const APART: f64 = 3.0;
/// How wide the column of letters is: enough for its name, and not so wide that its colour is far off.
const LETTER: (f64, f64) = (12.0, 40.0);

/// The list in `width` mm, the order's table of that number.
pub(super) fn table(pulls: &[Taken], width: f64, number: usize) -> Vec<Chunk> {
    let letters = pulls.iter().flat_map(|pull| &pull.letters);
    let widest = letters.map(|letter| STRONG.width(&letter.called)).fold(0.0, f64::max);
    let columns = Columns::of(widest, width);
    let names = Names { height: NAMES.line, marks: columns.names() };
    let mut chunks = vec![columns.heading(number)];
    let names = Rc::new(names);
    for pull in pulls {
        chunks.push(sheet(pull, width, number));
        chunks.extend(pull.letters.iter().map(|letter| columns.letter(letter, number)));
    }
    for chunk in chunks.iter_mut().skip(1) {
        chunk.names = Some(Rc::clone(&names));
    }
    chunks
}

/// Left edges and widths of the columns after that of counts.
struct Columns {
    letter: (f64, f64),
    colour: (f64, f64),
    right: f64,
}

impl Columns {
    fn of(widest: f64, right: f64) -> Self {
        let (least, most) = LETTER;
        let letter = (COUNT + APART, widest.clamp(least, most.min(right / 3.0)) + 0.1);
        let left = letter.0 + letter.1 + APART;
        Self { letter, colour: (left, right - left), right }
    }

    fn names(&self) -> Vec<Mark> {
        let columns = [("take", 0.0, COUNT), ("letter", self.letter.0, self.letter.1)];
        let columns = columns.into_iter().chain([("colour", self.colour.0, self.colour.1)]);
        columns.flat_map(|(name, left, room)| NAMES.set(name, (left, 0.0), room).0).collect()
    }

    fn heading(&self, table: usize) -> Chunk {
        let cell = Cell { table, row: 0, names: true, spans: 1 };
        let piece = |mark| Piece { sense: Sense::Cell(cell), marks: vec![mark] };
        Chunk::of(self.names().into_iter().map(piece).collect(), NAMES.line, NAMES.line).after(1.0).held()
    }

    fn letter(&self, letter: &TakenLetter, table: usize) -> Chunk {
        let foot = BODY.foot(PAD);
        let (mut count, one) = BODY.set_right(&format!("{} x", letter.count), (0.0, PAD), COUNT);
        count.insert(0, tick_box(INSET, foot));
        count.insert(0, rule(INSET, self.right, 0.0, FAINT));
        let (called, two) = STRONG.set(&letter.called, (self.letter.0, PAD), self.letter.1);
        let (mut colour, taken) = swatches(&letter.colours, self.colour.0, foot);
        let (words, three) = BODY.set(&letter.colour, (self.colour.0 + taken, PAD), self.colour.1 - taken);
        colour.extend(words);
        let cell = Cell { table, row: 0, names: false, spans: 1 };
        let pieces = [count, called, colour].map(|marks| Piece { sense: Sense::Cell(cell), marks });
        let height = one.max(two).max(three);
        Chunk { lines: (PAD, BODY.line), ..Chunk::of(pieces.into(), height + 2.0 * PAD, BODY.line) }
    }
}

/// How far rows below a sheet's name are set in.
const INSET: f64 = 2.0;

/// The row that names a sheet.
fn sheet(pull: &Taken, width: f64, table: usize) -> Chunk {
    let (marks, height) = STRONG.set(&pull.sheet, (0.0, 0.0), width);
    let sense = Sense::Cell(Cell { table, row: 0, names: false, spans: 3 });
    Chunk::of(vec![Piece { sense, marks }], height, STRONG.line).after(2.0).held()
}
