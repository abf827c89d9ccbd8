//! What neighbours of every two kinds cost, asked of the checks once.
//!
//! A check of pairs looks at the kinds of two letters, at whether they are of one sheet, and at whether their word is
//! wholly of that sheet; the last takes the same off every pair. Must not know slots.

use crate::checks::{Between, Fill};
use crate::title::Joint;

use super::memory::cost_of;
use super::problem::Part;

/// The costs of pairs of one strip.
#[derive(Debug, Clone)]
pub(super) struct Pairs {
    kinds: usize,
    costs: Vec<PairCosts>,
    /// What a pair of one sheet costs more where its word is not wholly of that sheet.
    pub(super) piece: i32,
}

/// What two kinds cost as neighbours.
#[derive(Debug, Clone, Copy, Default)]
struct PairCosts {
    /// In a word, of two sheets and of one.
    word: [i32; 2],
    /// Across a gap, where sheets do not matter.
    gap: i32,
}

impl Pairs {
    pub(super) fn of(part: &Part) -> Self {
        let kinds = part.kinds.len();
        let mut costs = Vec::with_capacity(kinds * kinds);
        let mut piece = None;
        for a in &part.kinds {
            for b in &part.kinds {
                let cost = |same: bool, joint: Joint, whole: bool| {
                    let (a, b) = (on_sheet(a, 0), on_sheet(b, usize::from(!same)));
                    cost_of(part.pair_points(&a, &b, Between { joint, whole }))
                };
                let word = [false, true].map(|same| cost(same, Joint::Word, false));
                costs.push(PairCosts { word, gap: cost(false, Joint::Gap, false) });
                if a.look().is_some() && b.look().is_some() {
                    let more = cost(true, Joint::Word, false) - cost(true, Joint::Word, true);
                    piece = Some(piece.map_or(more, |piece: i32| piece.min(more)));
                }
            }
        }
        Self { kinds, costs, piece: piece.unwrap_or(0) }
    }

    /// How many kinds there are.
    pub(super) const fn kinds(&self) -> usize {
        self.kinds
    }

    /// What two neighbours cost, `same`: of one sheet. In a word the pair counts as a piece of a mixed word.
    pub(super) fn cost(&self, before: u16, here: u16, joint: Option<Joint>, same: bool) -> i32 {
        let costs = &self.costs[usize::from(before) * self.kinds + usize::from(here)];
        match joint {
            Some(Joint::Word) => costs.word[usize::from(same)],
            Some(_) => costs.gap,
            None => 0,
        }
    }
}

fn on_sheet(fill: &Fill, sheet: usize) -> Fill {
    match fill {
        Fill::Letter(look) => {
            let mut look = look.clone();
            look.sheet = sheet;
            Fill::Letter(look)
        }
        other => other.clone(),
    }
}
