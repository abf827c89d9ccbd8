//! A patch of the page in cells of 1 mm, held or bare: 64 of them in a machine word.
//!
//! A cell is named by the whole millimetres of its upper left corner and is taken for its centre. Beyond the patch all is bare.
//! Must not know what the cells are of.

use std::ops::Range;

use crate::measure::{Lines, Polygon};

/// Cells in a word.
pub(super) const WORD: usize = 64;

/// A patch of cells.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cells {
    left: i32,
    top: i32,
    columns: usize,
    rows: usize,
    /// Words in a row.
    stride: usize,
    /// Row by row; the cell furthest left is the lowest bit. Bits beyond the last column are 0.
    words: Vec<u64>,
}

impl Cells {
    /// A bare patch of `columns` by `rows` cells, whose first is at `left`, `top`.
    #[must_use]
    pub fn bare(left: i32, top: i32, columns: usize, rows: usize) -> Self {
        let (columns, rows) = if columns == 0 || rows == 0 { (0, 0) } else { (columns, rows) };
        let stride = columns.div_ceil(WORD);
        Self { left, top, columns, rows, stride, words: vec![0; stride * rows] }
    }

    /// The cells whose centres lie within `polygons`, in mm, by the non-zero rule.
    #[must_use]
    pub fn within(polygons: &[Polygon]) -> Self {
        let Some(extent) = crate::measure::Extent::of(polygons) else { return Self::default() };
        let (left, right) = (first_centre(extent.left), first_centre(extent.right));
        let (top, bottom) = (first_centre(extent.top), first_centre(extent.bottom));
        let mut cells = Self::bare(left, top, count(left..right), count(top..bottom));
        let lines = Lines { start: f64::from(top) + 0.5, step: 1.0, count: cells.rows };
        lines.across(polygons, |line, from, to| {
            cells.hold(top + whole(line), first_centre(from)..first_centre(to));
        });
        cells
    }

    /// The same patch, bare.
    #[must_use]
    pub(super) fn like(&self) -> Self {
        Self { words: vec![0; self.words.len()], ..*self }
    }

    /// Columns of the patch, by the millimetres of their left edges.
    #[must_use]
    pub fn across(&self) -> Range<i32> {
        self.left..self.left + whole(self.columns)
    }

    /// Rows of the patch, by the millimetres of their upper edges.
    #[must_use]
    pub fn down(&self) -> Range<i32> {
        self.top..self.top + whole(self.rows)
    }

    /// Whether the cell at `x`, `y` is held.
    #[must_use]
    pub fn holds(&self, x: i32, y: i32) -> bool {
        self.across().contains(&x) && self.word(x, y) & 1 == 1
    }

    /// How many cells are held: square millimetres.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.words.iter().map(|word| word.count_ones()).sum()
    }

    /// Whether no cell is held.
    #[must_use]
    pub fn is_bare(&self) -> bool {
        self.words.iter().all(|&word| word == 0)
    }

    /// Every held cell, row by row.
    pub fn iter(&self) -> impl Iterator<Item = (i32, i32)> + '_ {
        self.down().flat_map(move |y| {
            self.across().step_by(WORD).flat_map(move |x| {
                let word = self.word(x, y);
                (0..64).filter(move |bit| word >> bit & 1 == 1).map(move |bit| (x + bit, y))
            })
        })
    }

    /// Holds the cells of row `y` in `columns`, as far as they lie on the patch.
    pub(super) fn hold(&mut self, y: i32, columns: Range<i32>) {
        let (from, to) = (columns.start.max(self.left), columns.end.min(self.across().end));
        if !self.down().contains(&y) || from >= to {
            return;
        }
        let (from, to) = (place(from - self.left), place(to - self.left));
        let row = place(y - self.top) * self.stride;
        for word in from / WORD..to.div_ceil(WORD) {
            let (low, high) = (from.max(word * WORD) % WORD, to.min((word + 1) * WORD) - word * WORD);
            let upto = if high == WORD { u64::MAX } else { (1 << high) - 1 };
            self.words[row + word] |= upto & (u64::MAX << low);
        }
    }

    /// Holds in each row all from its first to its last held cell.
    pub(super) fn fill_rows(&mut self) {
        for y in self.down() {
            let held = |(_, word): &(i32, &u64)| **word != 0;
            let words = || (self.left..).step_by(WORD).zip(self.row(y));
            let first = words().find(held).map(|(x, word)| x + number(word.trailing_zeros()));
            let last = words().filter(held).last().map(|(x, word)| x + 64 - number(word.leading_zeros()));
            if let (Some(first), Some(last)) = (first, last) {
                self.hold(y, first..last);
            }
        }
    }

    /// The 64 cells of row `y` from `x` on.
    #[inline]
    pub(super) fn word(&self, x: i32, y: i32) -> u64 {
        let (column, row) = (x - self.left, y - self.top);
        if row < 0 || row >= whole(self.rows) || column <= -64 || column >= whole(self.columns) {
            return 0;
        }
        let row = &self.words[place(row) * self.stride..][..self.stride];
        if column < 0 {
            return row[0] << (-column);
        }
        let (word, bit) = (place(column) / WORD, place(column) % WORD);
        let low = row[word] >> bit;
        if bit == 0 || word + 1 == self.stride { low } else { low | row[word + 1] << (WORD - bit) }
    }

    /// Row `y` of the patch as words.
    pub(super) fn row(&self, y: i32) -> &[u64] {
        &self.words[place(y - self.top) * self.stride..][..self.stride]
    }

    /// Row `y` of the patch as words, to be changed. Whoever sets bits beyond the last column calls [`Cells::trim`].
    pub(super) fn row_mut(&mut self, y: i32) -> &mut [u64] {
        &mut self.words[place(y - self.top) * self.stride..][..self.stride]
    }

    /// Bares what lies beyond the last column.
    pub(super) fn trim(&mut self) {
        let beyond = self.columns % WORD;
        if beyond > 0 {
            let keep = (1 << beyond) - 1;
            self.words.chunks_mut(self.stride.max(1)).for_each(|row| row[row.len() - 1] &= keep);
        }
    }

    /// Changes each word of the patch by the cells of `other`, moved by `x` and `y`, that lie at the same place; those where
    /// `other` has no rows stay as they are.
    #[inline]
    fn with(&mut self, other: &Self, (x, y): (i32, i32), change: impl Fn(&mut u64, u64)) {
        let (_, down) = other.common_patch((x, y), self);
        let shift = Shift::new(self.left - x - other.left);
        for row in down {
            let theirs = other.row(row - y);
            for (place, word) in self.row_mut(row).iter_mut().enumerate() {
                change(word, shift.word(theirs, place));
            }
        }
        self.trim();
    }

    /// Holds what `other`, moved, holds as well, as far as it lies on the patch.
    pub(super) fn join(&mut self, other: &Self, moved: (i32, i32)) {
        self.with(other, moved, |word, more| *word |= more);
    }

    /// Bares what `other`, moved, holds.
    pub(super) fn bare_where(&mut self, other: &Self, moved: (i32, i32)) {
        self.with(other, moved, |word, less| *word &= !less);
    }

    /// The cells that this patch, moved, holds and `other` does too, counted.
    pub(super) fn shared(&self, moved: (i32, i32), other: &Self) -> u32 {
        let mut count = 0;
        self.both(moved, other, |both| {
            count += both.count_ones();
            true
        });
        count
    }

    /// Whether this patch, moved, holds a cell that `other` does too.
    pub(super) fn meets(&self, moved: (i32, i32), other: &Self) -> bool {
        !self.both(moved, other, |both| both == 0)
    }

    /// Calls `look` with the cells that this patch, moved, holds and `other` does too, word by word, as long as it says
    /// so; tells whether it always did.
    #[inline]
    fn both(&self, (x, y): (i32, i32), other: &Self, mut look: impl FnMut(u64) -> bool) -> bool {
        let (across, down) = self.common_patch((x, y), other);
        if across.is_empty() {
            return true;
        }
        let shift = Shift::new(self.left + x - other.left);
        down.into_iter().all(|row| {
            let theirs = other.row(row);
            self.row(row - y).iter().enumerate().all(|(place, own)| look(own & shift.word(theirs, place)))
        })
    }

    /// Columns and rows that this patch, moved, shares with another.
    fn common_patch(&self, (x, y): (i32, i32), other: &Self) -> (Range<i32>, Range<i32>) {
        let both = |own: Range<i32>, by: i32, others: Range<i32>| {
            (own.start + by).max(others.start)..(own.end + by).min(others.end)
        };
        (both(self.across(), x, other.across()), both(self.down(), y, other.down()))
    }

    /// This patch moved.
    pub(super) fn moved(&self, (x, y): (i32, i32)) -> Self {
        Self { left: self.left + x, top: self.top + y, ..self.clone() }
    }

    /// This patch moved, and cut to another.
    pub(super) fn cut_to(&self, moved: (i32, i32), other: &Self) -> Self {
        let (across, down) = self.common_patch(moved, other);
        let mut cut = Self::bare(across.start, down.start, count(across), count(down));
        cut.join(self, moved);
        cut
    }

    /// A copy on another patch, cut to it.
    #[must_use]
    pub(super) fn on(&self, across: Range<i32>, down: Range<i32>) -> Self {
        let mut copy = Self::bare(across.start, down.start, count(across), count(down));
        copy.join(self, (0, 0));
        copy
    }
}

/// How a row of one patch lies over a row of another: so many words, and so many cells within a word.
#[derive(Debug, Clone, Copy)]
struct Shift {
    words: isize,
    bits: u32,
}

impl Shift {
    /// Of a row that begins so many cells further right than the other.
    fn new(cells: i32) -> Self {
        Self { words: cells.div_euclid(64) as isize, bits: cells.rem_euclid(64).unsigned_abs() }
    }

    /// The cells of the other row under the word at `place`.
    #[inline]
    fn word(self, theirs: &[u64], place: usize) -> u64 {
        let at = |more: isize| {
            place
                .checked_add_signed(self.words + more)
                .and_then(|place| theirs.get(place))
                .copied()
                .unwrap_or(0)
        };
        if self.bits == 0 { at(0) } else { at(0) >> self.bits | at(1) << (64 - self.bits) }
    }
}

/// The first cell at or after `mm` by its centre.
#[expect(clippy::cast_possible_truncation, reason = "saturates; everything lies within some metres")]
pub(super) fn first_centre(mm: f64) -> i32 {
    (mm - 0.5).ceil() as i32
}

fn count(range: Range<i32>) -> usize {
    place(range.end - range.start)
}

fn place(cells: i32) -> usize {
    usize::try_from(cells).unwrap_or(0)
}

/// A place within a word.
fn number(bit: u32) -> i32 {
    i32::try_from(bit).unwrap_or(0)
}

/// A patch is far smaller than 2^31 cells a side.
fn whole(cells: usize) -> i32 {
    i32::try_from(cells).unwrap_or(i32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_words_and_counts_over_the_borders_of_words() {
        let mut cells = Cells::bare(-3, 5, 150, 4);
        cells.hold(6, 10..140);
        cells.hold(7, -10..0);
        cells.hold(9, 0..9);
        assert_eq!(cells.count(), 130 + 3);
        assert!(cells.holds(10, 6) && cells.holds(139, 6) && !cells.holds(140, 6) && !cells.holds(9, 6));
        assert_eq!(cells.word(9, 6), u64::MAX << 1);
        assert_eq!(cells.word(-64, 7), 0b111 << 61);
        assert_eq!(cells.iter().count(), 133);
        let mut other = Cells::bare(0, 0, 70, 20);
        other.join(&cells, (-60, 1));
        assert_eq!(other.count(), 70);
        assert_eq!(cells.shared((-60, 1), &other), 70);
        assert!(!cells.meets((0, 100), &other));
        other.bare_where(&cells, (-61, 1));
        assert_eq!(other.count(), 0, "the moved one holds all of the row");
    }

    #[test]
    fn a_cell_is_taken_for_its_centre() {
        let square = |from: f64, to: f64| vec![vec![(from, from), (to, from), (to, to), (from, to)]];
        assert_eq!(Cells::within(&square(0.4, 3.4)).count(), 9);
        assert_eq!(Cells::within(&square(0.6, 3.4)).count(), 4);
        assert_eq!(Cells::within(&[]), Cells::default());
    }
}
