//! A strip, or the lines of one, parted along an axis so that each part fits a sheet.
//!
//! Must not know in which direction it parts, nor what a letter is.

/// From one place to another along an axis, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Span {
    /// The lower end.
    pub(super) from: f64,
    /// The upper end.
    pub(super) to: f64,
}

/// What a parting costs; first things first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Cost {
    /// Joins that run through a letter.
    pub(super) cuts: usize,
    /// Joins at which the parts overlap less than is wished.
    pub(super) short: usize,
    /// The parts.
    pub(super) parts: usize,
}

/// Parts in order, each lying over the end of the one before: the later one's start is where they are joined.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Parted {
    /// The parts.
    pub(super) spans: Vec<Span>,
    /// What they cost.
    pub(super) cost: Cost,
}

/// What a part's edge keeps clear of letters where there is room.
const CLEAR: f64 = 0.5;

/// Less than any printer shows.
const NOTHING: f64 = 1e-6;

/// `whole` in parts of at most `length`, which overlap by `overlap` where letters leave room for it. Edges run between
/// `letters` where they can; of all such partings it takes one with the fewest short overlaps, then the fewest parts, and
/// makes its parts much of a length. `length` is above 0, `overlap` at most a quarter of it.
pub(super) fn parts(letters: &[Span], whole: Span, length: f64, overlap: f64) -> Parted {
    let axis = Axis { letters, gaps: gaps(letters, whole), whole, overlap };
    let mut best = axis.least(length);
    if best.cost.parts == 1 || best.cost.cuts > 0 {
        return best;
    }
    let (mut short, mut long) = (length / 2.0, length);
    while long - short > 0.05 {
        let middle = f64::midpoint(short, long);
        let parted = axis.least(middle);
        if parted.cost == best.cost {
            (best, long) = (parted, middle);
        } else {
            short = middle;
        }
    }
    best
}

/// Where letters leave `whole` free: from the end of one to the start of the next, a little clear of both. Letters that
/// touch leave a place without a width.
pub(super) fn gaps(letters: &[Span], whole: Span) -> Vec<Span> {
    let mut letters = letters.to_vec();
    letters.sort_by(|a, b| a.from.total_cmp(&b.from));
    let (mut gaps, mut reached) = (Vec::new(), whole.from);
    for letter in letters.iter().chain([&Span { from: whole.to, to: whole.to }]) {
        if letter.from >= reached - NOTHING {
            let clear = CLEAR.min((letter.from - reached).max(0.0) / 2.0);
            gaps.push(Span { from: reached + clear, to: letter.from - clear });
        }
        reached = reached.max(letter.to);
    }
    gaps
}

/// What is to be parted.
struct Axis<'a> {
    letters: &'a [Span],
    gaps: Vec<Span>,
    whole: Span,
    overlap: f64,
}

/// Parts so far, and where the next one starts.
struct Begun {
    cost: Cost,
    spans: Vec<Span>,
    start: f64,
    /// Whether the part that starts there is to end in a letter: where is found out when it comes to that.
    cuts: bool,
}

impl Axis<'_> {
    /// The least parting into parts of at most `length`. Of two beginnings the one that costs less serves in every case if it
    /// reaches as far: whatever can follow the other can follow it.
    fn least(&self, length: f64) -> Parted {
        let start = self.whole.from;
        let mut open = vec![Begun { cost: Cost::default(), spans: Vec::new(), start, cuts: false }];
        let mut furthest = f64::NEG_INFINITY;
        loop {
            let cheapest = (0..open.len()).min_by_key(|&place| open[place].cost);
            // A cut always leads further, so that there is always a beginning left.
            let Some(cheapest) = cheapest else {
                return Parted { spans: vec![self.whole], cost: Cost::default() };
            };
            let mut begun = open.swap_remove(cheapest);
            if begun.cuts {
                self.cut(&mut begun, length);
            }
            if begun.start <= furthest {
                continue;
            }
            furthest = begun.start;
            begun.cost.parts += 1;
            if self.whole.to <= begun.start + length + NOTHING {
                begun.spans.push(Span { from: begun.start, to: self.whole.to });
                return Parted { spans: begun.spans, cost: begun.cost };
            }
            open.extend(self.further(&begun, length));
        }
    }

    /// The ways to end a part and start the next.
    fn further(&self, begun: &Begun, length: f64) -> Vec<Begun> {
        let mut found = Vec::with_capacity(3);
        let mut go = |to: f64, start: f64, short: usize| {
            if start > begun.start + NOTHING {
                let mut spans = begun.spans.clone();
                spans.push(Span { from: begun.start, to });
                let cost = Cost { short: begun.cost.short + short, ..begun.cost };
                found.push(Begun { cost, spans, start, cuts: false });
            }
        };
        let reach = begun.start + length;
        if let Some((end, gap)) = self.latest(reach) {
            if let Some((start, _)) = self.latest(end - self.overlap) {
                go(end, start, 0);
            }
            go(end, gap.from, 1);
        }
        let cost = Cost { cuts: begun.cost.cuts + 1, ..begun.cost };
        found.push(Begun { cost, spans: begun.spans.clone(), start: begun.start, cuts: true });
        found
    }

    /// Ends a part in a letter, and starts the next where that takes the least off letters.
    fn cut(&self, begun: &mut Begun, length: f64) {
        let reach = begun.start + length;
        begun.spans.push(Span { from: begun.start, to: reach });
        let last = reach - self.overlap;
        begun.start = self.least_hurt(Span { from: last - length / 4.0, to: last });
        begun.cuts = false;
    }

    /// The last place between letters that is not beyond `limit`, with the gap that it is in.
    fn latest(&self, limit: f64) -> Option<(f64, Span)> {
        let gap = self.gaps.iter().rev().find(|gap| gap.from <= limit)?;
        Some((gap.to.min(limit), *gap))
    }

    /// Where in `window` a cut takes the least off letters; the last such place.
    fn least_hurt(&self, window: Span) -> f64 {
        let hurt = |at: f64| -> f64 {
            self.letters.iter().map(|letter| (at - letter.from).min(letter.to - at).max(0.0)).sum()
        };
        let places = (0..=100_u8)
            .rev()
            .map(|share| window.from + (window.to - window.from) * f64::from(share) / 100.0);
        places.min_by(|&a, &b| hurt(a).total_cmp(&hurt(b))).unwrap_or(window.to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Letters of these widths, each with so much in front of it, from 0; and where the whole ends, 2 mm behind the last.
    fn line(letters: &[(u32, u32)]) -> (Vec<Span>, Span) {
        let (mut spans, mut at) = (Vec::new(), 2.0);
        for &(gap, width) in letters {
            let from = at + f64::from(gap);
            at = from + f64::from(width);
            spans.push(Span { from, to: at });
        }
        (spans, Span { from: 0.0, to: at + 2.0 })
    }

    /// The least cost by trying every half millimetre for every edge; `None` where a letter must be cut.
    fn tried(letters: &[Span], whole: Span, length: f64, overlap: f64) -> Option<Cost> {
        let places: Vec<f64> =
            (0..=u32::MAX).map(|half| f64::from(half) / 2.0).take_while(|&at| at <= whole.to).collect();
        let gaps = gaps(letters, whole);
        let gap_of = |at: f64| gaps.iter().find(|gap| gap.from <= at && at <= gap.to);
        let mut best: Vec<Option<Cost>> = vec![None; places.len()];
        let mut least: Option<Cost> = None;
        best[0] = Some(Cost::default());
        for start in 0..places.len() {
            let Some(cost) = best[start] else { continue };
            let cost = Cost { parts: cost.parts + 1, ..cost };
            if whole.to <= places[start] + length {
                least = Some(least.map_or(cost, |least| least.min(cost)));
            }
            for &end in places.iter().filter(|&&end| end > places[start] && end <= places[start] + length) {
                let Some(gap) = gap_of(end) else { continue };
                for next in (start + 1..places.len()).filter(|&next| places[next] <= end) {
                    let at = places[next];
                    let short = usize::from(end - at < overlap);
                    if gap_of(at).is_none() || (short > 0 && at > gap.from) {
                        continue;
                    }
                    let cost = Cost { short: cost.short + short, ..cost };
                    best[next] = Some(best[next].map_or(cost, |best| best.min(cost)));
                }
            }
        }
        least
    }

    #[test]
    fn no_parting_is_better_than_the_one_that_is_found() {
        let shapes: Vec<(u32, u32)> =
            [0, 1, 3].into_iter().flat_map(|gap| [3, 5, 13].map(|width| (gap, width))).collect();
        let (mut cases, mut uncut) = (0, 0);
        for number in (0..9_usize.pow(6)).step_by(797) {
            let letters: Vec<(u32, u32)> =
                (0..6).map(|place| shapes[number / 9_usize.pow(place) % 9]).collect();
            let (letters, whole) = line(&letters);
            let (length, overlap) = ([12.0, 16.0, 20.0][number % 3], [2.0, 3.0][number % 2]);
            let found = parts(&letters, whole, length, overlap);
            cases += 1;
            match tried(&letters, whole, length, overlap) {
                Some(cost) => {
                    uncut += 1;
                    assert_eq!(found.cost, cost, "{letters:?} in {length}, overlap {overlap}");
                }
                None => assert!(found.cost.cuts > 0, "{letters:?} in {length}, overlap {overlap}"),
            }
        }
        assert!(uncut > 300 && cases - uncut > 20, "{uncut} of {cases}");
    }

    #[test]
    fn every_parting_covers_the_whole_and_edges_run_between_letters() {
        let mut seed = 7_u32;
        let mut draw = |most: u32| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (seed >> 8) % most
        };
        for _ in 0..400 {
            let letters: Vec<(u32, u32)> = (0..=draw(40)).map(|_| (draw(6), 4 + draw(50))).collect();
            let (letters, whole) = line(&letters);
            let length = f64::from(70 + draw(140)) + 0.37;
            let found = parts(&letters, whole, length, 12.0);
            let gaps = gaps(&letters, whole);
            let free = |at: f64| gaps.iter().any(|gap| gap.from - 1e-9 <= at && at <= gap.to + 1e-9);
            assert_eq!(found.spans.len(), found.cost.parts);
            assert!(found.spans.iter().all(|part| part.to - part.from <= length + 1e-9), "{found:?}");
            assert!(found.spans.first().is_some_and(|part| part.from <= 0.0));
            assert!(found.spans.last().is_some_and(|part| part.to >= whole.to));
            let mut short = 0;
            for pair in found.spans.windows(2) {
                assert!(pair[0].from < pair[1].from && pair[1].from <= pair[0].to, "{found:?}");
                assert!(free(pair[1].from) && free(pair[0].to), "{found:?}");
                short += usize::from(pair[0].to - pair[1].from < 12.0 - 1e-9);
            }
            assert!(found.cost.cuts == 0 && short <= found.cost.short, "{found:?}");
            for letter in &letters {
                let whole = |part: &&Span| part.from <= letter.from && letter.to <= part.to;
                assert!(found.spans.iter().any(|part| whole(&part)), "{letter:?} of {found:?}");
            }
        }
    }

    #[test]
    fn what_is_too_large_is_cut_where_it_hurts_least() {
        // Two letters that lie over each other by 1 mm: the cut goes where they overlap, not through the middle of one.
        let letters = [Span { from: 2.0, to: 52.0 }, Span { from: 51.0, to: 100.0 }];
        let found = parts(&letters, Span { from: 0.0, to: 102.0 }, 70.0, 12.0);
        assert_eq!(found.cost, Cost { cuts: 1, short: 0, parts: 2 });
        assert!((51.0..=52.0).contains(&found.spans[1].from), "{found:?}");
        let huge = parts(&[Span { from: 2.0, to: 402.0 }], Span { from: 0.0, to: 404.0 }, 180.0, 12.0);
        assert_eq!(huge.cost.parts, 3, "{huge:?}");
    }
}
