//! What a sheet seen in a shop would unlock among the wishes.
//!
//! Exact, for the stash and the sheet together are asked afresh; only how many wishes can be made together is told from least to
//! most where the steps do not suffice. Must not know what it costs.

use crate::stash::{ChipIx, Sheet, Stash};
use crate::supply::look::Wanted;
use crate::supply::{Asking, Demand, Short, Supply, Together, Verdict};
use crate::title::Wording;

/// The wishes as they stand with the stash alone; sheets are held against that.
#[derive(Debug)]
pub struct Shop<'a> {
    stash: &'a Stash,
    /// How many of each chip are kept for something else.
    spare: Vec<u16>,
    asking: Asking,
    wishes: &'a [Wording],
    steps: u64,
    before: Standing,
}

/// How wishes stand.
#[derive(Debug)]
struct Standing {
    verdicts: Vec<Verdict>,
    /// What each is short of.
    short: Vec<Vec<Short>>,
    together: Count,
}

/// How many wishes can be made together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Count {
    /// So many were found.
    pub made: usize,
    /// No more than so many; more than were found only where the steps did not suffice.
    pub most: usize,
}

/// What a sheet would unlock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unlocks {
    /// Wishes that stand better with it.
    pub better: Vec<Better>,
    /// Wishes that are short without it and with it.
    pub still_short: Vec<StillShort>,
    /// How many can be made together with it.
    pub together: Count,
}

/// A wish that stands better with a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Better {
    /// Its place among the wishes.
    pub wish: usize,
    /// Without the sheet.
    pub without: Verdict,
    /// With it.
    pub with: Verdict,
}

/// A wish that stays short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StillShort {
    /// Its place among the wishes.
    pub wish: usize,
    /// What it is short of without the sheet, and not with it.
    pub cured: Vec<Short>,
    /// What it is short of all the same.
    pub short: Vec<Short>,
}

impl<'a> Shop<'a> {
    /// How `wishes` stand with `stash` alone, of which `spare` says how many of a chip are kept for something else; `steps` is how
    /// far to look for the most wishes together, each time.
    #[must_use]
    pub fn new(
        stash: &'a Stash,
        asking: Asking,
        spare: impl Fn(ChipIx) -> u16,
        wishes: &'a [Wording],
        steps: u64,
    ) -> Self {
        let spare: Vec<u16> = stash.chips().map(spare).collect();
        let supply = Supply::new(stash, asking.clone(), |chip| spare[chip.get()]);
        let before = Standing::new(&supply, wishes, steps);
        Self { stash, spare, asking, wishes, steps, before }
    }

    /// How many can be made together with the stash alone.
    #[must_use]
    pub const fn together(&self) -> Count {
        self.before.together
    }

    /// How each wish stands with the stash alone.
    #[must_use]
    pub fn verdicts(&self) -> &[Verdict] {
        &self.before.verdicts
    }

    /// What `sheet` would unlock if it were in the stash, its counts as they are.
    #[must_use]
    pub fn unlocks(&self, sheet: &Sheet) -> Unlocks {
        let supply = self.supply_with(sheet);
        let with = Standing::new(&supply, self.wishes, self.steps);
        let mut unlocks = Unlocks { better: Vec::new(), still_short: Vec::new(), together: with.together };
        for (wish, short) in with.short.into_iter().enumerate() {
            let (without, with) = (self.before.verdicts[wish], with.verdicts[wish]);
            if with < without {
                unlocks.better.push(Better { wish, without, with });
            } else if with == Verdict::Short {
                let cured = cured(&self.before.short[wish], &short);
                unlocks.still_short.push(StillShort { wish, cured, short });
            }
        }
        // What can be made with the stash alone can be made still, however far the search came.
        unlocks.together.made = unlocks.together.made.max(self.before.together.made);
        unlocks
    }

    /// The stash with `sheet` in it.
    fn supply_with(&self, sheet: &Sheet) -> Supply {
        let mut sheets = self.stash.sheets().to_vec();
        let place = sheets.partition_point(|one| one.id <= sheet.id);
        let first: usize = sheets[..place].iter().map(|one| one.letters.len()).sum();
        sheets.insert(place, sheet.clone());
        let both = Stash::new(sheets);
        let last = first + sheet.letters.len();
        let spare = |chip: ChipIx| match chip.get() {
            at if at < first => self.spare[at],
            at if at < last => 0,
            at => self.spare[at - sheet.letters.len()],
        };
        Supply::new(&both, self.asking.clone(), spare)
    }
}

impl Standing {
    fn new(supply: &Supply, wishes: &[Wording], steps: u64) -> Self {
        let demands: Vec<Demand> = wishes.iter().map(|wish| supply.demand(wish)).collect();
        let mut wanted = Wanted::default();
        let verdicts: Vec<Verdict> =
            demands.iter().map(|demand| supply.judge(demand, &mut wanted).0).collect();
        let short = |(demand, verdict): (&Demand, &Verdict)| match verdict {
            Verdict::Short => supply.answer(demand).short,
            _ => Vec::new(),
        };
        let short = demands.iter().zip(&verdicts).map(short).collect();
        let mut together = Together::new(supply, &demands, &[]);
        together.advance(steps);
        let together = Count { made: together.best().len(), most: together.bound() };
        Self { verdicts, short, together }
    }
}

/// What is short before and not after. Which letters of a chain are short is told one way or another; no more are told to be cured
/// than fewer are short in all.
fn cured(before: &[Short], after: &[Short]) -> Vec<Short> {
    let count = |short: &[Short]| short.iter().map(|one| one.letters).sum::<u32>();
    let mut fewer = count(before).saturating_sub(count(after));
    let mut cured = Vec::new();
    for one in before {
        let still =
            after.iter().find(|short| short.character == one.character).map_or(0, |short| short.letters);
        let letters = one.letters.saturating_sub(still).min(fewer);
        fewer -= letters;
        if letters > 0 {
            cured.push(Short { character: one.character.clone(), letters });
        }
    }
    cured
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::super::tests::{asking, sheet};
    use super::*;

    #[test]
    fn a_sheet_unlocks_what_it_completes_and_cures_a_part_of_the_rest() {
        let stash = Stash::new(vec![sheet("kelp", "QUAAY"), sheet("sea", "TIDE")]);
        let wishes = ["QUAY", "TIDES", "PIER TO PIER", "TIDE"].map(|text| Wording::new(text).unwrap());
        let shop = Shop::new(&stash, asking(), |_| 0, &wishes, 10_000);
        assert_eq!(shop.verdicts(), [Verdict::Now, Verdict::Short, Verdict::Short, Verdict::Now]);
        assert_eq!(shop.together(), Count { made: 2, most: 2 });
        let unlocks = shop.unlocks(&sheet("net", "SSPPEI"));
        assert_eq!(unlocks.better, [Better { wish: 1, without: Verdict::Short, with: Verdict::Now }]);
        let told = |short: &[Short]| {
            short.iter().map(|one| format!("{}{}", one.letters, one.character)).collect::<Vec<_>>().concat()
        };
        let still = &unlocks.still_short[0];
        // The O is a trimmed Q.
        assert_eq!((still.wish, told(&still.cured), told(&still.short)), (2, "1E1I2P".into(), "2R".into()));
        assert_eq!(unlocks.together, Count { made: 2, most: 2 }, "there is one T for TIDE and TIDES");
    }

    #[test]
    fn what_is_kept_stays_kept_wherever_the_new_sheet_lies() {
        let stash = Stash::new(vec![sheet("kelp", "A"), sheet("sea", "B")]);
        let wishes = ["AB"].map(|text| Wording::new(text).unwrap());
        let keep = |chip: ChipIx| u16::from(chip.get() == 1);
        let shop = Shop::new(&stash, asking(), keep, &wishes, 10_000);
        for id in ["a", "net", "tide"] {
            assert!(shop.unlocks(&sheet(id, "C")).better.is_empty());
            assert_eq!(shop.unlocks(&sheet(id, "B")).better.len(), 1);
        }
    }
}
