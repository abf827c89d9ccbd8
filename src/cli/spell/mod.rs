//! `oddment spell [WORDING ...]`: whether wordings can be spelled with what is left.
//!
//! Must not know how a wording is judged.

mod answer;
mod words;

use std::process::ExitCode;

use anyhow::Result;

use crate::supply::Verdict;
use crate::title::Wording;

use super::args::Args;
use super::at_hand::{AtHand, wording};
use super::list::List;
use super::say::{Fault, Lines, say_beside};
use super::spell_args::Spell;

pub(super) use answer::{Lacking, OneLine, Spelled};
pub(super) use words::{line, on_one_line};

/// What came of the wordings so far.
#[derive(Debug, Default)]
struct Tally {
    told: usize,
    short: bool,
    /// A line of the list is no wording.
    bad: bool,
}

pub(super) fn run(args: &Args, spell: &Spell) -> Result<ExitCode> {
    // Whatever is wrong with the arguments is told before anything is answered.
    let given: Vec<Wording> = spell.wordings.iter().map(|text| wording(text)).collect::<Result<_, _>>()?;
    let mut list = spell.list.as_deref().map(List::open).transpose()?;
    let hand = AtHand::open(args, &spell.letters)?;
    let mut telling = Telling { hand: &hand, json: args.json, explain: spell.explain, lines: Lines::new() };
    let mut tally = Tally::default();
    for wording in &given {
        telling.tell(wording, &mut tally)?;
    }
    if let Some(list) = &mut list {
        // What was told before a list breaks off is told all the same.
        let ended = telling.tell_all(list, &mut tally);
        telling.lines.flush()?;
        ended?;
        if tally.told == 0 && !tally.bad {
            say_beside(&format!("{} holds no wording; there is nothing to spell", list.called()))?;
            return Ok(ExitCode::from(1));
        }
    }
    telling.lines.flush()?;
    Ok(ExitCode::from(if tally.bad { 2 } else { u8::from(tally.short) }))
}

/// One wording after the other, told in the form that is asked for.
struct Telling<'a> {
    hand: &'a AtHand,
    json: bool,
    explain: bool,
    lines: Lines,
}

impl Telling<'_> {
    fn tell(&mut self, wording: &Wording, tally: &mut Tally) -> Result<()> {
        let supply = &self.hand.supply;
        let demand = supply.demand(wording);
        let answer = supply.answer(&demand);
        tally.told += 1;
        tally.short |= answer.verdict == Verdict::Short;
        if !self.explain {
            return if self.json {
                self.lines.object(&OneLine::new(Spelled::of(wording.text(), &answer, self.hand)))
            } else {
                self.lines.line(&line(wording.text(), &answer, self.hand))
            };
        }
        let is_spelled = matches!(answer.verdict, Verdict::Now | Verdict::StandIns);
        let nearest = (!is_spelled).then(|| supply.nearest(&demand));
        if self.json {
            let spelled = Spelled::explained(wording.text(), &answer, nearest.as_ref(), self.hand);
            return self.lines.object(&OneLine::new(spelled));
        }
        let told = words::explained(wording.text(), (&answer, nearest.as_ref()), &demand, self.hand);
        told.iter().try_for_each(|line| self.lines.line(line))
    }

    /// Tells each wording of a list; a line that is none is told of beside it.
    fn tell_all(&mut self, list: &mut List, tally: &mut Tally) -> Result<()> {
        while let Some(line) = list.next_line()? {
            match wording(line) {
                Ok(wording) => self.tell(&wording, tally)?,
                Err(Fault::Input(said)) => {
                    self.lines.flush()?;
                    say_beside(&list.at(&said).to_string())?;
                    tally.bad = true;
                }
                Err(other) => return Err(other.into()),
            }
            if self.lines.is_closed() {
                break;
            }
        }
        Ok(())
    }
}
