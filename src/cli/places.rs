//! `oddment places PLAN`: where on the page a strip rests best.
//!
//! The clock is here: a search counts steps. Must not know how a place is judged.

use std::fmt::Write;
use std::process::ExitCode;
use std::time::Instant;

use anyhow::Result;
use serde::Serialize;

use crate::checks::{resting, tell_length, tell_touch};
use crate::measure::Points;
use crate::page::Rest;
use crate::title::{Edit, Place};

use super::args::{Args, Places};
use super::opened::Opened;
use super::say::{Fault, answer_json, answer_words};

/// Steps between two looks at the clock.
const SLICE: u32 = 20;

#[derive(Serialize)]
struct Answer {
    format: u32,
    strip: String,
    places: Vec<PlaceAnswer>,
    /// Whether all of the page was gone through; else the places are the best so far.
    finished: bool,
}

#[derive(Serialize)]
struct PlaceAnswer {
    /// From the page's left and top edge in mm.
    at: [f64; 2],
    /// In degrees, clockwise positive.
    turn: f64,
    score: Points,
    touches: Vec<String>,
    trapped_mm2: u32,
}

pub(super) fn run(args: &Args, places: &Places) -> Result<ExitCode> {
    let (opened, writer) = if places.apply {
        let (opened, writer) = Opened::to_write(args, &places.plan)?;
        (opened, Some(writer))
    } else {
        (Opened::plan(args, &places.plan)?, None)
    };
    let strip = places.strip.as_deref().map_or(Ok(0), |role| opened.strip_called(role))?;
    let (found, finished) = search(&opened, strip, places)?;
    let told = |rest: &Rest| PlaceAnswer {
        at: [rest.at.x.mm(), rest.at.y.mm()],
        turn: rest.turn.degrees(),
        score: rest.points,
        touches: rest.touches.iter().map(|touch| tell_touch(&opened.plan, touch)).collect(),
        trapped_mm2: rest.trapped,
    };
    let answer = Answer {
        format: 1,
        strip: opened.plan.strips()[strip].role().to_string(),
        places: found.iter().map(told).collect(),
        finished,
    };
    if let (Some(_writer), Some(first)) = (writer, found.first()) {
        write(&opened, strip, first)?;
    }
    if args.json {
        answer_json(&answer)?;
    } else {
        answer_words(&in_words(&answer, &found, places.apply, opened.shelf.unit()))?;
    }
    Ok(ExitCode::from(u8::from(found.is_empty())))
}

/// Searches until all of the page was gone through or the time is up.
fn search(opened: &Opened, strip: usize, places: &Places) -> Result<(Vec<Rest>, bool)> {
    let Opened { plan, shelf, .. } = opened;
    let (role, count) = (plan.strips()[strip].role(), usize::from(places.count));
    if plan.page.size.is_none() {
        let text = "the page has no size yet; give the plan one, such as size = \"12 x 12 in\"";
        return Err(Fault::Input(text.into()).into());
    }
    if plan.strips()[strip].stuck.is_some() {
        return Err(Fault::Input(format!("the {role} is stuck down; lift it before it is moved")).into());
    }
    if plan.strips()[strip].letters().iter().all(Option::is_none) {
        return Err(Fault::Input(format!("no letter stands on the {role} yet; suggest some first")).into());
    }
    let began = Instant::now();
    let Some(mut search) = resting(plan, strip, &shelf.stash, &shelf.scene, count) else {
        return Ok((Vec::new(), true));
    };
    let mut finished = false;
    while !finished && began.elapsed() < places.seconds {
        finished = search.run(SLICE);
    }
    Ok((search.places(), finished))
}

/// Writes a place into the plan.
fn write(opened: &Opened, strip: usize, rest: &Rest) -> Result<()> {
    let mut plan = opened.plan.clone();
    plan.edit_strip(strip, Edit::Place(Place { at: Some(rest.at), turn: rest.turn }));
    if plan != opened.plan {
        opened.folder.save_plan(&opened.file, &plan, &opened.shelf.names)?;
    }
    Ok(())
}

fn in_words(answer: &Answer, found: &[Rest], written: bool, unit: crate::measure::Unit) -> String {
    let mut text = String::new();
    if found.is_empty() && answer.finished {
        let _ = writeln!(text, "the {} finds no room on the page as it is turned", answer.strip);
    }
    for (number, (rest, told)) in (1..).zip(found.iter().zip(&answer.places)) {
        let turn = if told.turn == 0.0 { String::new() } else { format!(", turned by {}", rest.turn) };
        let (x, y) = (tell_length(rest.at.x, unit), tell_length(rest.at.y, unit));
        let touches =
            if told.touches.is_empty() { "touches nothing".into() } else { told.touches.join(", ") };
        let _ = writeln!(
            text,
            "{number}. feet {x} from the left and {y} from the top edge{turn}: {}, {} mm2 trapped; {touches}",
            told.score, told.trapped_mm2
        );
    }
    if !answer.finished {
        let so_far = if found.is_empty() { "no place is found yet" } else { "these are the best so far" };
        let _ = writeln!(text, "the time is up: {so_far}");
    }
    if written && !found.is_empty() {
        text += "the first is written into the plan\n";
    }
    text
}
