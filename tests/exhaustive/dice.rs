//! Seeded chance: the same seed gives the same case on every machine.
//!
//! Must not know what is thrown for.

/// A stream of numbers by splitmix64 (Steele, Lea and Flood 2014; from memory).
#[derive(Debug, Clone)]
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `sides`.
    pub(super) fn below(&mut self, sides: usize) -> usize {
        usize::try_from(self.next() % sides.max(1) as u64).unwrap_or(0)
    }

    /// One of several.
    pub(super) fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }

    /// Whether one in `sides` comes up.
    pub(super) fn hit(&mut self, sides: usize) -> bool {
        self.below(sides) == 0
    }
}
