//! The stash as commands ask it what it can spell.
//!
//! Must not know what is asked.

use anyhow::Result;

use crate::app::asking_of;
use crate::files::{Loaded, Problems};
use crate::plan::Spoken;
use crate::supply::{Asking, Supply};
use crate::title::Wording;

use super::args::Args;
use super::say::{Fault, say_beside, warn};
use super::spell_args::LettersAsked;

/// The letters at hand.
#[derive(Debug)]
pub(super) struct AtHand {
    pub(super) loaded: Loaded,
    pub(super) supply: Supply,
    /// What is left alone because page plans speak for it.
    pub(super) spared: Spoken,
}

impl AtHand {
    /// Opens the stash; what is wrong in its files is told on the way.
    pub(super) fn open(args: &Args, letters: &LettersAsked) -> Result<Self> {
        Self::of(args.folder()?.load()?, letters)
    }

    /// The letters of a stash that is open.
    pub(super) fn of(loaded: Loaded, letters: &LettersAsked) -> Result<Self> {
        warn(&loaded.problems, &Problems::new())?;
        if loaded.stash.sheets().is_empty() && !loaded.problems.has_errors() {
            say_beside(
                "no sheets yet; count one in (`oddment`, then 3 and a) or write one, as oddment-files(5) tells, or try `oddment --sample`",
            )?;
        }
        let asking = asking(&loaded, letters);
        let mut spared = Spoken::default();
        if letters.spare_plans {
            let plans = loaded.plans.iter().filter_map(|entry| entry.plan.as_ref());
            plans.for_each(|plan| spared.add(plan, &loaded.stash));
        }
        let supply = Supply::new(&loaded.stash, asking, |chip| spared.times(chip));
        Ok(Self { loaded, supply, spared })
    }
}

fn asking(loaded: &Loaded, letters: &LettersAsked) -> Asking {
    let &LettersAsked { case, forms, tall, .. } = letters;
    Asking { case, forms, tall, ..asking_of(&loaded.taste) }
}

/// Reads a wording as an argument, or a line of a list, has it.
pub(super) fn wording(text: &str) -> Result<Wording, Fault> {
    let wording = Wording::new(&text.replace('|', "\n")).map_err(|error| Fault::Input(error.to_string()))?;
    if wording.is_empty() {
        return Err(Fault::Input("it says nothing; write what is to be spelled".into()));
    }
    Ok(wording)
}
