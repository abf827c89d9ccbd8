//! Groups of characters that letters can pass between; what happens in one has no bearing on another.
//!
//! Must not know wordings.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::band::{Band, BandIx, holding};
use super::flow::Offer;
use super::gather::{Lot, Way};

/// Characters that letters can pass between, and the letters.
#[derive(Debug)]
pub(super) struct Group {
    lots: Vec<Lot>,
    /// For each way of each lot the bands that hold it.
    within: Vec<Vec<(u16, u16)>>,
    /// What is on offer in each band, and last without regard to height; once asked for.
    offers: Vec<OnceLock<Box<[Offer]>>>,
    /// The heights in which each character is served, likewise.
    served: Vec<OnceLock<BTreeMap<u16, Served>>>,
}

/// The heights, least and greatest, in which a character is served; `None`: not, or only by small marks.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Served {
    /// By letters as themselves.
    pub(super) own: Option<Span>,
    /// By any.
    pub(super) any: Option<Span>,
}

/// Heights, from the least to the greatest.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    /// The ends.
    pub(super) band: Band,
    /// Whether some of them are not the stickers' own, but those of capitals to the same scale.
    pub(super) as_capitals: bool,
}

impl Span {
    /// The least that holds both.
    pub(super) fn and(self, other: Self) -> Self {
        let (low, high) = (self.band.low.min(other.band.low), self.band.high.max(other.band.high));
        Self { band: Band { low, high }, as_capitals: self.as_capitals || other.as_capitals }
    }
}

/// Heights to choose from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Heights {
    /// One band.
    Within(BandIx),
    /// All of them, side by side.
    Mixed,
}

impl Heights {
    /// Whether they take in a way that lies in the bands from `from` up to `to`.
    pub(super) const fn take_in(self, (from, to): (u16, u16)) -> bool {
        match self {
            Self::Within(band) => from <= band.0 && band.0 < to,
            Self::Mixed => true,
        }
    }
}

impl Group {
    fn new(lots: Vec<Lot>, bands: &[Band]) -> Self {
        let within = |lot: &Lot| lot.ways.iter().map(|way| holding(bands, way.height)).collect();
        let within = lots.iter().map(within).collect();
        let offers = (0..=bands.len()).map(|_| OnceLock::new()).collect();
        let served = (0..=bands.len()).map(|_| OnceLock::new()).collect();
        Self { lots, within, offers, served }
    }

    /// The letters.
    pub(super) fn lots(&self) -> &[Lot] {
        &self.lots
    }

    /// The bands that hold each way of the lot at `place`: from one up to, not including, another.
    pub(super) fn within(&self, place: usize) -> &[(u16, u16)] {
        &self.within[place]
    }

    /// What is on offer of these heights.
    pub(super) fn offers(&self, heights: Heights) -> &[Offer] {
        self.offers[self.place(heights)].get_or_init(|| self.gather(heights))
    }

    /// The letters that `offer`, one of those there, is made of, with the way in which they serve for `wanted`.
    ///
    /// They are looked for afresh: kept for each band they would fill the memory where there are many heights.
    pub(super) fn behind<'g>(
        &'g self,
        offer: &'g Offer,
        wanted: u16,
        heights: Heights,
    ) -> impl Iterator<Item = (&'g Lot, &'g Way)> {
        self.lots.iter().enumerate().filter_map(move |(place, lot)| {
            let way = self.way(place, wanted, heights)?;
            (self.serves(place, heights) == *offer.serves).then_some((lot, way))
        })
    }

    /// The heights in which `wanted` is served there.
    pub(super) fn served(&self, wanted: u16, heights: Heights) -> Served {
        let served = self.served[self.place(heights)].get_or_init(|| self.measure(heights));
        served.get(&wanted).copied().unwrap_or_default()
    }

    const fn place(&self, heights: Heights) -> usize {
        match heights {
            Heights::Within(band) => band.get(),
            Heights::Mixed => self.offers.len() - 1,
        }
    }

    fn measure(&self, heights: Heights) -> BTreeMap<u16, Served> {
        let mut served: BTreeMap<u16, Served> = BTreeMap::new();
        for (lot, within) in self.lots.iter().zip(&self.within) {
            let ways = lot.ways.iter().zip(within).filter(|(_, within)| heights.take_in(**within));
            for (way, height) in ways.filter_map(|(way, _)| Some((way, way.height?))) {
                let one = served.entry(way.wanted).or_default();
                let span = Span { band: Band { low: height, high: height }, as_capitals: way.as_capital };
                one.any = Some(one.any.map_or(span, |any| any.and(span)));
                if way.is_own {
                    one.own = Some(one.own.map_or(span, |own| own.and(span)));
                }
            }
        }
        served
    }

    fn gather(&self, heights: Heights) -> Box<[Offer]> {
        let mut alike: BTreeMap<Vec<(u16, i32)>, usize> = BTreeMap::new();
        let mut offers: Vec<Offer> = Vec::new();
        for (place, lot) in self.lots.iter().enumerate() {
            let serves = self.serves(place, heights);
            if serves.is_empty() {
                continue;
            }
            let at = *alike.entry(serves).or_insert_with_key(|serves| {
                offers.push(Offer { serves: serves.as_slice().into(), left: 0 });
                offers.len() - 1
            });
            offers[at].left += lot.left();
        }
        offers.into()
    }

    /// What the lot at `place` serves for there, and what the assignment counts for it.
    fn serves(&self, place: usize, heights: Heights) -> Vec<(u16, i32)> {
        let ways = self.lots[place].ways.iter().zip(&self.within[place]);
        let ways = ways.filter(|(_, within)| heights.take_in(**within));
        let mut serves: Vec<(u16, i32)> = ways.map(|(way, _)| (way.wanted, way.weight())).collect();
        // Where a letter can serve in two ways the cheaper one counts.
        serves.sort_unstable();
        serves.dedup_by_key(|(wanted, _)| *wanted);
        serves
    }

    /// The way in which the lot at `place` serves for `wanted` there.
    pub(super) fn way(&self, place: usize, wanted: u16, heights: Heights) -> Option<&Way> {
        let ways = self.lots[place].ways.iter().zip(&self.within[place]);
        ways.filter(|(way, within)| way.wanted == wanted && heights.take_in(**within))
            .map(|(way, _)| way)
            .min_by_key(|way| way.weight())
    }
}

/// Parts `lots` into groups, and tells for each character, by its number, which group it is in.
pub(super) fn groups(lots: Vec<Lot>, characters: usize, bands: &[Band]) -> (Vec<Group>, Vec<u16>) {
    let mut root: Vec<usize> = (0..characters).collect();
    for lot in &lots {
        for pair in lot.ways.windows(2) {
            let [a, b] = [&pair[0], &pair[1]].map(|way| find(&mut root, usize::from(way.wanted)));
            root[a.max(b)] = a.min(b);
        }
    }
    let roots: Vec<usize> = (0..characters).map(|one| find(&mut root, one)).collect();
    let mut number = vec![0u16; characters];
    let mut count = 0u16;
    for one in 0..characters {
        if roots[one] == one {
            number[one] = count;
            count += 1;
        } else {
            number[one] = number[roots[one]];
        }
    }
    let mut parted: Vec<Vec<Lot>> = vec![Vec::new(); usize::from(count)];
    for lot in lots {
        parted[usize::from(number[usize::from(lot.ways[0].wanted)])].push(lot);
    }
    (parted.into_iter().map(|lots| Group::new(lots, bands)).collect(), number)
}

/// The least character that `one` is joined with.
fn find(root: &mut [usize], mut one: usize) -> usize {
    while root[one] != one {
        root[one] = root[root[one]];
        one = root[one];
    }
    one
}
