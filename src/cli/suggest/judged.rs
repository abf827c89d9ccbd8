//! What a search found, letter by letter, with the points of every check.
//!
//! The checks are asked again, of the plan as it would be; nothing is taken from the search but its letters, its scores
//! and what it proved. Must not know files or the clock.

use std::time::Duration;

use crate::checks::{Level, Reach, StripView, Verdict, judge, lying_view, promised_to, tell_length};
use crate::letter::StandInKind;
use crate::measure::{Colour, Points, Unit};
use crate::plan::{Plan, Spoken};
use crate::suggest::{Hindrance, Outcome, Put, Standing, Suggestion};
use crate::title::{Layout, Sticker, Strip};

use super::super::opened::Opened;
use super::answer::{Answer, EmptySlot, Reason, Suggested, SuggestedLetter, SuggestedStrip, Terms};

/// What came of a search over `opened`, or over its strip at `only`.
pub(super) fn judged(opened: &Opened, only: Option<usize>, outcome: &Outcome, took: Duration) -> Answer {
    let plan = &opened.plan;
    let asked: Vec<usize> =
        (0..plan.strips().len()).filter(|&place| only.is_none_or(|only| only == place)).collect();
    let now = asked.iter().map(|&place| lying(opened, place).score()).sum();
    let impossible = matches!(outcome.standing, Standing::Impossible(_));
    // A strip that was not asked about costs the same in every mix.
    let others = |first: &Suggestion| {
        let other = first.strips.iter().enumerate().filter(|(place, _)| !asked.contains(place));
        other.map(|(_, strip)| strip.score).sum::<Points>()
    };
    // Early on the bound may be below what the others cost, though they are as they are.
    let bound = outcome.suggestions.first().map(|first| (outcome.bound - others(first)).max(Points::ZERO));
    let found = if impossible { &[][..] } else { &outcome.suggestions };
    let suggestions: Vec<Suggested> = found.iter().map(|one| suggested(opened, &asked, one)).collect();
    let slot = |&(place, slot): &(usize, usize)| EmptySlot {
        strip: plan.strips()[place].role().to_string(),
        slot: slot + 1,
        wanted: wanted(&plan.strips()[place], slot),
    };
    Answer {
        format: 1,
        outcome: match outcome.standing {
            Standing::Best => "best",
            Standing::BestSoFar => "best-so-far",
            Standing::Impossible(_) => "impossible",
        },
        reason: reason(plan, outcome.standing, opened.shelf.unit()),
        gap: suggestions.first().zip(bound).map(|(first, bound)| first.score - bound),
        bound: bound.filter(|_| !impossible),
        now,
        suggestions,
        empty: outcome.unserved.iter().map(slot).collect(),
        explored: outcome.explored,
        milliseconds: (took.as_secs_f64() * 1e6).round() / 1e3,
        written: None,
    }
}

/// The strip at `place` as it lies now.
fn lying(opened: &Opened, place: usize) -> StripView<'_> {
    let (plan, shelf) = (&opened.plan, &opened.shelf);
    let strip = &plan.strips()[place];
    lying_view(plan, strip, &Layout::of(strip, &shelf.stash), &shelf.stash, &shelf.scene)
}

fn wanted(strip: &Strip, slot: usize) -> String {
    strip.rules.wanted(&strip.wording().slots()[slot].character).to_string()
}

fn reason(plan: &Plan, standing: Standing, unit: Unit) -> Option<Reason> {
    let Standing::Impossible(hindrance) = standing else { return None };
    let tell = |length| tell_length(length, unit);
    let (message, strip) = match hindrance {
        Hindrance::NothingAsked => (
            "nothing is asked for: all that stands there is pinned, by hand or stuck down, or the wording is empty"
                .into(),
            None,
        ),
        Hindrance::NothingServes => {
            ("the wording is empty, or nothing in the stash serves any of its slots".into(), None)
        }
        Hindrance::TooLongTogether => (
            "each line could be as short as its room, but not all at once: they would need the same letters; \
             break a line, or change its gaps or its room"
                .into(),
            None,
        ),
        Hindrance::TooLong { strip, shortest, room } => {
            let role = plan.strips()[strip].role();
            let message = format!(
                "the {role} cannot be as short as its room: {} at the least, and there are {}; break the line, \
                 or change its gaps or its room",
                tell(shortest),
                tell(room)
            );
            (message, Some((role.to_string(), shortest, room)))
        }
    };
    Some(Reason {
        message,
        shortest: strip.as_ref().map(|(_, shortest, _)| *shortest),
        room: strip.as_ref().map(|(_, _, room)| *room),
        strip: strip.map(|(role, ..)| role),
    })
}

fn suggested(opened: &Opened, asked: &[usize], suggestion: &Suggestion) -> Suggested {
    let shelf = &opened.shelf;
    let applied = suggestion.applied(&opened.plan, &shelf.stash);
    let verdict: Verdict = judge(&applied, &shelf.stash, &shelf.scene);
    let stops = verdict
        .findings
        .iter()
        .filter(|finding| finding.level == Level::Stop && asked.contains(&finding.strip))
        .map(|finding| format!("{}: {}", applied.strips()[finding.strip].role(), finding.message));
    Suggested {
        score: asked.iter().map(|&place| suggestion.strips[place].score).sum(),
        checked: asked.iter().map(|&place| verdict.strips[place].score).sum(),
        stops: stops.collect(),
        strips: asked.iter().map(|&place| strip(opened, place, &applied, suggestion)).collect(),
    }
}

/// One strip of a mix, judged over what lies under it now: so the search saw it.
fn strip(opened: &Opened, place: usize, applied: &Plan, suggestion: &Suggestion) -> SuggestedStrip {
    let strip = &applied.strips()[place];
    let found = &suggestion.strips[place];
    let view = view(opened, strip, applied, lying(opened, place).under());
    let mut letters: Vec<SuggestedLetter> =
        (0..strip.len()).map(|slot| letter(opened, strip, &view, slot, found.puts[slot])).collect();
    let own = Spoken::by(applied, &opened.shelf.stash);
    for (letter, fill) in letters.iter_mut().zip(view.fills()).filter(|_| strip.stuck.is_none()) {
        let promised = |chip| promised_to(chip, &own, &opened.shelf.stash, &opened.shelf.scene);
        letter.spoken_for = fill.look().and_then(|look| promised(look.chip)).unwrap_or_default();
    }
    let mut terms = Terms::default();
    for check in view.heard().filter(|check| !strip.accepted.contains(check.id)) {
        view.instances(check, |slots, points| match (check.reach, slots) {
            (Reach::Letter(_), &[slot]) => letters[slot].points.add(check.id, points),
            _ => terms.add(check.id, points),
        });
    }
    SuggestedStrip {
        role: strip.role().to_string(),
        wording: strip.wording().text().to_owned(),
        score: found.score,
        height: found.height,
        letters,
        terms,
    }
}

fn view<'a>(opened: &'a Opened, strip: &'a Strip, applied: &Plan, under: Option<Colour>) -> StripView<'a> {
    StripView::new(&opened.shelf.scene, &opened.shelf.stash, strip, &applied.page, under)
}

fn letter(opened: &Opened, strip: &Strip, view: &StripView<'_>, slot: usize, put: Put) -> SuggestedLetter {
    let look = view.fills()[slot].look();
    let mut letter = SuggestedLetter {
        slot: slot + 1,
        wanted: view.wanted(slot).to_string(),
        chip: None,
        by_hand: None,
        stands_in: None,
        colour: None,
        height: look.and_then(|look| look.height),
        kept: put == Put::Kept,
        spoken_for: Vec::new(),
        points: Terms::default(),
    };
    match strip.letter(slot).map(|stood| &stood.sticker) {
        None => {}
        Some(Sticker::Chip { id, stands_in }) => {
            letter.chip = Some(id.to_string());
            letter.stands_in = stands_in.map(StandInKind::as_str);
            let colour = look.and_then(|look| opened.shelf.stash.chip(look.chip).colours().first());
            letter.colour = colour.map(|tint| tint.name().into_owned());
        }
        Some(Sticker::Hand(thing)) => {
            letter.by_hand = Some(thing.label.clone());
            letter.colour = thing.colour.as_ref().map(|tint| tint.name().into_owned());
        }
    }
    letter
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Length;
    use crate::title::Wording;

    #[test]
    fn a_line_that_cannot_be_short_enough_is_told_with_both_lengths() {
        let plan = Plan::titled(Wording::default());
        let (shortest, room) = (Length::from_mm(91), Length::from_nm(40_500_000));
        let told = |standing| reason(&plan, standing, Unit::Millimetre);
        let why = told(Standing::Impossible(Hindrance::TooLong { strip: 0, shortest, room }));
        assert_eq!(
            why.map(|why| (why.message, why.strip, why.shortest, why.room)),
            Some((
                "the title cannot be as short as its room: 91 mm at the least, and there are 40.5 mm; break the \
                 line, or change its gaps or its room"
                    .into(),
                Some("title".into()),
                Some(shortest),
                Some(room)
            ))
        );
        assert!(told(Standing::Best).is_none());
    }
}
