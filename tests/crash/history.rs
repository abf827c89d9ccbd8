//! Any history of deeds, some of them stopped half way, against a plain model: numbers in a table, and letters in slots.
//!
//! Must not know how deeds are kept.

use std::collections::BTreeMap;
use std::io;

use oddment::files::{Lift, RecordError, StashFolder, StashLock};
use oddment::measure::Length;
use oddment::stash::{ChipId, Kind};
use oddment::title::{ByHand, Edit, Sticker, Stood};
use proptest::prelude::*;

use super::stage::{DAY, Seen, Stage, Stopper, deed};

const CHIPS: [&str; 5] = ["kelp/A", "kelp/L", "kelp/é", "oars/N", "oars/N:red"];

/// The chips of the page's slots.
const SLOTS: [&str; 4] = ["kelp/L", "kelp/A", "oars/N:red", "kelp/A"];

/// Something that its owner does.
#[derive(Debug, Clone, Copy)]
enum Act {
    Added(&'static str, i32),
    Counted(&'static str, i32),
    Stick,
    LiftAll,
    LiftOne(usize),
    Tear(usize),
    /// Stands a letter in every slot that is empty, and saves the plan.
    Fill,
    /// The same with buttons, which are no stickers.
    FillByHand,
}

/// The model: how many are left, and what stands in each slot.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Model {
    left: BTreeMap<String, i32>,
    slots: [Option<Thing>; 4],
}

/// What stands in a slot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Thing {
    is_letter: bool,
    is_down: bool,
}

impl Model {
    /// What the program shows, in the model's words. A chip that no file names has none left.
    fn of(seen: &Seen) -> Self {
        let mut left: BTreeMap<String, i32> = CHIPS.iter().map(|chip| ((*chip).to_owned(), 0)).collect();
        left.extend(seen.counts.iter().map(|(chip, left)| (chip.clone(), i32::from(*left))));
        let strip = &seen.plan.as_ref().unwrap().strips()[0];
        let slots = [0, 1, 2, 3].map(|slot| {
            let chip = strip.letter(slot)?.chip();
            assert!(chip.is_none_or(|chip| chip.to_string() == SLOTS[slot]), "slot {slot}: {chip:?}");
            Some(Thing { is_letter: chip.is_some(), is_down: strip.is_down(slot) })
        });
        Self { left, slots }
    }

    /// After `act`, which is whole or refused; `None`: it is refused, or there is nothing to do.
    fn after(&self, act: Act) -> Option<Self> {
        let mut new = self.clone();
        let down = |slot: usize| self.slots[slot].is_some_and(|thing| thing.is_down);
        let fill = |is_letter| self.slots.map(|slot| slot.or(Some(Thing { is_letter, is_down: false })));
        match act {
            Act::Added(chip, count) => *new.left.get_mut(chip)? += count,
            Act::Counted(chip, count) => *new.left.get_mut(chip)? = count,
            Act::Stick => (0..4).for_each(|slot| new.put(slot, true)),
            Act::LiftAll => (0..4).for_each(|slot| new.put(slot, false)),
            Act::LiftOne(slot) if down(slot) => {
                new.put(slot, false);
                new.slots[slot] = None;
            }
            Act::Tear(slot) if down(slot) => new.slots[slot] = None,
            Act::LiftOne(_) | Act::Tear(_) => {}
            Act::Fill => new.slots = fill(true),
            Act::FillByHand => new.slots = fill(false),
        }
        (new != *self && new.left.values().all(|left| (0..=999).contains(left))).then_some(new)
    }
}

impl Model {
    /// Puts what stands in a slot on the page, or takes it off; a letter goes from the stash, or comes back.
    fn put(&mut self, slot: usize, down: bool) {
        if let Some(thing) = self.slots[slot].as_mut().filter(|thing| thing.is_down != down) {
            thing.is_down = down;
            if thing.is_letter {
                *self.left.get_mut(SLOTS[slot]).unwrap() += if down { -1 } else { 1 };
            }
        }
    }
}

/// Does it; whether anything was done.
fn done(act: Act, stash: &StashFolder, lock: &StashLock) -> Result<bool, RecordError> {
    let loaded = stash.load()?;
    let file = stash.find_plan("walk")?;
    let mut plan = stash.open_plan(&file, &loaded.colours, &loaded.stash)?.plan;
    let names = &loaded.colours;
    let lift = |how| stash.lift(lock, (&file, &plan, 0), how, DAY, names).map(|plan| plan.is_some());
    match act {
        Act::Added(chip, count) => stash.record(lock, deed(Kind::Added, &[(chip, count)]), DAY).map(|_| true),
        Act::Counted(chip, count) => {
            stash.record(lock, deed(Kind::Counted, &[(chip, count)]), DAY).map(|_| true)
        }
        Act::Stick => stash.stick(lock, (&file, &plan, 0), DAY, names).map(|plan| plan.is_some()),
        Act::LiftAll => lift(Lift::All),
        Act::LiftOne(slot) => lift(Lift::Whole(&[slot])),
        Act::Tear(slot) => lift(Lift::Torn(&[slot])),
        Act::Fill | Act::FillByHand => {
            let strip = plan.strips()[0].clone();
            for slot in strip.empty_slots() {
                let id = ChipId::parse(SLOTS[slot]).unwrap();
                let letter = Sticker::Chip { id, stands_in: None };
                let stood = Stood::straight(if matches!(act, Act::Fill) { letter } else { button() });
                let stood = Some(Stood { loose: strip.stuck.is_some(), ..stood });
                plan.edit_strip(0, Edit::Letter { slot, stood });
            }
            stash.save_plan(&file, &plan, names)?;
            Ok(true)
        }
    }
}

fn button() -> Sticker {
    Sticker::Hand(ByHand { label: "button".into(), width: Length::from_mm(8), height: None, colour: None })
}

fn any_act() -> impl Strategy<Value = Act> {
    let chip = || prop::sample::select(CHIPS.to_vec());
    prop_oneof![
        2 => (chip(), prop::sample::select(vec![-3, -2, -1, 1, 2, 5, 998])).prop_map(|(chip, count)| Act::Added(chip, count)),
        1 => (chip(), 0..5_i32).prop_map(|(chip, count)| Act::Counted(chip, count)),
        4 => Just(Act::Stick),
        2 => Just(Act::LiftAll),
        2 => (0..4_usize).prop_map(Act::LiftOne),
        2 => (0..4_usize).prop_map(Act::Tear),
        3 => Just(Act::Fill),
        1 => Just(Act::FillByHand),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_stash_is_that_of_a_plain_model(
        acts in prop::collection::vec((any_act(), prop::option::weighted(0.4, 0..26_u32)), 1..14)
    ) {
        let stage = Stage::new();
        let mut model = Model::of(&stage.seen());
        for (act, stop) in acts {
            let whole = model.after(act);
            let told = {
                let (lock, _) = stage.start();
                let stash = match stop {
                    Some(steps) => stage.stash().watched(Stopper::after(steps, io::ErrorKind::Other)),
                    None => stage.stash(),
                };
                done(act, &stash, &lock)
            };
            let seen = Model::of(&stage.seen());
            match (stop, whole) {
                // Stopped half way it is done or not, and never said to be done where it is not.
                (Some(_), Some(whole)) if told.is_err() => {
                    prop_assert!(seen == model || seen == whole, "{:?}: {:?}, it was {:?}", act, seen, model);
                }
                (_, Some(whole)) => prop_assert_eq!(&seen, &whole, "{:?}: {:?}", act, told),
                // The same count again, or no letter to stand, is done and seen nowhere.
                (_, None) => prop_assert_eq!(&seen, &model, "{:?}: {:?}", act, told),
            }
            model = seen;
        }
    }
}
