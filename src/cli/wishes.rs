//! `oddment wishes`: which of the titles wished for can be spelled with what is left, and which together.
//!
//! The clock is here: a search counts steps. Must not know how a wording is judged, nor how the list is kept.

use std::process::ExitCode;
use std::time::{Duration, Instant};

use anyhow::Result;
use serde::Serialize;

use crate::files::escaped;
use crate::supply::{Answer, Demand, Sharing, Together, Verdict};
use crate::title::Wish;

use super::args::Args;
use super::at_hand::{AtHand, wording};
use super::opened::writer;
use super::say::{Fault, answer, answer_json, say_beside};
use super::spell::{Spelled, line, on_one_line};
use super::spell_args::Wishes;

/// Steps between two looks at the clock.
const SLICE: u64 = 10_000;

#[derive(Serialize)]
struct Told<'a> {
    format: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    added: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    dropped: Option<&'a str>,
    wishes: Vec<WishTold<'a>>,
    /// Wordings that can be made at once.
    together: Vec<&'a str>,
    /// What each of these takes then.
    made: Vec<Spelled<'a>>,
    /// No more of them than this can be.
    most: usize,
    /// Whether `together` is that many.
    proven: bool,
    /// Of those that must be, the ones that cannot.
    refused: Vec<&'a str>,
}

#[derive(Serialize)]
struct WishTold<'a> {
    #[serde(flatten)]
    spelled: Spelled<'a>,
    note: Option<&'a str>,
}

/// What each wish that is made takes, by its place.
type Shared = Vec<(usize, Answer)>;

/// A change to the list that was made.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Change {
    Added(String),
    Dropped(String),
}

pub(super) fn run(args: &Args, asked: &Wishes) -> Result<ExitCode> {
    let change = change(args, asked)?;
    let hand = AtHand::open(args, &asked.letters)?;
    let must = asked.must.iter().map(|text| place(text, &hand.loaded.wishes)).collect::<Result<Vec<_>>>()?;
    let demands: Vec<Demand> =
        hand.loaded.wishes.iter().map(|wish| hand.supply.demand(&wish.wording)).collect();
    let answers: Vec<Answer> = demands.iter().map(|demand| hand.supply.answer(demand)).collect();
    let (together, shared) = search(&hand, &demands, &must, asked.seconds);
    if args.json {
        answer_json(&in_json(&hand, change.as_ref(), &answers, (&together, &shared)))?;
    } else {
        answer(&in_words(&hand, change.as_ref(), &answers, (&together, &shared)))?;
        if answers.is_empty() && change.is_none() {
            say_beside("nothing is wished for yet; `oddment wishes --add WORDING` does so")?;
        }
    }
    let is_short = answers.iter().any(|answer| answer.verdict == Verdict::Short);
    let is_no = answers.is_empty() || is_short || !together.refused().is_empty();
    Ok(ExitCode::from(u8::from(is_no && change.is_none())))
}

/// Changes the list where that is asked for.
fn change(args: &Args, asked: &Wishes) -> Result<Option<Change>> {
    let folder = args.folder()?;
    if let Some(text) = &asked.add {
        let wording = wording(text)?;
        if let Some(note) = asked.note.as_deref().filter(|note| note.chars().any(char::is_control)) {
            let said = format!("--note: {note:?} holds a control character; write a line of text");
            return Err(Fault::Input(said).into());
        }
        let (lock, _) = writer(&folder)?;
        let added = Change::Added(wording.text().to_owned());
        folder.add_wish(&lock, &Wish { wording, note: asked.note.clone() })?;
        return Ok(Some(added));
    }
    if let Some(text) = &asked.drop {
        let wording = wording(text)?;
        let (lock, _) = writer(&folder)?;
        let dropped = folder.drop_wish(&lock, &wording)?;
        return Ok(Some(Change::Dropped(dropped.wording.text().to_owned())));
    }
    Ok(None)
}

/// The place of a wish that is told by its wording.
fn place(text: &str, wishes: &[Wish]) -> Result<usize> {
    let wording = wording(text)?;
    let found = wishes.iter().position(|wish| wish.is_for(&wording));
    found.ok_or_else(|| {
        let text = on_one_line(wording.text());
        Fault::Input(format!("--must: {text:?} is not wished for; `oddment wishes` lists what is")).into()
    })
}

/// Searches until the answer is proven or the time is up; then for the sizes in which those wishes take the fewest stand-ins.
fn search(hand: &AtHand, demands: &[Demand], must: &[usize], time: Duration) -> (Together, Shared) {
    let began = Instant::now();
    let mut together = Together::new(&hand.supply, demands, must);
    while !together.advance(SLICE) && began.elapsed() < time {}
    let mut sharing = Sharing::new(&hand.supply, demands, together.best());
    while !sharing.improve(&hand.supply, demands) && began.elapsed() < time {}
    let shared = sharing.answers(&hand.supply, demands);
    (together, shared)
}

fn in_json<'a>(
    hand: &'a AtHand,
    change: Option<&'a Change>,
    answers: &'a [Answer],
    (together, shared): (&Together, &'a [(usize, Answer)]),
) -> Told<'a> {
    let text = |wish: usize| hand.loaded.wishes[wish].wording.text();
    let wishes = hand.loaded.wishes.iter().zip(answers).map(|(wish, answer)| WishTold {
        spelled: Spelled::of(wish.wording.text(), answer, hand),
        note: wish.note.as_deref(),
    });
    let (mut added, mut dropped) = (None, None);
    match change {
        Some(Change::Added(text)) => added = Some(text.as_str()),
        Some(Change::Dropped(text)) => dropped = Some(text.as_str()),
        None => {}
    }
    Told {
        format: 1,
        added,
        dropped,
        wishes: wishes.collect(),
        together: together.best().iter().map(|made| text(made.wish)).collect(),
        made: shared.iter().map(|(wish, answer)| Spelled::of(text(*wish), answer, hand)).collect(),
        most: together.bound(),
        proven: together.is_proven(),
        refused: together.refused().iter().map(|&wish| text(wish)).collect(),
    }
}

fn in_words(
    hand: &AtHand,
    change: Option<&Change>,
    answers: &[Answer],
    (together, shared): (&Together, &[(usize, Answer)]),
) -> String {
    let wishes = &hand.loaded.wishes;
    let text = |wish: usize| escaped(&on_one_line(wishes[wish].wording.text()));
    let mut lines: Vec<String> = Vec::new();
    lines.extend(change.map(|change| match change {
        Change::Added(text) => format!("added: {}", escaped(&on_one_line(text))),
        Change::Dropped(text) => format!("dropped: {}", escaped(&on_one_line(text))),
    }));
    lines.extend(wishes.iter().zip(answers).map(|(wish, answer)| line(wish.wording.text(), answer, hand)));
    if wishes.len() > 1 {
        let (made, most) = (together.best().len(), together.bound());
        lines.push(if together.is_proven() {
            format!("together: {made} of {} at once, and no more", wishes.len())
        } else {
            format!("together: {made} of {} at once so far; no more than {most} can be", wishes.len())
        });
        let told = |(wish, answer): &(usize, Answer)| {
            format!("  {}", line(wishes[*wish].wording.text(), answer, hand))
        };
        lines.extend(shared.iter().map(told));
    }
    lines.extend(together.refused().iter().map(|&wish| format!("{} cannot be made besides", text(wish))));
    lines.iter().map(|line| line.clone() + "\n").collect()
}
