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
}

impl Axis<'_> {
    /// The least parting into parts of at most `length`. Of two beginnings the one that costs less serves in every case if it
    /// reaches as far: whatever can follow the other can follow it.
    fn least(&self, length: f64) -> Parted {
        let mut open = vec![Begun { cost: Cost::default(), spans: Vec::new(), start: self.whole.from }];
        let mut furthest = f64::NEG_INFINITY;
        loop {
            let cheapest = (0..open.len()).min_by_key(|&place| open[place].cost);
            // A cut always leads further, so that there is always a beginning left.
            let Some(cheapest) = cheapest else {
                return Parted { spans: vec![self.whole], cost: Cost::default() };
            };
            let mut begun = open.swap_remove(cheapest);
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
        let mut go = |to: f64, start: f64, cuts: usize, short: usize| {
            if start > begun.start + NOTHING {
                let mut spans = begun.spans.clone();
                spans.push(Span { from: begun.start, to });
                let cost =
                    Cost { cuts: begun.cost.cuts + cuts, short: begun.cost.short + short, ..begun.cost };
                found.push(Begun { cost, spans, start });
            }
        };
        let reach = begun.start + length;
        if let Some((end, gap)) = self.latest(reach) {
            if let Some((start, _)) = self.latest(end - self.overlap) {
                go(end, start, 0, 0);
            }
            go(end, gap.from, 0, 1);
        }
        let last = reach - self.overlap;
        go(reach, self.least_hurt(Span { from: last - length / 4.0, to: last }), 1, 0);
        found
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
