//! What the search looks things up in: the wishes with the bands that each could be made in, and the letters that serve for them.
//!
//! Must not know which wishes are made.

use std::collections::{BTreeMap, BTreeSet};

use crate::supply::Supply;
use crate::supply::band::BandIx;
use crate::supply::demand::Demand;

use super::spans::{Span, Spans};

/// Wishes and letters, with numbers of their own for characters and bands: only those that matter.
#[derive(Debug, Clone, Default)]
pub(super) struct Table {
    pub(super) wishes: Vec<Wish>,
    /// How many letters each lot has.
    pub(super) left: Vec<u32>,
    /// For each lot what it serves for.
    pub(super) serves: Vec<Box<[Span]>>,
    /// For each character the lots that serve for it, from low to high: a span's number is the lot's.
    pub(super) lots: Vec<Vec<Span>>,
    /// The bands that some wish could be made in.
    pub(super) bands: Vec<BandIx>,
}

/// A wish.
#[derive(Debug, Clone, Default)]
pub(super) struct Wish {
    /// How many letters of each character.
    pub(super) needs: Vec<(u16, u32)>,
    /// The bands in which it could be made alone, none of them better than another; from low to high.
    pub(super) options: Vec<u16>,
    /// Whether any of its letters has a height that counts.
    pub(super) has_height: bool,
}

/// Letters that serve alike, before bands are left out.
struct Raw {
    left: u32,
    serves: Vec<Span>,
}

impl Table {
    /// What bears on `wishes` of what is left in `supply`.
    pub(super) fn new(supply: &Supply, wishes: &[Demand]) -> Self {
        let asked: BTreeSet<u16> =
            wishes.iter().flat_map(|wish| wish.needs.iter().map(|need| need.0)).collect();
        let numbers: BTreeMap<u16, u16> = asked.into_iter().zip(0..).collect();
        let raw = raw(supply, &numbers);
        let tall = tall(supply, &numbers);
        let spans = Spans::new(
            numbers.len(),
            supply.bands().len(),
            raw.iter().map(|raw| (raw.left, &raw.serves[..])),
        );
        let read = |demand: &Demand| {
            let needs: Vec<(u16, u32)> =
                demand.needs.iter().map(|&(number, letters)| (numbers[&number], letters)).collect();
            let options = if demand.foreign.is_empty() { spans.options(&needs) } else { Vec::new() };
            let has_height = needs.iter().any(|need| tall[usize::from(need.0)]);
            Wish { needs, options, has_height }
        };
        let wishes: Vec<Wish> = wishes.iter().map(read).collect();
        let bands: Vec<BandIx> =
            (0..supply.bands().len()).filter_map(|place| u16::try_from(place).ok()).map(BandIx).collect();
        Self::keeping(wishes, &raw, numbers.len(), &bands)
    }

    /// The same without the bands that no wish has among its options any longer; fewer letters differ then.
    pub(super) fn pared(self) -> Self {
        let lots = self.left.iter().zip(&self.serves);
        let raw: Vec<Raw> = lots.map(|(&left, serves)| Raw { left, serves: serves.to_vec() }).collect();
        Self::keeping(self.wishes, &raw, self.lots.len(), &self.bands)
    }

    /// The lots that serve for `character` in any band from `first` up to `last`.
    pub(super) fn serving(&self, character: u16, (first, last): (u16, u16)) -> &[Span] {
        let lots = &self.lots[usize::from(character)];
        // From low to high both ends of a span rise.
        let start = lots.partition_point(|span| span.to <= first);
        let end = lots.partition_point(|span| span.from <= last);
        &lots[start.min(end)..end]
    }

    /// The band called `option` by a wish; `None` for a wish that has no heights.
    pub(super) fn band(&self, wish: usize, option: u16) -> Option<BandIx> {
        self.wishes[wish].has_height.then(|| self.bands[usize::from(option)])
    }

    /// Keeps the bands that some wish could be made in, and puts together the letters that are alike there.
    fn keeping(mut wishes: Vec<Wish>, raw: &[Raw], characters: usize, bands: &[BandIx]) -> Self {
        let kept: BTreeSet<u16> = wishes.iter().flat_map(|wish| wish.options.iter().copied()).collect();
        let kept: Vec<u16> = kept.into_iter().collect();
        let place = |band: u16| u16::try_from(kept.partition_point(|&one| one < band)).unwrap_or(u16::MAX);
        for option in wishes.iter_mut().flat_map(|wish| &mut wish.options) {
            *option = place(*option);
        }
        let mut alike: BTreeMap<Box<[Span]>, u32> = BTreeMap::new();
        for raw in raw {
            let spans = raw.serves.iter().map(|span| Span {
                number: span.number,
                from: place(span.from),
                to: place(span.to),
            });
            let mut serves: Vec<Span> = spans.filter(|span| span.from < span.to).collect();
            serves.sort_unstable();
            serves.dedup();
            if !serves.is_empty() {
                *alike.entry(serves.into()).or_default() += raw.left;
            }
        }
        let mut lots = vec![Vec::new(); characters];
        for (number, serves) in (0u32..).zip(alike.keys()) {
            for span in serves {
                lots[span.number as usize].push(Span { number, from: span.from, to: span.to });
            }
        }
        for lots in &mut lots {
            lots.sort_unstable_by_key(|span| (span.from, span.to, span.number));
        }
        let (serves, left) = alike.into_iter().unzip();
        let bands = kept.iter().map(|&band| bands[usize::from(band)]).collect();
        Self { wishes, left, serves, lots, bands }
    }
}

/// Which of the characters in `numbers` have a height that counts.
fn tall(supply: &Supply, numbers: &BTreeMap<u16, u16>) -> Vec<bool> {
    let mut tall = vec![false; numbers.len()];
    let ways = supply.groups().iter().flat_map(|group| group.lots().iter().flat_map(|lot| &lot.ways));
    for way in ways.filter(|way| way.height.is_some()) {
        if let Some(&number) = numbers.get(&way.wanted) {
            tall[usize::from(number)] = true;
        }
    }
    tall
}

/// What is left that serves for any of the characters in `numbers`, by their new numbers.
fn raw(supply: &Supply, numbers: &BTreeMap<u16, u16>) -> Vec<Raw> {
    let mut raw = Vec::new();
    for group in supply.groups() {
        for (place, lot) in group.lots().iter().enumerate() {
            let ways = lot.ways.iter().zip(group.within(place));
            let span = |(way, &(from, to)): (&crate::supply::gather::Way, &(u16, u16))| {
                Some(Span { number: u32::from(*numbers.get(&way.wanted)?), from, to })
            };
            let serves: Vec<Span> = ways.filter_map(span).collect();
            if !serves.is_empty() {
                raw.push(Raw { left: lot.left(), serves });
            }
        }
    }
    raw
}
