//! A second opinion on the score of a strip: every term written anew from its rule, in whole tenths of a point.
//!
//! Must not know `oddment::checks`.

use oddment::plan::Plan;
use oddment::stash::Stash;
use oddment::title::{Layout, Mix, Strip};

use super::heights::{by_height, line_height, suits};
use super::letter::{Eye, Slot, alone};
use super::page::{Colours, Family, Under, page_colours, under};

/// The points of each term of one strip, in tenths.
pub(crate) type Terms = Vec<(&'static str, i64)>;

/// The sum of terms.
pub(crate) fn sum(terms: &Terms) -> i64 {
    terms.iter().map(|(_, tenths)| tenths).sum()
}

/// What is known of a strip.
struct Line<'a> {
    strip: &'a Strip,
    page: Option<Colours>,
    slots: Vec<Slot>,
    height: Option<i64>,
}

/// The terms of the strip at `place`; `None` where two things lie under it about equally.
pub(crate) fn terms(plan: &Plan, place: usize, stash: &Stash, other: &Plan) -> Option<Terms> {
    let strip = &plan.strips()[place];
    let mut eye = Eye::new(plan, place, stash, other);
    let seen = |eye: &Eye<'_>| -> Vec<Slot> {
        (0..strip.len())
            .map(|slot| eye.slot(strip, slot, strip.letter(slot).map(|stood| &stood.sticker)))
            .collect()
    };
    let slots = seen(&eye);
    let heights: Vec<i64> = slots.iter().filter_map(|slot| slot.letter.as_ref()?.height).collect();
    let height = line_height(&heights, suits(strip, &plan.page));
    eye.under = match under(strip, &plan.page, Layout::of(strip, stash).length(), height) {
        Under::Known(colour) => Some(colour),
        Under::Unknown => None,
        Under::TooClose => return None,
    };
    let line = Line { strip, slots: seen(&eye), page: page_colours(&plan.page), height };
    let mut terms = line.letter_terms();
    terms.extend(line.place_terms());
    terms.extend(line.pair_terms());
    terms.retain(|(id, _)| !strip.accepted.contains(*id));
    Some(terms)
}

fn whole(count: usize) -> i64 {
    i64::try_from(count).unwrap()
}

impl Line<'_> {
    fn letter_terms(&self) -> Terms {
        let height = |slot: &Slot| slot.letter.as_ref()?.height.zip(self.height);
        let of = |slot: &Slot| {
            let by = height(slot).map(|(own, line)| by_height(own, line));
            [alone(slot, self.strip), by.unwrap_or_default()].concat()
        };
        self.slots.iter().flat_map(of).collect()
    }

    /// Positions and counts.
    fn place_terms(&self) -> Terms {
        let (n, mix) = (self.slots.len(), self.strip.rules.mix);
        let mut terms = Vec::new();
        if mix == Mix::Plain || n == 0 {
            return terms;
        }
        if let Some(main) = self.page.as_ref().and_then(|page| page.main) {
            let mut ends = vec![0, n - 1];
            ends.dedup();
            let bad = |&&end: &&usize| self.slots[end].filled && !self.slots[end].main;
            terms.push(("ends", 60 * whole(ends.iter().filter(bad).count())));
            // Slots count from 1 in the rule: ceil(N/3) + 1 to N - ceil(N/3).
            let third = n.div_ceil(3);
            if n >= 5 && !(third + 1..=n - third).any(|slot| self.slots[slot - 1].main) {
                terms.push(("anchor", 40));
            }
            if n >= 5 && mix == Mix::Lively && 3 * self.count((0, main)) < n {
                terms.push(("lead", 40));
            }
        }
        if let Some(second) = self.page.as_ref().and_then(|page| page.second).filter(|_| n >= 5) {
            for near_end in [1..=3, n - 2..=n] {
                if !near_end.into_iter().any(|slot| self.slots[slot - 1].family == Some((0, second))) {
                    terms.push(("second", 20));
                }
            }
        }
        if n >= 5 {
            terms.push(("monotony", 80 * self.families_that_lack()));
            let crowd = |slot: &Slot| slot.family.is_some_and(|family| 5 * self.count(family) > 3 * n);
            if mix == Mix::Lively && self.slots.iter().any(crowd) {
                terms.push(("dominance", 60));
            }
        }
        terms
    }

    fn count(&self, family: Family) -> usize {
        self.slots.iter().filter(|slot| slot.family == Some(family)).count()
    }

    fn families_that_lack(&self) -> i64 {
        let mut want = self.page.as_ref().map_or(3, |page| page.without_ground.min(3));
        let mut there: Vec<Family> = Vec::new();
        if self.strip.rules.mix == Mix::Words {
            let asked = self.strip.wording().slots();
            let words = asked.last().map_or(0, |last| last.word + 1);
            want = want.min(words);
            for word in 0..words {
                let of: Vec<Option<Family>> = (0..asked.len())
                    .filter(|&slot| asked[slot].word == word)
                    .map(|slot| self.slots[slot].family)
                    .collect();
                there.extend(of[0].filter(|first| of.iter().all(|one| *one == Some(*first))));
            }
        } else {
            there.extend(self.slots.iter().filter_map(|slot| slot.family));
        }
        there.retain(|family| self.page.is_none() || family.0 == 0);
        there.sort_unstable();
        there.dedup();
        whole(want.saturating_sub(there.len()))
    }

    fn pair_terms(&self) -> Terms {
        let asked = self.strip.wording().slots();
        let (lively, known) =
            (self.strip.rules.mix == Mix::Lively, |slot: usize| self.slots[slot].letter.as_ref());
        let mut terms = Vec::new();
        for slot in 1..self.slots.len() {
            let (before, here) = (&self.slots[slot - 1], &self.slots[slot]);
            if !before.filled || !here.filled || asked[slot - 1].line != asked[slot].line {
                continue;
            }
            let in_word = asked[slot - 1].word == asked[slot].word;
            if lively && before.family.is_some() && before.family == here.family {
                terms.push(("neighbours", if in_word { 30 } else { 10 }));
            }
            let sheets = [slot - 1, slot].map(|slot| known(slot).map(|letter| &letter.sheet));
            let word = (0..asked.len()).filter(|&other| asked[other].word == asked[slot].word);
            let whole =
                word.map(|other| known(other).map(|letter| &letter.sheet)).all(|sheet| sheet == sheets[0]);
            let one_sheet = sheets[0].is_some() && sheets[0] == sheets[1];
            if lively && in_word && one_sheet && !whole {
                terms.push(("fragment", 20));
            }
            let script = [slot - 1, slot].iter().any(|&slot| known(slot).is_some_and(|letter| letter.joined));
            if in_word && script && !one_sheet {
                terms.push(("joined", 100));
            }
        }
        terms
    }
}
