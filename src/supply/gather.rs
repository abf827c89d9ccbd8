//! Every way in which a letter of the stash can serve.
//!
//! Must not know which way is taken.

use std::collections::{BTreeSet, HashMap};
use std::sync::LazyLock;

use crate::letter::{Character, Face, StandIn, StandInKind, Turn, stand_ins};
use crate::measure::Length;
use crate::stash::{ChipIx, Stash};

use super::asking::Asking;

/// One way in which a letter can serve.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Way {
    /// The character it serves for, by its number.
    pub(super) wanted: u16,
    /// How it stands in; `None`: as itself.
    pub(super) stands_in: Option<StandInKind>,
    /// Whether it serves without standing in: as itself, or as the other case of one shape.
    pub(super) is_own: bool,
    /// What that costs, in tenths of a point.
    pub(super) cost: i32,
    /// The height that counts; `None`: too small a mark to be compared.
    pub(super) height: Option<Length>,
    /// Whether that is not the sticker's own, as it stands, but that of a capital to the same scale.
    pub(super) as_capital: bool,
}

impl Way {
    /// What the assignment counts: the cost first, then whether it stands in at all. No wording has so many letters that stand-ins
    /// without cost could outweigh a tenth of a point.
    pub(super) fn weight(&self) -> i32 {
        self.cost.saturating_mul(1024).saturating_add(i32::from(!self.is_own))
    }
}

/// Letters that can serve in the same ways, wherever they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Lot {
    /// The ways.
    pub(super) ways: Vec<Way>,
    /// Where the letters are, and how many are left.
    pub(super) chips: Vec<(ChipIx, u16)>,
}

impl Lot {
    /// How many letters there are.
    pub(super) fn left(&self) -> u32 {
        self.chips.iter().map(|&(_, left)| u32::from(left)).sum()
    }
}

/// Characters that the other case serves for, while no case of that one leads back to them: the final sigma, the dotless i, the
/// capital of ß.
static HIDDEN: LazyLock<Vec<Character>> = LazyLock::new(|| {
    // All of them lie below the signs of U+2000.
    let all = ('\u{80}'..'\u{2000}')
        .filter(|one| !(one.to_uppercase().eq([*one]) && one.to_lowercase().eq([*one])));
    let all = all.filter_map(|one| Character::new(one.encode_utf8(&mut [0; 4])).ok());
    let is_hidden = |one: &Character| {
        let other = stand_ins(one).into_iter().find(|row| row.kind == StandInKind::OtherCase);
        other.is_some_and(|row| cases(&row.used).all(|case| case != *one))
    };
    all.filter(is_hidden).collect()
});

/// `one` as a capital and as a small letter.
fn cases(one: &Character) -> impl Iterator<Item = Character> {
    [one.to_upper(), one.to_lower()].into_iter().flatten()
}

/// Every character that letters of `stash` could serve for, in order.
pub(super) fn characters(stash: &Stash, asking: &Asking) -> Vec<Character> {
    let carried: BTreeSet<&Character> = stash.characters().collect();
    let both = carried.iter().flat_map(|&one| std::iter::once(one.clone()).chain(cases(one)));
    let serves = |wanted: &Character| {
        carried.contains(wanted)
            || stand_ins(wanted).iter().any(|row| asking.cost(row).is_some() && carried.contains(&row.used))
    };
    let rows = crate::letter::STAND_INS.iter().filter_map(|row| Character::new(row.wanted).ok());
    let all: BTreeSet<Character> = both
        .chain(rows)
        .chain(HIDDEN.iter().cloned())
        .filter(|wanted| asking.wanted(wanted) == *wanted)
        .collect();
    all.into_iter().filter(serves).collect()
}

/// What is left of `stash` that serves for `characters`, each by its place there; `spare` is how many of a chip are kept for
/// something else. Letters that serve in the same ways are put together, in the order of the stash.
pub(super) fn lots(
    stash: &Stash,
    characters: &[Character],
    asking: &Asking,
    spare: impl Fn(ChipIx) -> u16,
) -> Vec<Lot> {
    let mut ways: Vec<Vec<Way>> = vec![Vec::new(); stash.len()];
    for (wanted, character) in (0u16..).zip(characters) {
        let is_exempt = Face::reference().is_exempt(character);
        let mut note = |chip: ChipIx, row: Option<&StandIn>, cost: i32| {
            let turn = row.map_or(Turn::None, |row| row.turn);
            let seen = stash.chip(chip);
            let height = (!is_exempt).then(|| seen.effective_height(character, turn));
            let stands = if turn.is_sideways() { seen.width().0 } else { seen.shown_height() };
            let as_capital = height.is_some_and(|height| height != stands);
            if asking.allows(seen) && asking.suits(height) {
                let is_own = row.is_none_or(|row| row.same_shape);
                ways[chip.get()].push(Way {
                    wanted,
                    stands_in: row.map(|row| row.kind),
                    is_own,
                    cost,
                    as_capital,
                    height,
                });
            }
        };
        for &chip in stash.carrying(character) {
            note(chip, None, 0);
        }
        for row in &stand_ins(character) {
            let Some(cost) = asking.cost(row) else { continue };
            for &chip in stash.carrying(&row.used) {
                if stash.chip(chip).can_stand_in(row) {
                    note(chip, Some(row), cost.tenths());
                }
            }
        }
    }
    let mut lots: Vec<Lot> = Vec::new();
    let mut found: HashMap<Vec<Way>, usize> = HashMap::new();
    for (chip, ways) in stash.chips().zip(ways) {
        let left = stash.chip(chip).on_hand().saturating_sub(spare(chip));
        if left == 0 || ways.is_empty() {
            continue;
        }
        let place = *found.entry(ways).or_insert_with_key(|ways| {
            lots.push(Lot { ways: ways.clone(), chips: Vec::new() });
            lots.len() - 1
        });
        lots[place].chips.push((chip, left));
    }
    lots
}
