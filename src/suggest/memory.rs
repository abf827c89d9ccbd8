//! What of a strip's colours must be remembered, going from slot to slot, to know in the end which demands are met.
//!
//! Of many colours that are all wanted there is too much to remember: then nothing can be proved.
//! Must not know letters beyond their family and whether they are in the main colour.

use std::ops::Range;

use crate::checks::{Demand, Family, Fill};
use crate::measure::Points;

use super::problem::{Part, Problem};

/// No more is remembered than so many states between two slots.
const MOST_STATES: usize = 60_000;

/// Nor are states numbered that could be so many, reached or not.
const MOST_NUMBERS: usize = 1 << 20;

/// What demands look at in a choice: its family, and whether it is in the main colour.
pub(super) type Tinge = (Option<Family>, bool);

/// A walk over what is remembered: for each place between slots the states that can be reached, and how each slot's
/// choice leads from one to the next.
#[derive(Debug, Clone, Default)]
pub(super) struct Memory {
    /// The different tinges of the part.
    pub(super) tinges: Vec<Tinge>,
    /// For each slot, state before it and tinge: the state after it, and what is lost for good by then.
    steps: Vec<Vec<Step>>,
    /// How many states there are before each slot, and after the last.
    sizes: Vec<usize>,
    /// What each state after the last slot costs.
    ends: Vec<i32>,
}

/// Where a tinge leads.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub(super) state: u16,
    pub(super) cost: i32,
}

/// What is remembered.
#[derive(Debug, Clone, Copy, Default)]
struct State {
    /// The families so far, by the place of their set in [`Sets`].
    set: usize,
    /// Letters of a wanted family so far, no further than wanted.
    counted: [usize; 2],
    /// Demands of a run of slots: whether each is met so far.
    met: usize,
    /// The family that all of the word so far has, from 1; 0 where it has none.
    word: usize,
}

impl Memory {
    /// Remembers nothing: every demand that spans slots is taken as met.
    pub(super) fn none(slots: usize) -> Self {
        let step = Step { state: 0, cost: 0 };
        Self {
            tinges: vec![(None, false)],
            steps: vec![vec![step]; slots],
            sizes: vec![1; slots + 1],
            ends: vec![0],
        }
    }

    /// Remembers what the part's demands need; `None` where that is too much.
    pub(super) fn of(problem: &Problem, part: &Part) -> Option<Self> {
        let mut tinges: Vec<Vec<Tinge>> = Vec::new();
        let mut all: Vec<Tinge> = Vec::new();
        for slot in part.slots.clone() {
            let mut here: Vec<Tinge> =
                problem.slots[slot].choices.iter().map(|choice| tinge(&choice.fill)).collect();
            here.sort_unstable();
            here.dedup();
            all.extend(&here);
            tinges.push(here);
        }
        all.sort_unstable();
        all.dedup();
        let walk = Walk::new(problem, part, &all)?;
        let mut memory = Self { tinges: all, ..Self::default() };
        let mut states = vec![State::default()];
        for (slot, here) in tinges.iter().enumerate() {
            states = memory.add(&walk, slot, &states, here);
            if states.len() > MOST_STATES {
                return None;
            }
        }
        memory.sizes.push(states.len());
        memory.ends = states.iter().map(|state| walk.end(state)).collect();
        Some(memory)
    }

    /// Adds a slot whose choices have the tinges `here`, and gives back the states after it.
    fn add(&mut self, walk: &Walk<'_>, slot: usize, states: &[State], here: &[Tinge]) -> Vec<State> {
        let width = self.tinges.len();
        let mut places = vec![u16::MAX; walk.radix()];
        let mut after = Vec::new();
        let mut steps = vec![Step { state: u16::MAX, cost: 0 }; states.len() * width];
        for (place, state) in states.iter().enumerate() {
            for tinge in here {
                let index = self.tinges.binary_search(tinge).unwrap_or(0);
                let (next, cost) = walk.step(*state, slot, *tinge);
                let known = &mut places[walk.pack(&next)];
                if *known == u16::MAX {
                    *known = u16::try_from(after.len()).unwrap_or(u16::MAX);
                    after.push(next);
                }
                steps[place * width + index] = Step { state: *known, cost };
            }
        }
        self.sizes.push(states.len());
        self.steps.push(steps);
        after
    }

    /// Where `tinge`, by its place, leads from `state` in `slot`.
    pub(super) fn step(&self, slot: usize, state: usize, tinge: usize) -> Step {
        let width = self.tinges.len();
        self.steps[slot][state * width + tinge.min(width - 1)]
    }

    /// How many states there are before `slot`, or after the last.
    pub(super) fn size(&self, slot: usize) -> usize {
        self.sizes[slot]
    }

    /// What each state after the last slot costs.
    pub(super) fn ends(&self) -> &[i32] {
        &self.ends
    }

    /// The place of a fill's tinge; 0 where nothing is remembered.
    pub(super) fn tinge_of(&self, fill: &Fill) -> usize {
        self.tinges.binary_search(&tinge(fill)).unwrap_or(0)
    }
}

fn tinge(fill: &Fill) -> Tinge {
    (fill.family(), fill.is_main())
}

/// Points in the unit of the search.
pub(super) fn cost_of(points: Points) -> i32 {
    points.tenths().saturating_mul(super::UNIT)
}

/// The demands of a part, as a walk over its slots.
struct Walk<'a> {
    demands: &'a [Demand],
    /// The families that count, by place.
    families: Vec<Family>,
    sets: Sets,
    /// For each slot the slots of its word.
    words: Vec<Range<usize>>,
    by_word: bool,
    /// How many values each part of a state has: set, the two counts, what is met, word.
    radices: [usize; 5],
}

impl<'a> Walk<'a> {
    /// A walk over the part's slots; `None` where its states are beyond numbering.
    fn new(problem: &Problem, part: &'a Part, tinges: &[Tinge]) -> Option<Self> {
        let start = part.slots.start;
        let word = |slot: usize| {
            let word = &problem.slots[slot].word;
            word.start - start..word.end - start
        };
        let mut counts = part.demands.iter().filter_map(|demand| match demand {
            Demand::AtLeast { letters, .. } => Some(letters + 1),
            _ => None,
        });
        let wanted = part.demands.iter().find_map(|demand| match demand {
            Demand::Families { families, strays, by_word, .. } => Some((*families, *strays, *by_word)),
            _ => None,
        });
        let (most, strays, by_word) = wanted.unwrap_or((0, false, false));
        let counts_as_one = |family: &Family| strays || matches!(family, Family::Page(_));
        let mut families: Vec<Family> =
            tinges.iter().filter_map(|tinge| tinge.0).filter(counts_as_one).collect();
        families.dedup();
        let counts = [counts.next().unwrap_or(1), counts.next().unwrap_or(1)];
        let words = if by_word { families.len() + 1 } else { 1 };
        let runs = part.demands.iter().filter(|demand| is_run(demand)).count();
        let radices = [Sets::count(families.len(), most), counts[0], counts[1], 1 << runs, words];
        let numbers = radices.iter().try_fold(1_usize, |all, &radix| all.checked_mul(radix));
        if numbers.is_none_or(|numbers| numbers > MOST_NUMBERS) {
            return None;
        }
        let sets = Sets::new(families.len(), most);
        let of_slots = part.slots.clone().map(word).collect();
        Some(Self { demands: &part.demands, families, sets, words: of_slots, by_word, radices })
    }

    fn radix(&self) -> usize {
        self.radices.iter().product()
    }

    fn pack(&self, state: &State) -> usize {
        let digits = [state.set, state.counted[0], state.counted[1], state.met, state.word];
        digits.iter().zip(self.radices).fold(0, |sum, (digit, radix)| sum * radix + digit)
    }

    /// The place of a family that counts.
    fn place(&self, family: Family) -> Option<usize> {
        self.families.binary_search(&family).ok()
    }

    /// The state after `slot`, and what is lost for good.
    fn step(&self, mut next: State, slot: usize, (family, main): Tinge) -> (State, i32) {
        let (mut cost, mut counter, mut bit) = (0, 0, 1);
        if self.by_word {
            self.take_word(&mut next, slot, family);
        }
        for demand in self.demands {
            match demand {
                Demand::MainIn { slots, points } => {
                    cost += run((&mut next.met, bit), slots, slot, main, *points);
                    bit <<= 1;
                }
                Demand::FamilyIn { slots, family: wanted, points } => {
                    cost += run((&mut next.met, bit), slots, slot, family == Some(*wanted), *points);
                    bit <<= 1;
                }
                Demand::AtLeast { family: wanted, letters, .. } => {
                    let count = &mut next.counted[counter];
                    *count = (*count + usize::from(family == Some(*wanted))).min(*letters);
                    counter += 1;
                }
                Demand::Families { by_word, .. } => {
                    let ends = self.words[slot].end == slot + 1;
                    let whole = next.word.checked_sub(1).filter(|_| ends);
                    let found = if *by_word { whole } else { family.and_then(|family| self.place(family)) };
                    if let Some(found) = found {
                        next.set = self.sets.with(next.set, found);
                    }
                    next.word = if ends { 0 } else { next.word };
                }
                Demand::Lead { .. } | Demand::AtMost { .. } => {}
            }
        }
        (next, cost)
    }

    /// Remembers whether the word so far is all of one family.
    fn take_word(&self, next: &mut State, slot: usize, family: Option<Family>) {
        let place = family.and_then(|family| self.place(family)).map_or(0, |place| place + 1);
        if self.words[slot].start == slot {
            next.word = place;
        } else if next.word != place {
            next.word = 0;
        }
    }

    fn end(&self, state: &State) -> i32 {
        let mut counter = 0;
        let mut cost = 0;
        for demand in self.demands {
            match demand {
                Demand::AtLeast { letters, points, .. } => {
                    if state.counted[counter] < *letters {
                        cost += cost_of(*points);
                    }
                    counter += 1;
                }
                Demand::Families { families, points, .. } => {
                    let lacking = families.saturating_sub(self.sets.members[state.set].len());
                    cost += cost_of(*points * i32::try_from(lacking).unwrap_or(i32::MAX));
                }
                _ => {}
            }
        }
        cost
    }
}

/// Whether a demand is of a run of slots.
const fn is_run(demand: &Demand) -> bool {
    matches!(demand, Demand::MainIn { .. } | Demand::FamilyIn { .. })
}

/// A demand of a run of slots, with its bit: met, or lost where the run ends without.
fn run(
    (met, bit): (&mut usize, usize),
    slots: &Range<usize>,
    slot: usize,
    is_met: bool,
    points: Points,
) -> i32 {
    if slots.contains(&slot) && is_met {
        *met |= bit;
    }
    if slot + 1 != slots.end {
        return 0;
    }
    let cost = if *met & bit == 0 { cost_of(points) } else { 0 };
    *met &= !bit;
    cost
}

/// Sets of families of up to a wanted size: beyond that it does not matter which there are.
struct Sets {
    /// The families of each set, ascending, by place; of a full set only how many there are counts.
    members: Vec<Vec<usize>>,
    /// For each set and family the set with that family in it.
    grown: Vec<usize>,
    families: usize,
}

impl Sets {
    /// How many sets there are.
    fn count(families: usize, most: usize) -> usize {
        let (mut all, mut of_size) = (0_usize, 1_usize);
        for size in 0..most.min(families + 1) {
            all = all.saturating_add(of_size);
            of_size = of_size.saturating_mul(families - size) / (size + 1);
        }
        all + usize::from(families >= most)
    }

    fn new(families: usize, most: usize) -> Self {
        let mut sets = Self { members: vec![Vec::new()], grown: Vec::new(), families };
        let mut place = 0;
        while place < sets.members.len() {
            for family in 0..families {
                let grown = sets.grow(place, family, most);
                sets.grown.push(grown);
            }
            place += 1;
        }
        sets
    }

    fn grow(&mut self, place: usize, family: usize, most: usize) -> usize {
        let set = &self.members[place];
        if set.contains(&family) || set.len() >= most {
            return place;
        }
        let mut grown = set.clone();
        grown.push(family);
        grown.sort_unstable();
        let is_it = |other: &Vec<usize>| *other == grown || (grown.len() == most && other.len() == most);
        self.members.iter().position(is_it).unwrap_or_else(|| {
            self.members.push(grown);
            self.members.len() - 1
        })
    }

    fn with(&self, set: usize, family: usize) -> usize {
        self.grown[set * self.families + family]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_grow_up_to_the_size_that_matters() {
        let sets = Sets::new(5, 2);
        assert_eq!(sets.members.len(), 1 + 5 + 1, "none, each alone, and one for all that are full");
        let (one, other) = (sets.with(0, 3), sets.with(0, 1));
        assert_eq!((sets.members[one].as_slice(), sets.with(one, 3)), (&[3][..], one));
        assert_eq!(sets.with(one, 1), sets.with(other, 3));
        assert_eq!(sets.with(sets.with(one, 1), 4), sets.with(one, 1), "full is full");
    }

    #[test]
    fn sets_are_as_many_as_counted() {
        for families in 0..7 {
            for most in 0..9 {
                let made = Sets::new(families, most).members.len();
                assert_eq!(Sets::count(families, most), made, "{families} families, {most} wanted");
            }
        }
    }
}
