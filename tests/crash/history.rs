//! Any history of deeds, some of them stopped half way, against a plain count.
//!
//! Must not know how deeds are kept.

use std::collections::BTreeMap;
use std::io;

use oddment::stash::Kind;
use proptest::prelude::*;

use super::stage::{DAY, Stage, Stopper, deed};

const CHIPS: [&str; 5] = ["kelp/A", "kelp/L", "kelp/é", "oars/N", "oars/N:red"];

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn counts_are_those_of_a_plain_model(
        deeds in prop::collection::vec(
            (prop::sample::select(vec![Kind::Added, Kind::Counted]), 0..CHIPS.len(), -3..6_i32, prop::option::of(0..26_u32)),
            1..9,
        )
    ) {
        let stage = Stage::new();
        let mut model: BTreeMap<String, u16> = stage.seen().counts;
        for (kind, chip, count, stop) in deeds {
            let chip = CHIPS[chip];
            let count = if kind == Kind::Counted { count.abs() } else { count };
            let left = i32::from(model.get(chip).copied().unwrap_or(0));
            let after = if kind == Kind::Counted { count } else { left + count };
            {
                let (lock, _) = stage.start();
                let stash = stage.stash();
                let stash = match stop {
                    Some(steps) => stash.watched(Stopper::after(steps, io::ErrorKind::Other)),
                    None => stash,
                };
                let done = stash.record(&lock, deed(kind, &[(chip, count)]), DAY);
                prop_assert!(stop.is_some() || done.is_ok() == (after >= 0 && (count != 0 || kind == Kind::Counted)));
            }
            let seen = stage.seen().counts;
            let whole = u16::try_from(after).ok().map(|after| {
                let mut all = model.clone();
                all.insert(chip.into(), after);
                all
            });
            prop_assert!(seen == model || Some(&seen) == whole.as_ref(), "{:?}: {:?}", seen, model);
            if stop.is_none() && let Some(whole) = whole.filter(|_| count != 0 || kind == Kind::Counted) {
                prop_assert_eq!(&seen, &whole);
            }
            model = seen;
        }
    }
}
