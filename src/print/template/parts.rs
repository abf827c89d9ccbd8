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

/// What a part reaches over along an axis, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reach {
    /// Where it is joined to the one before, or the whole begins.
    pub(super) from: f64,
    /// Where it is joined to the next: that one is laid over what lies beyond. Or the end of the whole.
    pub(super) join: f64,
    /// Its end.
    pub(super) to: f64,
}

/// Parts in order.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Parted {
    /// The parts.
    pub(super) parts: Vec<Reach>,
    /// Joins that run through a letter.
    pub(super) cuts: usize,
}

/// What a join keeps clear of letters where there is room.
const CLEAR: f64 = 0.5;

/// Less than any printer shows.
const NOTHING: f64 = 1e-6;

/// Lengths of parts are made equal to within this.
const EVEN: f64 = 0.05;

/// `whole` in parts of at most `length`, each of which reaches `overlap` beyond its join with the next. Where all joins can
/// run between `letters`, they do, in the middle where there is room, the parts are as few as can be and much of a length; else
/// joins that cannot take as little off letters as they may. `length` is above 0, `overlap` at most a quarter of it.
pub(super) fn parts(letters: &[Span], whole: Span, length: f64, overlap: f64) -> Parted {
    let axis = Axis { letters, gaps: gaps(letters, whole), whole, overlap };
    let mut best = axis.parted(length);
    let (mut short, mut long) = (length / 2.0, length);
    while best.parts.len() > 1 && best.cuts == 0 && long - short > EVEN {
        let middle = f64::midpoint(short, long);
        let parted = axis.parted(middle);
        if (parted.cuts, parted.parts.len()) == (best.cuts, best.parts.len()) {
            (best, long) = (parted, middle);
        } else {
            short = middle;
        }
    }
    axis.centre(&mut best.parts, length);
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

impl Axis<'_> {
    /// Parts of at most `length`, each joined to the next as late as can be between letters; through one only where there is
    /// no such place. That is the least: from a later start less is left to part, so that no earlier join saves any.
    fn parted(&self, length: f64) -> Parted {
        let (mut parted, mut start) = (Parted { parts: Vec::new(), cuts: 0 }, self.whole.from);
        // A little of the bare line behind the last letter is left out sooner than put on a part of its own.
        while start + length < self.whole.to - CLEAR - NOTHING {
            let last = start + length - self.overlap;
            let join = self.latest(last).filter(|&join| join > start + NOTHING).unwrap_or_else(|| {
                parted.cuts += 1;
                // Not so far back that parts become much smaller than a sheet.
                self.least_hurt(Span { from: last - length / 4.0, to: last })
            });
            parted.parts.push(Reach { from: start, join, to: join + self.overlap });
            start = join;
        }
        let end = self.whole.to.min(start + length);
        parted.parts.push(Reach { from: start, join: end, to: end });
        parted
    }

    /// Moves each join to the middle of its gap, as far as the parts it joins stay no longer than `length`.
    fn centre(&self, parts: &mut [Reach], length: f64) {
        for place in 1..parts.len() {
            let (earlier, later) = (parts[place - 1], parts[place]);
            let around = |gap: &&Span| gap.from - NOTHING <= earlier.join && earlier.join <= gap.to + NOTHING;
            let Some(gap) = self.gaps.iter().skip(1).find(around) else { continue };
            let join = f64::midpoint(gap.from, gap.to)
                .max(later.to - length)
                .min(earlier.from + length - self.overlap);
            parts[place - 1] = Reach { join, to: join + self.overlap, ..earlier };
            parts[place] = Reach { from: join, ..later };
        }
    }

    /// The last place behind the first letter and between letters that is not beyond `limit`.
    fn latest(&self, limit: f64) -> Option<f64> {
        let gap = self.gaps.iter().skip(1).rev().find(|gap| gap.from <= limit)?;
        Some(gap.to.min(limit))
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

    /// The fewest parts by trying every half millimetre for every join; `None` where a letter must be cut.
    fn tried(letters: &[Span], whole: Span, length: f64, overlap: f64) -> Option<usize> {
        let gaps = gaps(letters, whole);
        let is_free = |at: f64| gaps.iter().any(|gap| gap.from <= at && at <= gap.to);
        let joins: Vec<f64> = (1..=u32::MAX)
            .map(|half| f64::from(half) / 2.0)
            .take_while(|&at| at < whole.to)
            .filter(|&at| is_free(at) && letters[0].from < at)
            .collect();
        let starts: Vec<f64> = [whole.from].into_iter().chain(joins).collect();
        // Parts before each start.
        let mut fewest: Vec<Option<usize>> = vec![None; starts.len()];
        fewest[0] = Some(0);
        let mut least: Option<usize> = None;
        for start in 0..starts.len() {
            let Some(parts) = fewest[start].map(|before| before + 1) else { continue };
            if whole.to - CLEAR <= starts[start] + length {
                least = Some(least.map_or(parts, |least| least.min(parts)));
            }
            for next in start + 1..starts.len() {
                if starts[next] + overlap <= starts[start] + length {
                    fewest[next] = Some(fewest[next].map_or(parts, |best| best.min(parts)));
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
                Some(parts) => {
                    uncut += 1;
                    let least = (found.cuts, found.parts.len());
                    assert_eq!(least, (0, parts), "{letters:?} in {length}, overlap {overlap}");
                }
                None => assert!(found.cuts > 0, "{letters:?} in {length}, overlap {overlap}"),
            }
        }
        assert!(uncut > 300 && cases - uncut > 20, "{uncut} of {cases}");
    }

    #[test]
    fn every_parting_covers_the_whole_and_joins_run_between_letters() {
        let mut seed = 7_u32;
        let mut draw = |most: u32| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (seed >> 8) % most
        };
        let mut joined = 0;
        for _ in 0..400 {
            let letters: Vec<(u32, u32)> = (0..=draw(40)).map(|_| (draw(6), 4 + draw(50))).collect();
            let (letters, whole) = line(&letters);
            let length = f64::from(70 + draw(140)) + 0.37;
            let found = parts(&letters, whole, length, 8.0);
            let gaps = gaps(&letters, whole);
            let is_free = |at: f64| gaps.iter().any(|gap| gap.from - 1e-9 <= at && at <= gap.to + 1e-9);
            assert_eq!(found.cuts, 0, "{found:?}");
            assert!(found.parts.iter().all(|part| part.to - part.from <= length + 1e-9), "{found:?}");
            assert!(found.parts.first().is_some_and(|part| part.from <= 0.0));
            assert!(found.parts.last().is_some_and(|part| part.to >= whole.to - CLEAR - 1e-5), "{found:?}");
            assert!(
                letters.last().is_some_and(|last| found.parts.last().is_some_and(|part| part.from < last.to))
            );
            for pair in found.parts.windows(2) {
                joined += 1;
                assert!(pair[0].from < pair[1].from && is_free(pair[1].from), "{found:?}");
                assert!((pair[0].to - pair[0].join - 8.0).abs() < 1e-9, "{found:?}");
                assert!(pair[0].join.total_cmp(&pair[1].from).is_eq(), "{found:?}");
            }
            for letter in &letters {
                let whole = |part: &&Reach| part.from <= letter.from && letter.to <= part.join;
                assert_eq!(found.parts.iter().filter(whole).count(), 1, "{letter:?} of {found:?}");
            }
        }
        assert!(joined > 400, "{joined}");
    }

    #[test]
    fn a_join_runs_in_the_middle_of_its_gap_where_there_is_room() {
        // Two words of 40 mm, 7 mm apart; the second would fit the sheet with nearly all of the gap.
        let letters = [Span { from: 2.0, to: 42.0 }, Span { from: 49.0, to: 89.0 }];
        let found = parts(&letters, Span { from: 0.0, to: 91.0 }, 60.0, 8.0);
        assert!((found.parts[1].from - 45.5).abs() < 1e-9, "{found:?}");
        // Little room: as near to the middle as the second part may begin, but for a little bare line.
        let found = parts(&letters, Span { from: 0.0, to: 91.0 }, 54.0, 5.0);
        assert!((found.parts[1].from - 45.5).abs() < 1e-9, "{found:?}");
        let found = parts(&letters, Span { from: 0.0, to: 104.0 }, 57.0, 8.0);
        assert!((found.parts[1].from - 46.5).abs() < 0.1, "{found:?}");
    }

    #[test]
    fn what_is_too_large_is_cut_where_it_hurts_least() {
        // Two letters that lie over each other by 1 mm: the cut goes where they overlap, not through the middle of one.
        let letters = [Span { from: 2.0, to: 52.0 }, Span { from: 51.0, to: 100.0 }];
        let found = parts(&letters, Span { from: 0.0, to: 102.0 }, 70.0, 12.0);
        assert_eq!((found.cuts, found.parts.len()), (1, 2));
        assert!((51.0..=52.0).contains(&found.parts[1].from), "{found:?}");
        let huge = parts(&[Span { from: 2.0, to: 402.0 }], Span { from: 0.0, to: 404.0 }, 180.0, 12.0);
        assert_eq!(huge.parts.len(), 3, "{huge:?}");
    }
}
