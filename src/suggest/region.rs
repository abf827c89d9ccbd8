//! A region of the search: which heights the lines may be compared by, and which choices are still open.
//!
//! Must not know what lies in other regions, nor how its bound is found.

use std::cmp::Ordering;
use std::ops::Range;
use std::sync::Arc;

use super::chain::{Bare, Chain, Entry, Link};
use super::field::Field;
use super::limits::Limits;
use super::memory::cost_of;

/// A region of the search.
#[derive(Debug, Clone)]
pub(super) struct Region {
    /// No arrangement in it costs less.
    pub(super) bound: i32,
    /// Where it came in the row of regions; parts those with the same bound.
    pub(super) number: u64,
    /// What is decided of each strip.
    pub(super) shares: Vec<Share>,
    /// What each limited thing costs.
    pub(super) prices: Vec<i32>,
    /// The choices that are open in each slot.
    pub(super) open: Arc<Vec<Vec<u16>>>,
    /// How far beyond its bound is looked next: further with each level.
    pub(super) level: u32,
    /// How often a sweep at its bound was cut short.
    pub(super) cuts: usize,
}

/// What is decided of one strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Share {
    /// The heights it may be compared by, by place; `None`: no letter has a height.
    pub(super) lines: Option<Range<usize>>,
    /// Whether letters may bring a greater height to compare by. `None`: not decided.
    pub(super) over: Option<bool>,
    /// Whether one family may be on too many letters, at its cost.
    pub(super) crowd: bool,
}

impl Share {
    /// What can be decided of a strip to begin with: with heights or without, with a crowd or without.
    fn all(field: &Field, limits: &Limits, place: usize) -> Vec<Self> {
        let crowds: &[bool] = if limits.crowds.contains(&Some(place)) { &[true, false] } else { &[false] };
        let lines = field.heights[place].all();
        let over = lines.as_ref().filter(|lines| lines.len() == 1).map(|_| false);
        let with = |lines: &Option<Range<usize>>| {
            let share = |&crowd| Self { lines: lines.clone(), over, crowd };
            crowds.iter().map(share).collect::<Vec<_>>()
        };
        let mut all = with(&None);
        if lines.is_some() {
            all.extend(with(&lines));
        }
        all
    }

    /// The one height it is compared by, if that is settled.
    pub(super) fn line(&self) -> Option<usize> {
        self.lines.as_ref().filter(|lines| lines.len() == 1).map(|lines| lines.start)
    }
}

impl Region {
    /// The regions that make up all arrangements.
    pub(super) fn roots(field: &Field, limits: &Limits) -> Vec<Self> {
        let slots = field.problem.slots.iter();
        let open = slots.map(|slot| (0..).zip(&slot.choices).map(|(place, _)| place).collect());
        let open = Arc::new(open.collect());
        let mut rows: Vec<Vec<Share>> = vec![Vec::new()];
        for place in 0..field.problem.parts.len() {
            let ways = Share::all(field, limits, place);
            let longer = |row: &Vec<Share>| -> Vec<Vec<Share>> {
                ways.iter().map(|way| row.iter().chain([way]).cloned().collect()).collect()
            };
            rows = rows.iter().flat_map(longer).collect();
        }
        let prices = vec![0; limits.most.len()];
        let root = |shares: Vec<Share>| Self {
            bound: 0,
            number: 0,
            shares,
            prices: prices.clone(),
            open: Arc::clone(&open),
            level: 0,
            cuts: 0,
        };
        rows.into_iter().map(root).collect()
    }

    /// The chain of one strip, not priced yet.
    pub(super) fn chain(&self, field: &Field, place: usize) -> Chain {
        let part = &field.problem.parts[place];
        let share = &self.shares[place];
        let heights = &field.heights[place];
        let dearer = share.lines.as_ref().map(|lines| heights.costs(&field.problem, part, lines));
        let mut slots: Vec<Bare> = Vec::with_capacity(part.slots.len());
        for slot in part.slots.clone() {
            let of = &field.problem.slots[slot];
            let entries: Vec<Entry> = self.open[slot]
                .iter()
                .filter_map(|&choice| {
                    let height = heights.place(slot - part.slots.start, usize::from(choice));
                    let more = match (height, &dearer) {
                        (None, _) => 0,
                        (Some(_), None) => return None,
                        (Some(height), Some(dearer)) => {
                            let over = share.line().is_some_and(|line| heights.line_of(part, height) > line);
                            if over && share.over == Some(false) {
                                return None;
                            }
                            dearer[height]
                        }
                    };
                    let mut entry = field.entries[slot][usize::from(choice)];
                    entry.base += more;
                    entry.meets = height.map_or(0, |height| self.meets(field, place, height));
                    Some(entry)
                })
                .collect();
            let offset = i32::try_from(slot - of.word.start).unwrap_or(0);
            slots.push((entries, of.joint, offset));
        }
        Chain::new(&slots, Arc::clone(&field.pairs[place]))
    }

    /// What is paid for a crowd in one strip.
    pub(super) fn paid(&self, field: &Field, place: usize) -> i32 {
        let crowd = field.problem.parts[place].crowd().filter(|_| self.shares[place].crowd);
        crowd.map_or(0, |(_, points)| cost_of(points))
    }

    /// Whether a limit holds here.
    pub(super) fn holds(&self, limits: &Limits, limit: usize) -> bool {
        match limits.as_need(limit) {
            Some((part, need)) => self.needs(part).contains(&need),
            None => limits.crowds[limit].is_none_or(|part| !self.shares[part].crowd),
        }
    }

    /// Whether a strip could be compared by several heights.
    pub(super) fn is_wide(&self) -> bool {
        self.shares.iter().any(|share| share.lines.as_ref().is_some_and(|lines| lines.len() > 1))
    }

    /// Which of the needs of a strip a letter of a height meets, a bit each.
    fn meets(&self, field: &Field, place: usize, height: usize) -> u8 {
        let (heights, part) = (&field.heights[place], &field.problem.parts[place]);
        let Share { lines: Some(lines), over, .. } = &self.shares[place] else { return 0 };
        let own = heights.line_of(part, height);
        let brings = u8::from(lines.contains(&own));
        if *over != Some(true) {
            return brings;
        }
        let weight = |line: usize| heights.weight(part, height, heights.lines[line]);
        let low = weight(heights.lines.len() - 1) > weight(lines.start);
        brings | u8::from(own > lines.start) << 1 | u8::from(low) << 2
    }

    /// What every arrangement of a strip must have here: a letter that brings the height it is compared by; and where
    /// another brings a greater one, that letter, and one too low for it.
    pub(super) fn needs(&self, place: usize) -> &'static [u8] {
        match &self.shares[place] {
            Share { lines: None, .. } => &[],
            Share { over: Some(true), .. } => &[0, 1, 2],
            _ => &[0],
        }
    }

    /// The parts that it falls into; none where everything is settled.
    pub(super) fn split(&self, field: &Field) -> Vec<Self> {
        let widest = (0..self.shares.len())
            .filter(|&place| self.shares[place].lines.as_ref().is_some_and(|lines| lines.len() > 1))
            .max_by_key(|&place| self.shares[place].lines.as_ref().map_or(0, ExactSizeIterator::len));
        if let Some(place) = widest {
            let lines = self.shares[place].lines.clone().unwrap_or(0..0);
            let heights = &field.heights[place].lines;
            // In the middle of the ratio, not of the count: near heights cost alike.
            let (low, high) = (heights[lines.start], heights[lines.end - 1]);
            let middle = low.scale((high.mm() / low.mm()).sqrt());
            let count = heights[lines.clone()].iter().filter(|&&line| line <= middle).count();
            let at = lines.start + count.clamp(1, lines.len() - 1);
            let mut parts = Vec::new();
            for half in [lines.start..at, at..lines.end] {
                let overs = if half.len() == 1 { vec![Some(true), Some(false)] } else { vec![None] };
                for over in overs {
                    let mut part = self.clone();
                    part.level = 0;
                    part.shares[place] =
                        Share { lines: Some(half.clone()), over, ..self.shares[place].clone() };
                    parts.push(part);
                }
            }
            return parts;
        }
        Vec::new()
    }

    /// Two halves of a region that is too rich to be swept: the slot with most choices gets the cheaper or the dearer.
    pub(super) fn halves(&self, chains: &[Chain]) -> Vec<Self> {
        let links: Vec<&Link> = chains.iter().flat_map(|chain| &chain.slots).collect();
        let Some(slot) = (0..links.len()).max_by_key(|&slot| links[slot].entries.len()) else {
            return Vec::new();
        };
        let mut order: Vec<Entry> = links[slot].entries.clone();
        order.sort_by_key(|entry| (entry.cost, entry.choice));
        let (cheap, dear) = order.split_at(order.len() / 2);
        let half = |entries: &[Entry]| {
            let mut open = Vec::clone(&self.open);
            open[slot] = entries.iter().map(|entry| entry.choice).collect();
            open[slot].sort_unstable();
            Self { open: Arc::new(open), level: 0, cuts: 0, ..self.clone() }
        };
        vec![half(cheap), half(dear)]
    }
}

impl PartialEq for Region {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Region {}

impl PartialOrd for Region {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Region {
    /// The lowest bound is the greatest: it comes out of a heap first; among equals the newest.
    fn cmp(&self, other: &Self) -> Ordering {
        other.bound.cmp(&self.bound).then(self.number.cmp(&other.number))
    }
}
