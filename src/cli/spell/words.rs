//! What is said of one wording, as people read it.
//!
//! Must not know how it came about.

use crate::app::{answer_explained, stand_in_told, verdict_told};
use crate::files::escaped;
use crate::measure::Unit;
use crate::supply::{Answer, Demand, Verdict};

use super::super::at_hand::AtHand;

/// The unit of heights.
const UNIT: Unit = Unit::Millimetre;

/// `QUAY / WALK: now, 30.2 mm`, fit to be printed.
pub(in super::super) fn line(wording: &str, answer: &Answer, hand: &AtHand) -> String {
    let mut text = format!("{}: {}", on_one_line(wording), verdict_told(answer, UNIT));
    if answer.verdict != Verdict::Short && !answer.stand_ins.is_empty() {
        let told = answer.stand_ins.iter().map(|one| stand_in_told(one, &hand.loaded.stash));
        text = text + ": " + &told.collect::<Vec<_>>().join("; ");
    }
    escaped(&text)
}

/// The wording, and below it all there is to say, each line fit to be printed.
pub(super) fn explained(
    wording: &str,
    answers: (&Answer, Option<&Answer>),
    demand: &Demand,
    hand: &AtHand,
) -> Vec<String> {
    let told = answer_explained(answers, demand, &hand.supply, &hand.loaded.stash, UNIT);
    let below = told.lines().filter(|line| !line.is_empty()).map(|line| format!("  {line}"));
    std::iter::once(on_one_line(wording)).chain(below).map(|line| escaped(&line)).collect()
}

/// A wording of two lines as one.
pub(in super::super) fn on_one_line(wording: &str) -> String {
    wording.replace('\n', " / ")
}
