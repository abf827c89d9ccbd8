//! A strip parted for the sheets: into rows of parts, where it is longer than a sheet is wide or higher than it is high.
//!
//! Must not know what else is on a sheet.

use crate::measure::Extent;

use super::parts::{Parted, Reach, Span, gaps, parts};

/// How far a part reaches beyond its join with the next, in mm: paper to lay that one on, with the whole of the join's marks.
const OVERLAP: f64 = 8.0;

/// Rows of parts, from the top down.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Parting {
    /// The rows.
    pub(super) rows: Vec<Row>,
    /// Joins that run through a letter.
    pub(super) cuts: usize,
}

/// Parts beside each other.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    /// How far it reaches down the strip's y.
    pub(super) down: Reach,
    /// How far each part reaches along the strip.
    pub(super) along: Vec<Reach>,
}

/// What the drawing keeps around letters at least: room for numbers, marks and the ends of the carrier line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Around {
    /// Before the first and behind the last.
    pub(super) along: f64,
    /// Above and below.
    pub(super) down: f64,
}

impl Parting {
    /// How many parts there are.
    pub(super) fn len(&self) -> usize {
        self.rows.iter().map(|row| row.along.len()).sum()
    }

    /// The least parting of `letters` into parts that fit `room` (width, height): first by letters cut, then by parts.
    pub(super) fn of(letters: &[Extent], around: Around, room: (f64, f64)) -> Self {
        let down = |letter: &Extent| Span { from: letter.top, to: letter.bottom };
        let spans: Vec<Span> = letters.iter().map(down).collect();
        let whole = whole(&spans, around.down);
        let by_height = parts(&spans, whole, room.1, OVERLAP.min(room.1 / 4.0));
        let by_line = line_by_line(&spans, whole);
        let fits = by_line.parts.len() > 1 && by_line.parts.iter().all(|line| line.to - line.from <= room.1);
        let lines = fits.then(|| Self::in_rows(letters, &by_line, around, room.0));
        let high = Self::in_rows(letters, &by_height, around, room.0);
        match lines {
            Some(lines) if (lines.cuts, lines.len()) < (high.cuts, high.len()) => lines,
            _ => high,
        }
    }

    fn in_rows(letters: &[Extent], rows: &Parted, around: Around, width: f64) -> Self {
        let mut parting = Self { rows: Vec::new(), cuts: rows.cuts };
        for &down in &rows.parts {
            let on_it = |letter: &&Extent| letter.top < down.join && down.from < letter.bottom;
            let spans: Vec<Span> = letters
                .iter()
                .filter(on_it)
                .map(|letter| Span { from: letter.left, to: letter.right })
                .collect();
            let parted = parts(&spans, whole(&spans, around.along), width, OVERLAP.min(width / 4.0));
            parting.cuts += parted.cuts;
            parting.rows.push(Row { down, along: parted.parts });
        }
        parting
    }
}

/// From the first to the last of `spans`, and `around` at both ends.
fn whole(spans: &[Span], around: f64) -> Span {
    let from = spans.iter().map(|span| span.from).reduce(f64::min).unwrap_or_default();
    let to = spans.iter().map(|span| span.to).reduce(f64::max).unwrap_or_default();
    Span { from: from - around, to: to + around }
}

/// A row for each line: joined in the middle of every gap.
fn line_by_line(spans: &[Span], whole: Span) -> Parted {
    let gaps = gaps(spans, whole);
    let inner = gaps.get(1..gaps.len().saturating_sub(1)).unwrap_or_default();
    let mut parted = Parted { parts: Vec::new(), cuts: 0 };
    let mut from = whole.from;
    for gap in inner {
        let join = f64::midpoint(gap.from, gap.to);
        parted.parts.push(Reach { from, join, to: join + OVERLAP });
        from = join;
    }
    parted.parts.push(Reach { from, join: whole.to, to: whole.to });
    parted
}
