//! `oddment ideas [BESIDE]`: words that can be spelled now.
//!
//! Must not know how they are looked for.

use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::letter::{Character, characters};
use crate::supply::{Demand, Idea, IdeaRules, Ideas, WordList};
use crate::title::Wording;

use super::args::Args;
use super::at_hand::{AtHand, wording};
use super::list::List;
use super::say::{Fault, Lines, say_beside, so_many};
use super::spell::{OneLine, Spelled, line};
use super::spell_args::Ideas as Asked;

/// Words that are looked at before what was found is printed.
const SLICE: usize = 1_000;

#[derive(Serialize)]
struct Answer<'a> {
    #[serde(flatten)]
    spelled: Spelled<'a>,
    /// How many of its letters are few.
    scarce: u32,
}

pub(super) fn run(args: &Args, asked: &Asked) -> Result<ExitCode> {
    let beside = asked.beside.as_deref().map(wording).transpose()?;
    let rules = rules(asked)?;
    let own = asked.list.as_deref().map(|file| List::open(file)?.rest()).transpose()?;
    let list = match own {
        Some(text) => WordList::from_text(text),
        None => own_first(args.folder()?.own_words()?),
    };
    if list.is_empty() {
        say_beside("the list holds no word; there is nothing to look through")?;
        return Ok(ExitCode::from(1));
    }
    let hand = AtHand::open(args, &asked.letters)?;
    let beside = beside.map_or_else(Demand::default, |beside| hand.supply.demand(&beside));
    let most = usize::try_from(asked.count).unwrap_or(usize::MAX);
    let mut search = Ideas::new(rules, beside.clone());
    let (mut lines, mut told, mut ended) = (Lines::new(), 0, false);
    while !ended && told < most && !lines.is_closed() {
        ended = search.run(&hand.supply, &list, SLICE);
        for idea in search.found().iter().take(most).skip(told) {
            tell(idea, &beside, &hand, args.json, &mut lines)?;
        }
        told = search.found().len().min(most);
        lines.flush()?;
    }
    if told == 0 {
        let looked_at = u32::try_from(search.looked_at()).unwrap_or(u32::MAX);
        say_beside(&format!("nothing is found; {} looked at", so_many(looked_at, "word")))?;
    }
    Ok(ExitCode::from(u8::from(told == 0)))
}

/// The words of the user's own, if there are any, and then the English ones.
fn own_first(own: Option<String>) -> WordList<'static> {
    own.map_or_else(WordList::english, |own| WordList::english().after(&own))
}

fn rules(asked: &Asked) -> Result<IdeaRules> {
    let with = characters(asked.with.as_deref().unwrap_or_default())
        .filter(|text| !text.trim().is_empty())
        .map(Character::new);
    let with = with.collect::<Result<_, _>>().map_err(|error| Fault::Input(format!("--with: {error}")))?;
    let (least, most) = asked.length;
    Ok(IdeaRules { least, most, with, scarce: asked.scarce, stand_ins: asked.stand_ins })
}

fn tell(idea: &Idea, beside: &Demand, hand: &AtHand, json: bool, lines: &mut Lines) -> Result<()> {
    let mut demand = hand.supply.demand(&Wording::new(&idea.text)?);
    demand.add(beside);
    let answer = hand.supply.answer_within(&demand, idea.place);
    if json {
        let spelled = Spelled::of(&idea.text, &answer, hand);
        return lines.object(&OneLine::new(Answer { spelled, scarce: idea.scarce }));
    }
    let scarce = if idea.scarce == 0 { String::new() } else { format!("; {} scarce", idea.scarce) };
    lines.line(&(line(&idea.text, &answer, hand) + &scarce))
}
