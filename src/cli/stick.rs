//! `oddment stick PLAN` and `oddment lift PLAN`: takes a plan's letters off the stash, and puts them back.
//!
//! Must not know how that is kept.

use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::checks::{judge, nothing_to_stick, obstacle};
use crate::files::{Lift, check_together};
use crate::plan::Plan;

use super::args::{Args, LiftArgs, Stick};
use super::opened::Opened;
use super::say::{Fault, answer_json, answer_words, refused};
use super::today::today;

#[derive(Serialize)]
struct Answer {
    format: u32,
    strips: Vec<StripAnswer>,
}

#[derive(Serialize)]
struct StripAnswer {
    role: String,
    /// How many letters went or came.
    letters: usize,
    /// The ledger entry that the strip is stuck down as of; null: it is not.
    stuck: Option<u32>,
}

pub(super) fn stick(args: &Args, stick: &Stick) -> Result<ExitCode> {
    let (opened, lock) = Opened::to_write(args, &stick.plan)?;
    let mut plan = opened.plan.clone();
    let mut places = places(&opened, stick.strip.as_deref())?;
    places.retain(|&place| to_stick(&plan, place) > 0 || plan.strips()[place].stuck.is_none());
    let verdict = judge(&plan, &opened.shelf.stash, &opened.shelf.scene);
    if let Some(why) = obstacle(&plan, &verdict, &places) {
        return no(&why);
    }
    if let Err(refusal) = check_together(&opened.shelf.stash, &plan, &places) {
        return no(&refusal.to_string());
    }
    let mut strips = Vec::new();
    for place in places {
        let letters = to_stick(&plan, place);
        let (file, names) = (&opened.file, &opened.shelf.names);
        match opened.folder.stick(&lock, (file, &plan, place), &today(), names) {
            Ok(Some(stuck)) => {
                plan = stuck;
                strips.push(told(&plan, place, letters));
            }
            Ok(None) => {}
            Err(error) => return refused(error),
        }
    }
    if strips.is_empty() {
        return no(nothing_to_stick(&plan));
    }
    say(args, strips, |_| "stuck down")
}

pub(super) fn lift(args: &Args, lift: &LiftArgs) -> Result<ExitCode> {
    let (opened, lock) = Opened::to_write(args, &lift.plan)?;
    let mut plan = opened.plan.clone();
    let slots: Vec<usize> = lift.slot.iter().map(|slot| usize::from(*slot) - 1).collect();
    if !slots.is_empty() && lift.strip.is_none() && plan.strips().len() > 1 {
        return Err(Fault::Input("name the strip of these slots with --strip ROLE".into()).into());
    }
    let mut strips = Vec::new();
    for place in places(&opened, lift.strip.as_deref())? {
        let how = match (slots.is_empty(), lift.torn) {
            (true, false) => Lift::All,
            (true, true) => {
                return Err(Fault::Input("--torn is said of slots; name them with --slot N".into()).into());
            }
            (false, false) => Lift::Whole(&slots),
            (false, true) => Lift::Torn(&slots),
        };
        let strip = &plan.strips()[place];
        let down = |slot: &usize| strip.is_down(*slot) && (slots.is_empty() || slots.contains(slot));
        let letters = (0..strip.len()).filter(down).count();
        let (file, names) = (&opened.file, &opened.shelf.names);
        match opened.folder.lift(&lock, (file, &plan, place), how, &today(), names) {
            Ok(Some(lifted)) => {
                plan = lifted;
                strips.push(told(&plan, place, letters));
            }
            Ok(None) => {}
            Err(error) => return refused(error),
        }
    }
    if strips.is_empty() {
        return no("nothing there is stuck down");
    }
    say(args, strips, |count| match (lift.torn, count) {
        (false, _) => "lifted",
        (true, 1) => "came off torn, and is spent",
        (true, _) => "came off torn, and are spent",
    })
}

/// The places of the strips that are meant: that of one role, or all.
fn places(opened: &Opened, role: Option<&str>) -> Result<Vec<usize>> {
    match role {
        Some(role) => Ok(vec![opened.strip_called(role)?]),
        None => Ok((0..opened.plan.strips().len()).collect()),
    }
}

fn to_stick(plan: &Plan, place: usize) -> usize {
    let strip = &plan.strips()[place];
    (0..strip.len()).filter(|&slot| strip.letter(slot).is_some() && !strip.is_down(slot)).count()
}

fn told(plan: &Plan, place: usize, letters: usize) -> StripAnswer {
    let strip = &plan.strips()[place];
    StripAnswer { role: strip.role().to_string(), letters, stuck: strip.stuck }
}

/// The answer is no.
fn no(why: &str) -> Result<ExitCode> {
    super::say::say_beside(why)?;
    Ok(ExitCode::from(1))
}

fn say(args: &Args, strips: Vec<StripAnswer>, done: impl Fn(usize) -> &'static str) -> Result<ExitCode> {
    if args.json {
        answer_json(&Answer { format: 1, strips })?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut text = String::new();
    for strip in strips {
        let letters = if strip.letters == 1 { "letter" } else { "letters" };
        let entry = strip
            .stuck
            .filter(|entry| *entry > 0)
            .map_or_else(String::new, |entry| format!(" (entry {entry} of the ledger)"));
        let _ = writeln!(text, "{}: {} {letters} {}{entry}", strip.role, strip.letters, done(strip.letters));
    }
    answer_words(&text)?;
    Ok(ExitCode::SUCCESS)
}
