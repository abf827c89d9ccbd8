//! `oddment restock`: which letters run out first, what a sheet seen in a shop would unlock, and what is left of spent sheets.
//!
//! Must not know how that is reckoned.

mod answer;

use std::process::ExitCode;

use anyhow::Result;

use crate::app::{Ahead, ahead_told};
use crate::files::{Problems, escaped};
use crate::title::Wording;

use super::args::Args;
use super::at_hand::AtHand;
use super::say::{answer, answer_json, warn};
use super::spell_args::Restock;

/// How far to look for the most wishes together, each time: about a second.
const STEPS: u64 = 1_000_000;

pub(super) fn run(args: &Args, asked: &Restock) -> Result<ExitCode> {
    let folder = args.folder()?;
    let hand = AtHand::open(args, &asked.letters)?;
    let (on_sale, problems) = folder.on_sale(&hand.loaded.colours);
    warn(&problems, &Problems::new())?;
    let wishes: Vec<Wording> = hand.loaded.wishes.iter().map(|wish| wish.wording.clone()).collect();
    let spare = |chip| hand.spared.times(chip);
    let ahead = Ahead::new(&hand.loaded.stash, hand.supply.asking(), spare, &wishes, on_sale, STEPS);
    if args.json {
        answer_json(&answer::of(&ahead))?;
    } else {
        answer(&ahead_told(&ahead).iter().map(|line| escaped(line) + "\n").collect::<String>())?;
    }
    Ok(ExitCode::from(if problems.has_errors() { 2 } else { 0 }))
}
