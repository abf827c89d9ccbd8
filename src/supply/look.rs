//! A quick look at which bands of heights have enough letters.
//!
//! There are enough for a set of characters if, for each part of it, as many letters serve for one of the part as the part needs
//! (Hall 1935). Each character by itself and each two that share letters are looked up; so the look is exact unless one character
//! shares letters with two others that are wanted. Must not know costs.

use std::collections::BTreeSet;

use super::band::BandIx;
use super::gather::Way;
use super::group::Group;
use super::rows::{Rows, SIDE};

/// More letters of one character than this are not looked up: two of them fit into a count of [`Rows`].
pub(super) const MOST_TOLD: u32 = 127;

/// What is wanted, by rows: how many of each character, and of each two together that share letters.
#[derive(Debug, Default)]
pub(super) struct Wanted {
    single: Vec<(usize, u8)>,
    pairs: Vec<(usize, u8)>,
    /// Characters that share letters with two others.
    pub(super) crowded: Vec<u16>,
}

/// Counts of letters that serve in some way.
#[derive(Debug)]
pub(super) struct Look {
    single: Rows,
    pairs: Rows,
    /// For each character those after it that it shares letters with, and the row of the two.
    beside: Vec<Vec<(u16, usize)>>,
}

impl Look {
    /// Counts the letters that serve in such ways as `counts`.
    pub(super) fn new(groups: &[Group], characters: usize, bands: usize, counts: fn(&Way) -> bool) -> Self {
        let mut shared: BTreeSet<(u16, u16)> = BTreeSet::new();
        for lot in groups.iter().flat_map(Group::lots) {
            let mut serves: Vec<u16> =
                lot.ways.iter().filter(|way| counts(way)).map(|way| way.wanted).collect();
            serves.sort_unstable();
            serves.dedup();
            for (place, &one) in serves.iter().enumerate() {
                shared.extend(serves[place + 1..].iter().map(|&other| (one, other)));
            }
        }
        let mut beside = vec![Vec::new(); characters];
        let mut paired = vec![Vec::new(); characters];
        for (row, &(one, other)) in shared.iter().enumerate() {
            beside[usize::from(one)].push((other, row));
            paired[usize::from(one)].push(row);
            paired[usize::from(other)].push(row);
        }
        let alone: Vec<Vec<usize>> = (0..characters).map(|character| vec![character]).collect();
        Self {
            single: Rows::count(groups, characters, bands, &alone, counts),
            pairs: Rows::count(groups, shared.len(), bands, &paired, counts),
            beside,
        }
    }

    /// Makes ready what is wanted, none of it more than [`MOST_TOLD`].
    pub(super) fn ask(&self, needs: &[(u16, u32)], wanted: &mut Wanted) {
        let told = |letters: u32| u8::try_from(letters).unwrap_or(u8::MAX);
        wanted.single.clear();
        wanted.pairs.clear();
        wanted.crowded.clear();
        wanted.single.extend(needs.iter().map(|&(number, letters)| (usize::from(number), told(letters))));
        let mut sharing: u64 = 0;
        for (place, &(number, letters)) in needs.iter().enumerate() {
            for &(other, row) in &self.beside[usize::from(number)] {
                let Some(at) = needs.iter().position(|need| need.0 == other) else { continue };
                wanted.pairs.push((row, told(letters + needs[at].1)));
                for (at, character) in [(place, number), (at, other)] {
                    let mark = 1 << (at % 64);
                    // Past 64 characters one may be taken for crowded that is not: then it is assigned, to the same end.
                    if sharing & mark != 0 {
                        wanted.crowded.push(character);
                    }
                    sharing |= mark;
                }
            }
        }
    }

    /// The band of the largest letters that has enough and passes `is_met`.
    pub(super) fn highest(&self, wanted: &Wanted, mut is_met: impl FnMut(BandIx) -> bool) -> Option<BandIx> {
        for stretch in (0..self.single.stretches()).rev() {
            let mut alive = self.single.all(stretch);
            let enough =
                wanted.single.iter().all(|&(row, needs)| self.single.strike(&mut alive, stretch, row, needs))
                    && wanted
                        .pairs
                        .iter()
                        .all(|&(row, needs)| self.pairs.strike(&mut alive, stretch, row, needs));
            if !enough {
                continue;
            }
            let marked = alive.iter().enumerate().rev().filter(|&(_, &mark)| mark == 1);
            let bands =
                marked.map(|(place, _)| BandIx(u16::try_from(stretch * SIDE + place).unwrap_or(u16::MAX)));
            if let Some(band) = bands.into_iter().find(|&band| is_met(band)) {
                return Some(band);
            }
        }
        None
    }

    /// How many letters serve for a character in a band; no more than 255 are told.
    pub(super) fn count_in(&self, number: u16, band: BandIx) -> u8 {
        self.single.count_in(usize::from(number), band.get())
    }

    /// Whether there are enough with all heights together.
    pub(super) fn is_enough_mixed(&self, wanted: &Wanted) -> bool {
        let single = wanted.single.iter().all(|&(row, needs)| self.single.mixed(row) >= u32::from(needs));
        single && wanted.pairs.iter().all(|&(row, needs)| self.pairs.mixed(row) >= u32::from(needs))
    }
}
