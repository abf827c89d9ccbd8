//! The search.
//!
//! Must not know the checks.

use std::collections::BinaryHeap;

use crate::measure::Points;

use super::UNIT;
use super::arrangement::{greedy, keeps_counts, suggestion};
use super::chain::NEVER;
use super::field::Field;
use super::heights::Heights;
use super::limits::Limits;
use super::memory::cost_of;
use super::outcome::{Hindrance, Outcome, Standing, SuggestedStrip, Suggestion};
use super::probe::{likely_lines, probe};
use super::problem::{Path, Problem};
use super::region::Region;
use super::rooms::Rooms;
use super::sweep::{Sweep, Swept};

/// Heights that are tried before a search.
const LIKELY: usize = 2;

/// Labels kept for one slot in a sweep of a region, and once more where that cut it short.
const WIDTHS: [usize; 2] = [2_000, 20_000];

/// A search that can be taken on in slices.
#[derive(Debug)]
pub struct Search {
    field: Field,
    /// Searches for each strip by itself, which come first where there are several.
    alone: Vec<Search>,
    count: usize,
    /// What is proved, the best first.
    proved: Vec<Known>,
    /// The best so far that differs from what is proved.
    best: Option<Known>,
    limits: Limits,
    /// The rooms, and those that are kept to: none until the best is found to be too long.
    all_rooms: Rooms,
    rooms: Rooms,
    /// The best so far that is not too long, and what the best costs where nothing is.
    fitting: Option<Known>,
    least: Points,
    /// What stands in the way of any arrangement.
    hindrance: Option<Hindrance>,
    /// Whether costs, or colours, are beyond what can be reckoned with: then nothing is proved.
    beyond: bool,
    /// Heights that are worth a quick look, strip by strip, as places.
    likely: Vec<Vec<Option<usize>>>,
    regions: BinaryHeap<Region>,
    sweep: Option<Sweep>,
    /// How many regions there were.
    numbered: u64,
    steps: u64,
    done: bool,
}

/// An arrangement, and what it costs.
#[derive(Debug, Clone)]
struct Known {
    path: Path,
    suggestion: Suggestion,
}

impl Known {
    fn new(field: &Field, path: Path) -> Self {
        Self { suggestion: suggestion(&field.problem, &path), path }
    }

    fn key(&self) -> (Points, &Path) {
        (self.suggestion.score, &self.path)
    }
}

impl Search {
    /// A search for the `count` best that differ.
    #[must_use]
    pub fn new(problem: Problem, count: usize) -> Self {
        let alone = if problem.parts.len() > 1 {
            (0..problem.parts.len()).map(|part| Self::new(problem.of_part(part), 1)).collect()
        } else {
            Vec::new()
        };
        let mut search = Self {
            alone,
            count,
            proved: Vec::new(),
            best: None,
            limits: Limits::default(),
            all_rooms: Rooms::of(&problem),
            rooms: Rooms::default(),
            fitting: None,
            least: Points::ZERO,
            hindrance: None,
            beyond: false,
            likely: Vec::new(),
            regions: BinaryHeap::new(),
            sweep: None,
            numbered: 0,
            steps: 0,
            done: false,
            field: Field::new(problem),
        };
        search.take_first();
        search
    }

    /// Begins with arrangements that are quickly made, unless it shows that there is none.
    fn take_first(&mut self) {
        let first = Known::new(&self.field, greedy(&self.field.problem));
        self.beyond = self.field.is_too_rich || cost_of(first.suggestion.score) > NEVER / 2;
        match self.all_rooms.shortened(&self.field.problem, first.path.clone()) {
            Err(hindrance) => (self.hindrance, self.done) = (Some(hindrance), true),
            Ok(short) if keeps_counts(&self.field.problem, &short) => self.improve(short),
            Ok(_) => {}
        }
        if self.beyond || self.done || !self.alone.is_empty() {
            // Whoever asks before the search has come to anything is told something all the same.
            self.improve(first.path);
            self.done |= self.beyond;
        } else {
            let likely = likely_lines(&self.field, LIKELY);
            self.likely = likely.into_iter().map(|line| vec![Some(line)]).collect();
            self.begin();
        }
    }

    /// Takes the searches for each strip by itself on; once they are done, begins with what they found.
    fn run_alone(&mut self, steps: u64) -> u64 {
        let waiting = self.alone.iter_mut().find(|search| !search.done);
        if let Some(search) = waiting {
            let before = search.steps;
            search.run(steps);
            let work = search.steps - before;
            let path = self.path_of_alone();
            if keeps_counts(&self.field.problem, &path) {
                self.improve(path);
            }
            return work;
        }
        if self.alone.iter().any(|search| search.beyond) {
            (self.beyond, self.done) = (true, true);
            return 1;
        }
        self.hindrance = (0..).zip(&self.alone).find_map(|(strip, search)| {
            let nothing = search.proved.is_empty();
            nothing.then(|| search.hindrance.unwrap_or(Hindrance::TooLongTogether).of_strip(strip))
        });
        if self.hindrance.is_some() {
            self.done = true;
            return 1;
        }
        self.field.floors = self.alone.iter().map(|search| cost_of(search.bound())).collect();
        let path = self.path_of_alone();
        self.alone.clear();
        if path.len() == self.field.problem.slots.len() {
            self.look_near(&suggestion(&self.field.problem, &path));
        }
        self.begin();
        if keeps_counts(&self.field.problem, &path) {
            // Each strip is at its best, and of its best the first: so are all together.
            self.best = None;
            self.improve(path);
            self.regions.clear();
        }
        1
    }

    /// The best so far of each strip by itself, side by side.
    fn path_of_alone(&self) -> Path {
        let best = self.alone.iter().filter_map(|search| search.proved.first().or(search.fitting.as_ref()));
        best.flat_map(|known| known.path.clone()).collect()
    }

    /// Begins to look for the next best that differs from all that is proved.
    fn begin(&mut self) {
        let before: Vec<Path> = self.proved.iter().map(|known| known.path.clone()).collect();
        let limits = if before.len() < self.count {
            Limits::new(&self.field.problem, &before, &self.rooms)
        } else {
            None
        };
        let Some(limits) = limits else {
            self.done = true;
            return;
        };
        self.limits = limits;
        self.best = self.fitting.clone();
        if before.is_empty() && self.rooms.lines.is_empty() {
            self.improve(greedy(&self.field.problem));
        }
        self.regions.clear();
        for lines in self.likely.clone() {
            if let Some(path) = probe(&self.field, (&self.limits, &self.rooms), &lines, self.most()) {
                self.improve(path);
            }
        }
        for region in Region::roots(&self.field, &self.limits) {
            self.push(region);
        }
    }

    /// Looks first where the strips are compared by the same heights as in `known`.
    fn look_near(&mut self, known: &Suggestion) {
        let line = |(heights, strip): (&Heights, &SuggestedStrip)| {
            strip.height.and_then(|height| heights.lines.binary_search(&height).ok())
        };
        self.likely = vec![self.field.heights.iter().zip(&known.strips).map(line).collect()];
    }

    fn push(&mut self, mut region: Region) {
        if region.bound <= self.most() {
            self.numbered += 1;
            region.number = self.numbered;
            self.regions.push(region);
        }
    }

    /// What the best so far costs: nothing dearer is of interest.
    fn most(&self) -> i32 {
        self.best.as_ref().map_or(NEVER - 1, |best| cost_of(best.suggestion.score))
    }

    /// Takes the search on by at most `steps` steps, or few more; `true` once there is nothing left to do.
    pub fn run(&mut self, steps: u64) -> bool {
        let mut left = steps;
        while left > 0 && !self.done {
            let before = left;
            if !self.alone.is_empty() {
                left = left.saturating_sub(self.run_alone(left).max(1));
                self.steps += before - left;
                continue;
            }
            let most = self.most();
            if let Some(mut sweep) = self.sweep.take() {
                if sweep.run(&self.field, &self.limits, most, &mut left) {
                    left = left.saturating_sub(1);
                    self.take(sweep.finish(&self.field));
                } else {
                    self.sweep = Some(sweep);
                }
            } else {
                match self.regions.pop().filter(|region| region.bound <= most) {
                    None => self.settle(),
                    Some(region) => {
                        let work = self.visit(region);
                        left = left.saturating_sub(work.max(1));
                    }
                }
            }
            self.steps += before - left;
        }
        self.done
    }

    /// Everything that is left costs more than the best: it is proved.
    fn settle(&mut self) {
        match self.best.take() {
            Some(best) if self.all_rooms.hold(&self.field.problem, &best.path) => {
                self.look_near(&best.suggestion);
                self.proved.push(best);
                self.fitting = None;
                self.begin();
            }
            Some(long) => {
                self.least = long.suggestion.score;
                self.rooms = self.all_rooms.clone();
                self.begin();
            }
            None => self.done = true,
        }
    }

    /// Takes a region on: sets its prices, then parts it, or sweeps it once everything is settled. Gives back the work.
    fn visit(&mut self, mut region: Region) -> u64 {
        let most = self.most();
        let (work, priced) = region.price(&self.field, &self.limits, most);
        match priced {
            None => {
                region.level += 1;
                self.push(region);
            }
            Some(_) if region.is_wide() => {
                region.split(&self.field).into_iter().for_each(|part| self.push(part));
            }
            Some(priced) => {
                let width = WIDTHS[region.cuts.min(WIDTHS.len() - 1)];
                self.sweep =
                    Some(Sweep::new(&self.field, (&self.limits, &self.rooms), region, priced, width));
            }
        }
        1 + work / 50
    }

    /// Takes in what came of a sweep. A region whose best was found is done with.
    fn take(&mut self, swept: Swept) {
        let Swept { mut region, chains, best, within, cut, reach } = swept;
        if let Some(path) = best {
            self.improve(path);
        }
        if !cut {
            if !within {
                region.bound = region.bound.max(reach.saturating_add(UNIT));
                region.level += 1;
                self.push(region);
            }
        } else if region.level > 0 {
            region.level = 0;
            self.push(region);
        } else if region.cuts + 1 < WIDTHS.len() {
            region.cuts += 1;
            self.push(region);
        } else {
            region.halves(&chains).into_iter().for_each(|half| self.push(half));
        }
    }

    /// Keeps an arrangement that differs from what is proved, if it is better than the best so far.
    fn improve(&mut self, path: Path) {
        let known = Known::new(&self.field, path);
        let fits = self.all_rooms.hold(&self.field.problem, &known.path);
        if fits && self.fitting.as_ref().is_none_or(|fitting| known.key() < fitting.key()) {
            self.fitting = Some(known.clone());
        }
        if self.best.as_ref().is_none_or(|best| known.key() < best.key()) {
            self.best = Some(known);
        }
    }

    /// No arrangement scores less than this.
    fn bound(&self) -> Points {
        if let Some(first) = self.proved.first() {
            return first.suggestion.score;
        }
        if self.beyond {
            return Points::ZERO;
        }
        if !self.alone.is_empty() {
            return self.alone.iter().map(Self::bound).sum();
        }
        let sweep = self.sweep.as_ref().map(Sweep::bound);
        let least = self.regions.peek().map(|region| region.bound).into_iter().chain(sweep).min();
        let known = self.best.as_ref().map(|best| cost_of(best.suggestion.score));
        let least = least.into_iter().chain(known).min().unwrap_or(0);
        Points::from_tenths((least + UNIT - 1).div_euclid(UNIT).max(0)).max(self.least)
    }

    /// What came of it so far.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        let nothing = self.field.problem.serves_nothing();
        let standing = match self.hindrance {
            _ if self.field.problem.asks_nothing() => Standing::Impossible(Hindrance::NothingAsked),
            Some(hindrance) => Standing::Impossible(hindrance),
            None if self.beyond => Standing::BestSoFar,
            None if nothing => Standing::Impossible(Hindrance::NothingServes),
            None if self.done && self.proved.is_empty() => Standing::Impossible(Hindrance::TooLongTogether),
            None if self.done => Standing::Best,
            None => Standing::BestSoFar,
        };
        let known = self.proved.iter().chain(self.fitting.iter().filter(|_| self.proved.is_empty()));
        Outcome {
            standing,
            suggestions: known.map(|known| known.suggestion.clone()).collect(),
            bound: self.bound(),
            explored: self.steps,
            unserved: self.field.problem.unserved(),
        }
    }
}
