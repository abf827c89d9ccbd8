//! How many letters there are in each band, side by side for a quick look: one row of bytes for each thing counted.
//!
//! Must not know what is asked.

use super::gather::Way;
use super::group::Group;

/// Bands that are looked at in one go.
pub(super) const SIDE: usize = 64;

/// A mark for each of so many bands: 1 or 0.
pub(super) type Marks = [u8; SIDE];

/// How many letters of each band could serve; no more than 255 are told.
#[derive(Debug, Clone)]
pub(super) struct Rows {
    bands: usize,
    lines: usize,
    /// The rows of the first stretch of bands, then those of the next: what is looked at together lies together.
    counts: Vec<Marks>,
    /// Without regard to height.
    mixed: Vec<u32>,
}

impl Rows {
    /// How many stretches of [`SIDE`] bands there are; the last may be part empty.
    pub(super) const fn stretches(&self) -> usize {
        self.bands.div_ceil(SIDE)
    }

    /// A mark for each band of a stretch.
    pub(super) fn all(&self, stretch: usize) -> Marks {
        let mut alive = [1; SIDE];
        alive[SIDE.min(self.bands - stretch * SIDE)..].fill(0);
        alive
    }

    /// Strikes out the bands in which `row` has fewer than `needs`, and tells whether any is left.
    pub(super) fn strike(&self, alive: &mut Marks, stretch: usize, row: usize, needs: u8) -> bool {
        let counts = &self.counts[stretch * self.lines + row];
        let mut any = 0;
        for (alive, &have) in alive.iter_mut().zip(counts) {
            *alive &= u8::from(have >= needs);
            any |= *alive;
        }
        any != 0
    }

    /// How many there are in `row` in a band; no more than 255 are told.
    pub(super) fn count_in(&self, row: usize, band: usize) -> u8 {
        self.counts[band / SIDE * self.lines + row][band % SIDE]
    }

    /// How many there are in `row` with all heights together.
    pub(super) fn mixed(&self, row: usize) -> u32 {
        self.mixed[row]
    }

    /// Counts, for each of `rows` rows, the letters that are of it by one of their ways or another; `of` tells the rows that each
    /// character counts in, and `counts` which ways do.
    pub(super) fn count(
        groups: &[Group],
        rows: usize,
        bands: usize,
        of: &[Vec<usize>],
        counts: fn(&Way) -> bool,
    ) -> Self {
        // The letters that begin, or cease, to be there with each band.
        let mut steps = vec![0_i64; rows * (bands + 1)];
        let mut mixed = vec![0; rows];
        for group in groups {
            for (place, lot) in group.lots().iter().enumerate() {
                let ways = lot.ways.iter().zip(group.within(place)).filter(|(way, _)| counts(way));
                let spans = ways.flat_map(|(way, &(from, to))| {
                    of[usize::from(way.wanted)].iter().map(move |&row| (row, from, to))
                });
                let mut spans: Vec<(usize, u16, u16)> = spans.collect();
                spans.sort_unstable();
                let mut reached = (usize::MAX, 0);
                for (row, from, to) in spans {
                    let fresh = reached.0 != row;
                    mixed[row] += if fresh { lot.left() } else { 0 };
                    let from = if fresh { from } else { from.max(reached.1) };
                    if from < to {
                        steps[row * (bands + 1) + usize::from(from)] += i64::from(lot.left());
                        steps[row * (bands + 1) + usize::from(to)] -= i64::from(lot.left());
                    }
                    reached = (row, to.max(if fresh { 0 } else { reached.1 }));
                }
            }
        }
        let mut counts = vec![[0; SIDE]; rows * bands.div_ceil(SIDE)];
        for (row, steps) in steps.chunks(bands + 1).enumerate() {
            let mut there = 0;
            for (band, step) in steps[..bands].iter().enumerate() {
                there += step;
                counts[band / SIDE * rows + row][band % SIDE] = u8::try_from(there).unwrap_or(u8::MAX);
            }
        }
        Self { bands, lines: rows, counts, mixed }
    }
}
