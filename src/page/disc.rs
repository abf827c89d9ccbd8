//! Growing and shrinking by a disc, exactly: a cell is reached where dx^2 + dy^2 is at most R^2.
//!
//! Each row is widened once to every half-width of the disc, narrowest first, and laid over the rows above and below.
//! Must not know what is grown.

use super::cells::Cells;

/// A disc of a whole radius.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Disc {
    radius: i32,
    /// Distances from its middle row with half its width there, the narrowest first.
    halves: Vec<(i32, u32)>,
}

impl Disc {
    /// A disc of `radius` whole millimetres; a negative one counts as 0.
    pub(super) fn new(radius: i32) -> Self {
        let radius = radius.max(0);
        let half = |off: i32| (off, (radius * radius - off * off).isqrt().unsigned_abs());
        Self { radius, halves: (0..=radius).rev().map(half).collect() }
    }

    /// Its radius.
    pub(super) const fn radius(&self) -> i32 {
        self.radius
    }

    /// The cells beside a cell, corners included: those within 1.5 cells of it.
    pub(super) fn beside() -> Self {
        Self { radius: 1, halves: vec![(1, 1), (0, 1)] }
    }

    /// Every cell within the radius of a held one, on a patch larger by the radius on each side.
    pub(super) fn grown(&self, cells: &Cells) -> Cells {
        let (across, down, radius) = (cells.across(), cells.down(), self.radius);
        let wide =
            cells.on(across.start - radius..across.end + radius, down.start - radius..down.end + radius);
        let mut out = wide.like();
        self.spread(&wide, &mut out);
        out
    }

    /// Every held cell that has none but held ones within the radius, what lies beyond the patch not regarded.
    pub(super) fn shrunk(&self, cells: &Cells) -> Cells {
        let mut gaps = cells.clone();
        for y in cells.down() {
            gaps.row_mut(y).iter_mut().for_each(|word| *word = !*word);
        }
        gaps.trim();
        let mut out = cells.like();
        self.spread(&gaps, &mut out);
        for y in cells.down() {
            out.row_mut(y).iter_mut().for_each(|word| *word = !*word);
        }
        out.trim();
        out
    }

    /// Lays every cell's disc on `out`, a patch of the same place and size.
    fn spread(&self, cells: &Cells, out: &mut Cells) {
        let down = cells.down();
        let mut wide: Vec<u64> = Vec::new();
        for y in down.clone() {
            if cells.row(y).iter().all(|&word| word == 0) {
                continue;
            }
            wide.clear();
            wide.extend_from_slice(cells.row(y));
            let mut half = 0;
            for &(off, wanted) in &self.halves {
                while half < wanted {
                    // What is held is at least twice the half-width and one wide: so far its copies leave no gap.
                    let by = (wanted - half).min(2 * half + 1).min(63);
                    widen(&mut wide, by);
                    half += by;
                }
                for row in [y - off, y + off] {
                    if down.contains(&row) {
                        out.row_mut(row).iter_mut().zip(&wide).for_each(|(word, more)| *word |= more);
                    }
                }
            }
        }
        out.trim();
    }
}

/// Holds what is held `by` cells to the left or to the right as well; `by` is 1 to 63.
fn widen(row: &mut [u64], by: u32) {
    let back = 64 - by;
    let mut before = 0;
    for place in 0..row.len() {
        let here = row[place];
        let after = row.get(place + 1).copied().unwrap_or(0);
        row[place] = here | here << by | before >> back | here >> by | after << back;
        before = here;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The held cells of a patch drawn by seed.
    fn drawn(seed: u64) -> Cells {
        let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
        let mut next = |below: i32| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            i32::try_from(state % u64::from(below.unsigned_abs())).unwrap_or(0)
        };
        let mut cells = Cells::bare(-5, 3, 60 + usize::try_from(next(80)).unwrap_or(0), 40);
        for _ in 0..=next(9) {
            let (x, y, width, height) = (next(130) - 5, next(40) + 3, next(20) + 1, next(12) + 1);
            (y..y + height).for_each(|row| cells.hold(row, x..x + width));
        }
        cells
    }

    #[test]
    fn grown_and_closed_as_the_definitions_say() {
        for seed in 0..12 {
            let cells = drawn(seed);
            let radius = i32::try_from(seed % 9 + 1).unwrap_or(1);
            let disc = Disc::new(radius);
            let near = |cells: &Cells, x: i32, y: i32| {
                (-radius..=radius).any(|dy| {
                    (-radius..=radius)
                        .any(|dx| dx * dx + dy * dy <= radius * radius && cells.holds(x + dx, y + dy))
                })
            };
            let grown = disc.grown(&cells);
            for y in grown.down() {
                for x in grown.across() {
                    assert_eq!(grown.holds(x, y), near(&cells, x, y), "{seed}: {x}, {y}");
                }
            }
            let closed = disc.shrunk(&grown);
            for y in cells.down() {
                for x in cells.across() {
                    let whole = (-radius..=radius).all(|dy| {
                        (-radius..=radius)
                            .all(|dx| dx * dx + dy * dy > radius * radius || grown.holds(x + dx, y + dy))
                    });
                    assert_eq!(closed.holds(x, y), whole, "{seed}: {x}, {y}");
                }
            }
        }
    }
}
