//! How many letters there are in each band, side by side for a quick look: one row of bytes for each character.
//!
//! Must not know what is asked.

use super::gather::Way;
use super::group::Group;

/// How many letters of each band could serve; no more than 255 are told.
#[derive(Debug, Clone)]
pub(super) struct Rows {
    bands: usize,
    counts: Vec<u8>,
}

impl Rows {
    /// The row at `place`: a count for each band.
    pub(super) fn row(&self, place: usize) -> &[u8] {
        &self.counts[place * self.bands..(place + 1) * self.bands]
    }

    /// Counts, for each of `rows` rows, the letters that `serves` says are of it: by one of their ways or another.
    pub(super) fn count(
        groups: &[Group],
        rows: usize,
        bands: usize,
        serves: impl Fn(&Way) -> Option<usize>,
    ) -> Self {
        // The letters that begin, or cease, to be there with each band.
        let mut steps = vec![0_i64; rows * (bands + 1)];
        for group in groups {
            for (place, lot) in group.lots().iter().enumerate() {
                let ways = lot.ways.iter().zip(group.within(place));
                let mut spans: Vec<(usize, u16, u16)> =
                    ways.filter_map(|(way, &(from, to))| Some((serves(way)?, from, to))).collect();
                spans.sort_unstable();
                let mut reached = (usize::MAX, 0);
                for (row, from, to) in spans {
                    let from = if reached.0 == row { from.max(reached.1) } else { from };
                    if from < to {
                        steps[row * (bands + 1) + usize::from(from)] += i64::from(lot.left());
                        steps[row * (bands + 1) + usize::from(to)] -= i64::from(lot.left());
                    }
                    reached = (row, to.max(if reached.0 == row { reached.1 } else { 0 }));
                }
            }
        }
        let mut counts = Vec::with_capacity(rows * bands);
        for steps in steps.chunks(bands + 1) {
            let mut there = 0;
            for step in &steps[..bands] {
                there += step;
                counts.push(u8::try_from(there).unwrap_or(u8::MAX));
            }
        }
        Self { bands, counts }
    }
}

/// Strikes out the bands in which `row` has fewer than `needs`.
pub(super) fn strike(alive: &mut [u8], row: &[u8], needs: u8) {
    for (alive, &have) in alive.iter_mut().zip(row) {
        *alive &= u8::from(have >= needs);
    }
}
