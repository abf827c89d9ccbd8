//! A sweep of a settled region: every arrangement that could cost no more than what is known is grown slot by slot, and of
//! two beginnings that can be finished in the same ways the dearer is dropped.
//!
//! Must not know other regions.

use super::after::After;
use super::chain::{Chain, NEVER};
use super::field::Field;
use super::label::{Label, Layer, NONE};
use super::limits::Limits;
use super::price::Priced;
use super::problem::Path;
use super::region::Region;
use super::rooms::Rooms;
use super::ties::Ties;

/// A sweep that can be taken on in slices.
#[derive(Debug)]
pub(super) struct Sweep {
    region: Region,
    chains: Vec<Chain>,
    afters: Vec<Vec<After>>,
    ties: Ties,
    /// For each part the least that all later parts cost, and what prices give back.
    rest: Vec<i32>,
    /// For each slot of the row what its line has room for.
    spaces: Vec<Space>,
    /// What costs more is not looked for.
    reach: i32,
    /// No more labels are kept for one slot.
    width: usize,
    /// The slot that is being filled, and the next label to be grown into it.
    slot: usize,
    at: usize,
    current: Layer,
    growing: Layer,
    /// For each slot behind, the parent and the entry of each label.
    behind: Vec<Vec<(u32, u16)>>,
    /// Whether any label was dropped that could have been good.
    cut: bool,
}

/// The room of a slot's line.
#[derive(Debug, Clone, Copy)]
struct Space {
    /// What the line's letters may take, where it begins here.
    begins: Option<i64>,
    /// What the later letters of the line take at least.
    later: i64,
    /// Whether the line has a room at all.
    is_kept: bool,
}

/// What came of a sweep.
#[derive(Debug)]
pub(super) struct Swept {
    pub(super) region: Region,
    pub(super) chains: Vec<Chain>,
    /// The best arrangement come upon; of equals the first.
    pub(super) best: Option<Path>,
    /// Whether it costs no more than was asked.
    pub(super) within: bool,
    /// Whether labels were dropped, so that there may be better.
    pub(super) cut: bool,
    /// What costs more was not looked for.
    pub(super) reach: i32,
}

impl Sweep {
    /// Begins a sweep of a settled region for what costs at most `reach`, keeping at most `width` labels a slot.
    pub(super) fn new(
        field: &Field,
        (limits, rooms): (&Limits, &Rooms),
        region: Region,
        (priced, reach): (Priced, i32),
        width: usize,
    ) -> Self {
        let rest = rest(field, &region, &priced);
        let Priced { chains, afters, .. } = priced;
        let ties = Ties::of(field, limits, &region, &chains);
        let spaces = spaces(field, rooms, &chains);
        let current = Layer::start(&ties.start);
        Self {
            region,
            chains,
            afters,
            ties,
            rest,
            spaces,
            reach,
            width,
            slot: 0,
            at: 0,
            current,
            growing: Layer::default(),
            behind: Vec::new(),
            cut: false,
        }
    }

    /// The least that any arrangement of the region costs.
    pub(super) const fn bound(&self) -> i32 {
        self.region.bound
    }

    /// Grows labels until `steps` are used up or all is done, for arrangements of at most `most`; `true` when done.
    pub(super) fn run(&mut self, field: &Field, limits: &Limits, most: i32, steps: &mut u64) -> bool {
        let most = most.min(self.reach);
        while self.slot < field.problem.slots.len() {
            if self.at == self.current.labels.len() {
                self.turn();
            } else if *steps == 0 {
                return false;
            } else {
                *steps = steps.saturating_sub(self.effort(field));
                self.grow(field, limits, most);
                self.at += 1;
            }
        }
        true
    }

    /// The steps that growing one label is worth: more where there are many entries and ties.
    fn effort(&self, field: &Field) -> u64 {
        let part = field.problem.slots[self.slot].part;
        let local = self.slot - field.problem.parts[part].slots.start;
        let entries = self.chains[part].slots[local].entries.len();
        1 + (entries * (self.ties.start.len() + 8) / 512) as u64
    }

    /// Grows one label by every entry of the slot.
    fn grow(&mut self, field: &Field, limits: &Limits, most: i32) {
        let place = field.problem.slots[self.slot].part;
        let local = self.slot - field.problem.parts[place].slots.start;
        let (chain, memory) = (&self.chains[place], &field.memories[place]);
        let label = self.current.labels[self.at];
        let count = self.ties.start.len();
        let came = local.checked_sub(1).map(|before| chain.slots[before].entries[usize::from(label.entry)]);
        let link = &chain.slots[local];
        let space = self.spaces[self.slot];
        for (entry, here) in link.entries.iter().enumerate() {
            let same = came.is_some_and(|came| came.is_mate(here));
            let pair = came.map_or(0, |came| chain.step(local - 1, &came, here, label.future.whole));
            let step = memory.step(local, usize::from(label.future.state), usize::from(here.tinge));
            let whole = link.stays_whole(here, label.future.whole, same);
            let bundle = usize::from(link.bundle_of[entry]);
            let after = self.afters[place][local].get(bundle, whole, usize::from(step.state));
            let more = pair + here.cost + step.cost;
            let promise =
                label.priced.saturating_add(more).saturating_add(after).saturating_add(self.rest[place]);
            if promise > most {
                continue;
            }
            let width = if space.is_kept {
                field.problem.slots[self.slot].choices[usize::from(here.choice)].width.nm()
            } else {
                0
            };
            let room = space.begins.unwrap_or(label.room) - width;
            if room < space.later {
                continue;
            }
            self.growing.ties.extend_from_slice(&self.current.ties[self.at * count..(self.at + 1) * count]);
            let from = self.growing.labels.len() * count;
            if !self.ties.pull(self.slot, entry, &mut self.growing.ties[from..]) {
                self.growing.ties.truncate(from);
                continue;
            }
            let is_last = local + 1 == chain.slots.len();
            // A strip that is done takes its end with it; the next begins anew.
            let more = if is_last { more + after } else { more };
            let prices = limits.price(place, self.slot, here, &self.region.prices);
            let grown = Label {
                cost: label.cost + more - prices,
                priced: label.priced + more,
                promise,
                parent: u32::try_from(self.at).unwrap_or(NONE),
                entry: u16::try_from(entry).unwrap_or(u16::MAX),
                // Where a line is done its room is forgotten.
                room: if self.spaces.get(self.slot + 1).is_none_or(|next| next.begins.is_some()) {
                    0
                } else {
                    room
                },
                future: chain.future(local, entry, whole, step.state),
            };
            self.growing.put(grown, count);
        }
    }

    /// Goes on to the next slot with the labels grown, in the order of what they say.
    fn turn(&mut self) {
        let grown = &self.growing;
        let mut order: Vec<usize> = (0..grown.labels.len()).collect();
        if order.len() > self.width {
            self.cut = true;
            order.sort_by_key(|&at| {
                (grown.labels[at].promise, grown.labels[at].parent, grown.labels[at].entry)
            });
            order.truncate(self.width);
        }
        order.sort_by_key(|&at| (grown.labels[at].parent, grown.labels[at].entry));
        let count = self.ties.start.len();
        self.current.clear();
        for &at in &order {
            self.current.labels.push(grown.labels[at]);
            self.current.ties.extend_from_slice(grown.ties_of(at, count));
        }
        self.behind.push(self.current.labels.iter().map(|label| (label.parent, label.entry)).collect());
        self.growing.clear();
        self.at = 0;
        self.slot += 1;
    }

    /// What came of it, once it is done.
    pub(super) fn finish(self, field: &Field) -> Swept {
        let labels = &self.current.labels;
        let best = (0..labels.len()).min_by_key(|&at| (labels[at].cost, at));
        // Prices may have let in what costs more.
        let paid: i32 = (0..self.chains.len()).map(|strip| self.region.paid(field, strip)).sum();
        let within = best.is_some_and(|at| labels[at].cost + paid <= self.reach);
        let best = best.map(|at| self.path(at));
        Swept { best, within, cut: self.cut, reach: self.reach, chains: self.chains, region: self.region }
    }

    /// The choices of a finished label.
    fn path(&self, mut at: usize) -> Path {
        let mut path = Path::new();
        let links = self.chains.iter().flat_map(|chain| &chain.slots);
        let links: Vec<_> = links.collect();
        for (layer, link) in self.behind.iter().zip(&links).rev() {
            let (parent, entry) = layer[at];
            path.push(link.entries[usize::from(entry)].choice);
            at = parent as usize;
        }
        path.reverse();
        path
    }
}

/// The room of each slot's line.
fn spaces(field: &Field, rooms: &Rooms, chains: &[Chain]) -> Vec<Space> {
    let mut spaces = vec![Space { begins: Some(0), later: 0, is_kept: false }; field.problem.slots.len()];
    let links: Vec<_> = chains.iter().flat_map(|chain| &chain.slots).collect();
    for line in &rooms.lines {
        let mut later = 0;
        for slot in line.slots.clone().rev() {
            let begins = (slot == line.slots.start).then_some(line.left);
            spaces[slot] = Space { begins, later, is_kept: true };
            let width = |choice: u16| field.problem.slots[slot].choices[usize::from(choice)].width.nm();
            later += links[slot].entries.iter().map(|entry| width(entry.choice)).min().unwrap_or(0);
        }
    }
    spaces
}

/// For each strip what all later ones cost at least, and what prices give back: by their own least, or by their floors.
fn rest(field: &Field, region: &Region, priced: &Priced) -> Vec<i32> {
    let strips = priced.least.len();
    let paid = |strip: usize| region.paid(field, strip);
    let after = |place: usize| {
        let so_far: i32 = (0..=place).map(|strip| priced.asked[strip] + paid(strip)).sum();
        let later = |strip: usize| priced.least[strip].saturating_add(paid(strip));
        let by_least = (place + 1..strips).fold(0, |sum: i32, strip| sum.saturating_add(later(strip)));
        let by_floors: i32 = field.floors[place + 1..].iter().sum();
        by_least.max(by_floors).saturating_add(so_far).saturating_add(priced.base).min(NEVER)
    };
    (0..strips).map(after).collect()
}
