//! What is said of one wording, in the shape that other programs read.
//!
//! Must not know how people read it.

use serde::{Serialize, Serializer};

use crate::app::source_told;
use crate::letter::{StandInKind, find_stand_in};
use crate::measure::{Length, Points};
use crate::order::Caution;
use crate::supply::{Answer, Band, Short, StandsIn, Verdict};

use super::super::at_hand::AtHand;

/// An answer on a line of its own.
#[derive(Debug, Serialize)]
pub(in super::super) struct OneLine<T> {
    format: u32,
    #[serde(flatten)]
    answer: T,
}

/// What is said of one wording.
#[derive(Debug, Serialize)]
pub(in super::super) struct Spelled<'a> {
    wording: &'a str,
    #[serde(serialize_with = "as_word")]
    verdict: Verdict,
    /// In mm, the least and the greatest.
    #[serde(serialize_with = "in_mm")]
    band: Option<Band>,
    short: Lacking<'a>,
    stand_ins: Vec<StandInAnswer<'a>>,
    #[serde(flatten)]
    explained: Option<Explained<'a>>,
}

/// A sticker that stands in.
#[derive(Debug, Serialize)]
struct StandInAnswer<'a> {
    wanted: &'a str,
    chip: String,
    #[serde(rename = "as")]
    kind: &'static str,
    letters: u32,
    /// Why it is believed, and what one letter costs; where that is asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    because: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cost: Option<Points>,
}

/// What is told besides where it is asked for.
#[derive(Debug, Serialize)]
struct Explained<'a> {
    cost: Points,
    /// The heights that come nearest, where none will do.
    nearest: Option<Nearest<'a>>,
    cautions: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Nearest<'a> {
    #[serde(serialize_with = "in_mm")]
    band: Option<Band>,
    short: Lacking<'a>,
    stand_ins: Vec<StandInAnswer<'a>>,
}

/// How many of each character are lacking: `{"E": 1}`.
#[derive(Debug, Clone, Copy)]
pub(in super::super) struct Lacking<'a>(pub(in super::super) &'a [Short]);

impl Serialize for Lacking<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|one| (one.character.as_str(), one.letters)))
    }
}

impl<T: Serialize> OneLine<T> {
    pub(in super::super) const fn new(answer: T) -> Self {
        Self { format: 1, answer }
    }
}

impl<'a> Spelled<'a> {
    /// What `answer` says of `wording`.
    pub(in super::super) fn of(wording: &'a str, answer: &'a Answer, hand: &AtHand) -> Self {
        Self {
            wording,
            verdict: answer.verdict,
            band: answer.band,
            short: Lacking(&answer.short),
            stand_ins: stand_ins(answer, hand, false),
            explained: None,
        }
    }

    /// The same with why each stand-in is believed and what it costs, and what comes `nearest`.
    pub(super) fn explained(
        wording: &'a str,
        answer: &'a Answer,
        nearest: Option<&'a Answer>,
        hand: &AtHand,
    ) -> Self {
        let all = [Some(answer), nearest].into_iter().flatten();
        let cuts = all.flat_map(|one| &one.stand_ins).any(|one| one.kind == StandInKind::Trimmed);
        let nearest = nearest.map(|nearest| Nearest {
            band: nearest.band,
            short: Lacking(&nearest.short),
            stand_ins: stand_ins(nearest, hand, true),
        });
        let cautions = cuts.then(|| Caution::Knife.to_string()).into_iter().collect();
        Self {
            stand_ins: stand_ins(answer, hand, true),
            explained: Some(Explained { cost: answer.cost, nearest, cautions }),
            ..Self::of(wording, answer, hand)
        }
    }
}

fn stand_ins<'a>(answer: &'a Answer, hand: &AtHand, explain: bool) -> Vec<StandInAnswer<'a>> {
    answer.stand_ins.iter().map(|one| stand_in(one, hand, explain)).collect()
}

fn stand_in<'a>(one: &'a StandsIn, hand: &AtHand, explain: bool) -> StandInAnswer<'a> {
    let chip = hand.loaded.stash.chip(one.chip);
    let row = || find_stand_in(&one.wanted, &chip.letter.character, one.kind);
    StandInAnswer {
        wanted: one.wanted.as_str(),
        chip: chip.id().to_string(),
        kind: one.kind.as_str(),
        letters: one.letters,
        because: explain.then(row).flatten().map(|row| source_told(&row)),
        cost: explain.then(|| hand.supply.asking().costs.of(one.kind)),
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde asks for")]
fn as_word<S: Serializer>(verdict: &Verdict, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(verdict.as_str())
}

#[expect(clippy::ref_option, reason = "the shape that serde asks for")]
fn in_mm<S: Serializer>(band: &Option<Band>, serializer: S) -> Result<S::Ok, S::Error> {
    band.map(|band| [band.low, band.high].map(Length::mm)).serialize(serializer)
}
