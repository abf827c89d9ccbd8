//! `oddment restock`: which letters run out first, what a sheet seen in a shop would unlock, and what is left of spent sheets.
//!
//! Must not know how that is reckoned.

mod answer;
mod words;

use std::process::ExitCode;

use anyhow::Result;

use crate::files::Problems;
use crate::stash::Sheet;
use crate::supply::{Leftover, NEARLY_SPENT, Running, Shop, Unlocks, WordList, leftovers};
use crate::title::Wording;

use super::args::Args;
use super::at_hand::AtHand;
use super::say::{answer, answer_json, warn};
use super::spell_args::Restock;

/// How far to look for the most wishes together, each time: about a second.
const STEPS: u64 = 1_000_000;

/// All that is to be told.
struct Ahead<'a> {
    hand: &'a AtHand,
    wishes: &'a [Wording],
    running: Running,
    shop: Shop<'a>,
    on_sale: Vec<(Sheet, Unlocks)>,
    leftovers: Vec<Leftover>,
}

pub(super) fn run(args: &Args, asked: &Restock) -> Result<ExitCode> {
    let folder = args.folder()?;
    let hand = AtHand::open(args, &asked.letters)?;
    let (on_sale, problems) = folder.on_sale(&hand.loaded.colours);
    warn(&problems, &Problems::new())?;
    let wishes: Vec<Wording> = hand.loaded.wishes.iter().map(|wish| wish.wording.clone()).collect();
    let (stash, asking) = (&hand.loaded.stash, hand.supply.asking());
    let spare = |chip| hand.spared.times(chip);
    let shop = Shop::new(stash, asking.clone(), spare, &wishes, STEPS);
    let on_sale = on_sale.into_iter().map(|sheet| {
        let unlocks = shop.unlocks(&sheet);
        (sheet, unlocks)
    });
    let on_sale = on_sale.collect();
    let english = WordList::english();
    let leftovers = leftovers(stash, asking, NEARLY_SPENT, english.words(), &wishes);
    let running = Running::new(stash, spare);
    let ahead = Ahead { hand: &hand, wishes: &wishes, running, shop, on_sale, leftovers };
    if args.json {
        answer_json(&answer::of(&ahead))?;
    } else {
        answer(&words::of(&ahead))?;
    }
    Ok(ExitCode::from(if problems.has_errors() { 2 } else { 0 }))
}
