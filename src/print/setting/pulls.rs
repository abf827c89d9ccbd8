//! What to take off the sheets, as a list to tick off: the name of each sheet, and its letters side by side.
//!
//! Must not know where the letters go.

use std::rc::Rc;

use super::super::clear::cut_to;
use super::super::sheet::{Mark, Piece, Sense};
use super::super::told::{Taken, TakenLetter};
use super::chunk::{Chunk, Names, ornament};
use super::types::{BODY, FAINT, STRONG, rule, swatches, tick_box};

/// From a sheet's rule to its words, and from the words of one row to those of the next.
const PAD: f64 = 0.7;
/// A list at least so wide has the names beside their letters, so wide; in a narrower one they stand above.
const BESIDE: f64 = 150.0;
const NAME: f64 = 56.0;
/// Between a name and the letters beside it, and between letters.
const APART: f64 = 3.0;
/// How far letters below their sheet's name are set in.
const INSET: f64 = 2.0;
/// Letters begin at stops that are at least so far apart.
const STOP: f64 = 38.0;
/// From a letter's box to its count, and from there to its colour, at the least.
const HANG: f64 = 4.4;
const CALLED: f64 = 12.0;

/// The list in `width` mm.
pub(super) fn list(pulls: &[Taken], width: f64) -> Vec<Chunk> {
    let columns = Columns::of(width);
    let mut chunks: Vec<Chunk> = pulls.iter().flat_map(|pull| columns.sheet(pull)).collect();
    if let Some(first) = chunks.first_mut() {
        // The heading's own rule is there.
        first.pieces.remove(0);
    }
    chunks
}

/// Where names stand, and where letters do.
struct Columns {
    right: f64,
    name: f64,
    /// The first stop, from one to the next, and how many there are.
    left: f64,
    step: f64,
    stops: usize,
}

impl Columns {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few")]
    #[expect(clippy::cast_precision_loss, reason = "a few")]
    fn of(right: f64) -> Self {
        let (name, left) = if right < BESIDE { (right, INSET) } else { (NAME, NAME + APART) };
        let stops = ((right - left) / STOP).max(1.0) as usize;
        Self { right, name, left, step: (right - left) / stops as f64, stops }
    }

    /// A sheet, all of it on one sheet of paper where that is high enough.
    fn sheet(&self, pull: &Taken) -> Vec<Chunk> {
        let (marks, height) = STRONG.set(&pull.sheet, (0.0, PAD), self.name);
        let named =
            vec![ornament(rule(0.0, self.right, 0.0, FAINT)), Piece { sense: Sense::Paragraph, marks }];
        let name = chunk(named, PAD + height);
        let mut chunks = self.rows(&pull.letters);
        let cut = cut_to(&pull.sheet, STRONG.face, STRONG.size, self.right);
        let names = Rc::new(Names { height: STRONG.line, marks: vec![STRONG.mark(cut, 0.0, 0.0)] });
        if self.left > self.name {
            let Some(first) = chunks.first_mut() else { return vec![name] };
            first.pieces.splice(0..0, name.pieces);
            first.height = first.height.max(name.height);
        } else {
            chunks.insert(0, name);
        }
        for chunk in &mut chunks[1..] {
            chunk.names = Some(Rc::clone(&names));
        }
        let last = chunks.len() - 1;
        chunks[last].height += PAD;
        chunks.into_iter().enumerate().map(|(place, chunk)| Chunk { held: place < last, ..chunk }).collect()
    }

    /// The letters of a sheet: each begins at the next stop; one that is too wide to end before the one after takes more.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the stops")]
    #[expect(clippy::cast_precision_loss, reason = "a few")]
    fn rows(&self, letters: &[TakenLetter]) -> Vec<Chunk> {
        let mut rows: Vec<Chunk> = Vec::new();
        let mut taken = self.stops;
        for letter in letters {
            let stops = ((width(letter) + APART) / self.step).ceil().clamp(1.0, self.stops as f64);
            let left = if taken + stops as usize > self.stops {
                rows.push(chunk(Vec::new(), 0.0));
                taken = 0;
                self.left
            } else {
                self.left + taken as f64 * self.step
            };
            taken += stops as usize;
            let (pieces, height) = set(letter, left, stops * self.step - APART);
            if let Some(row) = rows.last_mut() {
                row.pieces.extend(pieces);
                row.height = row.height.max(PAD + height);
            }
        }
        rows
    }
}

fn chunk(pieces: Vec<Piece>, height: f64) -> Chunk {
    Chunk { lines: (PAD, BODY.line), ..Chunk::of(pieces, height, BODY.line) }
}

/// How wide a letter is on one line, its box included.
fn width(letter: &TakenLetter) -> f64 {
    let (_, swatches) = swatches(&letter.colours, 0.0, 0.0);
    HANG + called(letter) + swatches + BODY.width(&letter.colour)
}

/// From a letter's count to its colour.
fn called(letter: &TakenLetter) -> f64 {
    (BODY.width(&count(letter)) + STRONG.width(&letter.called) + 1.2).max(CALLED)
}

fn count(letter: &TakenLetter) -> String {
    format!("{} x ", letter.count)
}

/// A letter to tick off, from `left` on in `room` mm, and how high it is: its colour beside it, or else below.
fn set(letter: &TakenLetter, left: f64, room: f64) -> (Vec<Piece>, f64) {
    let tick = Piece { sense: Sense::Bullet, marks: vec![tick_box(left, BODY.foot(PAD))] };
    let (from, right) = (left + HANG, left + room);
    let after = from + BODY.width(&count(letter));
    let mut marks: Vec<Mark> = vec![BODY.mark(count(letter).trim_end().to_owned(), from, PAD)];
    let (words, mut height) = STRONG.set(&letter.called, (after, PAD), right - after);
    marks.extend(words);
    let beside = width(letter) <= room;
    let (left, top) = if beside { (from + called(letter), PAD) } else { (from, PAD + height) };
    let (boxes, taken) = swatches(&letter.colours, left, BODY.foot(top));
    marks.extend(boxes);
    let (words, high) = BODY.set(&letter.colour, (left + taken, top), right - left - taken + 0.01);
    marks.extend(words);
    height = if beside { height.max(high) } else { height + high };
    (vec![tick, Piece { sense: Sense::Item, marks }], height)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Colour;
    use crate::print::sheet::Words;

    fn letter(called: &str, colour: &str) -> TakenLetter {
        TakenLetter { count: 2, called: called.into(), colour: colour.into(), colours: vec![Colour::BLACK] }
    }

    fn pull(sheet: &str, letters: &[&str]) -> Taken {
        Taken { sheet: sheet.into(), letters: letters.iter().map(|called| letter(called, "teal")).collect() }
    }

    fn words(chunk: &Chunk) -> Vec<&Words> {
        let marks = chunk.pieces.iter().flat_map(|piece| &piece.marks);
        marks.filter_map(|mark| if let Mark::Words(words) = mark { Some(words) } else { None }).collect()
    }

    fn said(chunk: &Chunk) -> String {
        words(chunk).iter().map(|words| words.text.as_str()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn letters_stand_side_by_side_beside_their_sheet() {
        let chunks = list(&[pull("4: Kelp", &["A", "B", "C", "D"]), pull("37: Blocks", &["E"])], 190.0);
        let told: Vec<String> = chunks.iter().map(said).collect();
        assert_eq!(told, ["4: Kelp 2 x A teal 2 x B teal 2 x C teal", "2 x D teal", "37: Blocks 2 x E teal"]);
        let feet = words(&chunks[0])
            .iter()
            .map(|words| words.at.1)
            .fold((f64::MAX, 0.0), |(least, most), at| (at.min(least), at.max(most)));
        assert!(feet.1 - feet.0 < 1e-9, "on one line");
        assert_eq!(words(&chunks[0])[1].at.0.to_bits(), words(&chunks[1])[0].at.0.to_bits(), "in a column");
        assert_eq!(chunks.iter().map(|chunk| chunk.held).collect::<Vec<_>>(), [true, false, false]);
        let ticks =
            chunks.iter().flat_map(|chunk| &chunk.pieces).filter(|piece| piece.sense == Sense::Bullet);
        assert_eq!(ticks.count(), 5);
    }

    #[test]
    fn in_a_narrow_list_they_stand_below_it() {
        let chunks = list(&[pull("4: Kelp", &["A", "B", "C"])], 105.0);
        let told: Vec<String> = chunks.iter().map(said).collect();
        assert_eq!(told, ["4: Kelp", "2 x A teal 2 x B teal", "2 x C teal"]);
    }

    #[test]
    fn long_names_take_more_room_and_lose_nothing() {
        let long = Taken {
            sheet: "4: Kelp".into(),
            letters: vec![
                letter("A (early-morning)", "teal"),
                letter("B", &"lamp glow ".repeat(30)),
                letter("C", "teal"),
            ],
        };
        for width in [105.0, 190.0] {
            let chunks = list(std::slice::from_ref(&long), width);
            let told = chunks.iter().map(said).collect::<Vec<_>>().join(" ");
            assert_eq!(told.matches("lamp glow").count() + told.matches("lamp").count(), 60, "{told}");
            let right =
                chunks.iter().flat_map(words).map(|words| words.at.0 + words.width()).fold(0.0, f64::max);
            assert!(right <= width, "{right}");
        }
    }
}
