//! `oddment suggest PLAN`: the best mix of letters, found within a time.
//!
//! The clock is here: a search counts steps. Must not know how a search goes or a check works.

mod answer;
mod apply;
mod judged;
mod words;

use std::process::ExitCode;
use std::time::{Duration, Instant};

use anyhow::Result;

use crate::suggest::{Outcome, Problem, Search};

use super::args::{Args, Suggest};
use super::opened::Opened;
use super::say::{answer_json, answer_words};

use judged::judged;

/// Steps between two looks at the clock.
const SLICE: u64 = 2_000;

pub(super) fn run(args: &Args, suggest: &Suggest) -> Result<ExitCode> {
    // Who is to write takes the right to it first, so that nobody saves while the search goes on.
    let (opened, writer) = if suggest.apply {
        let (opened, writer) = Opened::to_write(args, &suggest.plan)?;
        (opened, Some(writer))
    } else {
        (Opened::plan(args, &suggest.plan)?, None)
    };
    let only = suggest.strip.as_deref().map(|role| opened.strip_called(role)).transpose()?;
    let (outcome, took) = search(&opened, only, suggest);
    let mut answer = judged(&opened, only, &outcome, took);
    if let Some(_writer) = writer {
        answer.written = Some(apply::write(&opened, &outcome, &answer)?);
    }
    if args.json {
        answer_json(&answer)?;
    } else {
        answer_words(&words::of(&answer, suggest, opened.shelf.unit()))?;
    }
    Ok(ExitCode::from(u8::from(answer.is_no())))
}

/// Searches until all is proved or the time is up; the time counts what is asked of the checks beforehand.
fn search(opened: &Opened, only: Option<usize>, suggest: &Suggest) -> (Outcome, Duration) {
    let (plan, shelf) = (&opened.plan, &opened.shelf);
    let began = Instant::now();
    let problem = Problem::new(plan, &shelf.stash, &shelf.scene, only);
    let mut search = Search::new(problem, usize::from(suggest.count));
    while began.elapsed() < suggest.seconds && !search.run(SLICE) {}
    let took = began.elapsed();
    (search.outcome(), took)
}
