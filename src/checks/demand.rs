//! Whether a strip's colours meet a demand, and what it costs where they do not.
//!
//! Must not know which check made it.

use std::collections::BTreeSet;
use std::ops::Range;

use crate::measure::Points;
use crate::title::Wording;

use super::look::Fill;
use super::palette::Family;
use super::reach::Demand;

/// The slots that a demand means and its points: 0 where it is met.
#[must_use]
pub fn unmet(demand: &Demand, fills: &[Fill], wording: &Wording) -> (Vec<usize>, Points) {
    let unless = |met: bool, slots: Range<usize>, points: Points| {
        if met { (Vec::new(), Points::ZERO) } else { (slots.collect(), points) }
    };
    match demand {
        Demand::Lead { slot, points } => {
            let met = !fills[*slot].is_filled() || fills[*slot].is_main();
            unless(met, *slot..slot + 1, *points)
        }
        Demand::MainIn { slots, points } => {
            unless(fills[slots.clone()].iter().any(Fill::is_main), slots.clone(), *points)
        }
        Demand::FamilyIn { slots, family, points } => {
            unless(count(&fills[slots.clone()], *family) > 0, slots.clone(), *points)
        }
        Demand::AtLeast { family, letters, points } => {
            unless(count(fills, *family) >= *letters, 0..0, *points)
        }
        Demand::AtMost { letters, points } => match crowd(fills, *letters) {
            Some(family) => (slots_of(fills, family), *points),
            None => (Vec::new(), Points::ZERO),
        },
        Demand::Families { families, strays, by_word, points } => {
            let there = distinct(fills, wording, *strays, *by_word).len();
            let lacking = i32::try_from(families.saturating_sub(there)).unwrap_or(i32::MAX);
            (Vec::new(), *points * lacking)
        }
    }
}

fn count(fills: &[Fill], family: Family) -> usize {
    fills.iter().filter(|fill| fill.family() == Some(family)).count()
}

fn slots_of(fills: &[Fill], family: Family) -> Vec<usize> {
    (0..fills.len()).filter(|&slot| fills[slot].family() == Some(family)).collect()
}

/// The family on more than `most` letters. As `most` is at least half of the slots there is at most one.
fn crowd(fills: &[Fill], most: usize) -> Option<Family> {
    fills.iter().filter_map(Fill::family).find(|&family| count(fills, family) > most)
}

/// The families there are: of letters, or of words that are wholly of one family.
fn distinct(fills: &[Fill], wording: &Wording, strays: bool, by_word: bool) -> BTreeSet<Family> {
    let of_word = |word: Range<usize>| {
        let first = fills[word.start].family()?;
        (count(&fills[word.clone()], first) == word.len()).then_some(first)
    };
    let counts = |family: &Family| strays || matches!(family, Family::Page(_));
    if by_word {
        wording.words().filter_map(of_word).filter(counts).collect()
    } else {
        fills.iter().filter_map(Fill::family).filter(counts).collect()
    }
}
