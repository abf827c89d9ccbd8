//! What a search found, letter by letter, with the points of every check.
//!
//! The checks are asked again, of the plan as it would be; nothing is taken from the search but its letters, its scores
//! and what it proved. Must not know files or the clock.

use std::time::Duration;

use serde::{Serialize, Serializer};

use crate::checks::{Level, Reach, StripView, Verdict, judge, lying_view, tell_length};
use crate::measure::{Colour, Length, Points};
use crate::plan::Plan;
use crate::suggest::{Hindrance, Outcome, Put, Standing, Suggestion};
use crate::title::{Layout, Sticker, Strip};

use super::super::opened::Opened;

/// The whole answer, as JSON spells it.
#[derive(Debug, Serialize)]
pub(super) struct Answer {
    format: u32,
    pub(super) outcome: &'static str,
    /// Why there is no mix.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) reason: Option<Reason>,
    /// No mix scores less.
    pub(super) bound: Option<Points>,
    /// What could still be gained at most.
    pub(super) gap: Option<Points>,
    /// The score of what stands there now.
    pub(super) now: Points,
    pub(super) suggestions: Vec<Suggested>,
    /// Slots that nothing in the stash can serve.
    pub(super) empty: Vec<EmptySlot>,
    explored: u64,
    milliseconds: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) written: Option<Written>,
}

/// Why there is no mix.
#[derive(Debug, Serialize)]
pub(super) struct Reason {
    pub(super) message: String,
    strip: Option<String>,
    #[serde(serialize_with = "in_mm")]
    shortest: Option<Length>,
    #[serde(serialize_with = "in_mm")]
    room: Option<Length>,
}

/// One mix for all strips that were asked about.
#[derive(Debug, Serialize)]
pub(super) struct Suggested {
    pub(super) score: Points,
    /// What `check` says once it stands: something else may lie under a line of another length.
    pub(super) checked: Points,
    /// What would still keep it from being stuck down.
    pub(super) stops: Vec<String>,
    pub(super) strips: Vec<SuggestedStrip>,
}

/// One strip of a mix.
#[derive(Debug, Serialize)]
pub(super) struct SuggestedStrip {
    pub(super) role: String,
    pub(super) wording: String,
    pub(super) score: Points,
    #[serde(serialize_with = "in_mm")]
    pub(super) height: Option<Length>,
    pub(super) letters: Vec<SuggestedLetter>,
    pub(super) terms: Terms,
}

/// One slot of a strip.
#[derive(Debug, Serialize)]
pub(super) struct SuggestedLetter {
    /// From 1.
    pub(super) slot: usize,
    pub(super) wanted: String,
    pub(super) chip: Option<String>,
    /// What fills it, where that is no sticker.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) by_hand: Option<String>,
    #[serde(rename = "as")]
    pub(super) stands_in: Option<&'static str>,
    pub(super) colour: Option<String>,
    /// That is compared with the line's; a full stop has none.
    #[serde(serialize_with = "in_mm")]
    pub(super) height: Option<Length>,
    /// Left as it stands.
    pub(super) kept: bool,
    pub(super) points: Terms,
}

/// The points of each check that costs anything.
#[derive(Debug, Default)]
pub(super) struct Terms(pub(super) Vec<(&'static str, Points)>);

/// A slot that nothing serves.
#[derive(Debug, Serialize)]
pub(super) struct EmptySlot {
    pub(super) strip: String,
    pub(super) slot: usize,
    pub(super) wanted: String,
}

/// What was written.
#[derive(Debug, Serialize)]
pub(super) struct Written {
    pub(super) file: String,
    /// How many slots were changed; with none the file was left as it was.
    pub(super) letters: usize,
}

impl Answer {
    /// What came of a search over `opened`, or over its strip at `only`.
    pub(super) fn of(opened: &Opened, only: Option<usize>, outcome: &Outcome, took: Duration) -> Self {
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
        let bound = outcome.suggestions.first().map(|first| outcome.bound - others(first));
        let found = if impossible { &[][..] } else { &outcome.suggestions };
        let suggestions: Vec<Suggested> = found.iter().map(|one| suggested(opened, &asked, one)).collect();
        let slot = |&(place, slot): &(usize, usize)| EmptySlot {
            strip: plan.strips()[place].role().to_string(),
            slot: slot + 1,
            wanted: wanted(&plan.strips()[place], slot),
        };
        Self {
            format: 1,
            outcome: match outcome.standing {
                Standing::Best => "best",
                Standing::BestSoFar => "best-so-far",
                Standing::Impossible(_) => "impossible",
            },
            reason: reason(opened, outcome.standing),
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

    /// Whether the answer is no: there is no mix, the best leaves a slot empty, or it could not be stuck down.
    pub(super) fn is_no(&self) -> bool {
        self.suggestions.first().is_none_or(|first| !first.stops.is_empty() || first.leaves_empty() > 0)
    }
}

impl Suggested {
    /// How many slots it leaves empty.
    pub(super) fn leaves_empty(&self) -> usize {
        let letters = self.strips.iter().flat_map(|strip| &strip.letters);
        letters.filter(|one| !one.kept && one.chip.is_none()).count()
    }
}

impl Terms {
    pub(super) fn sum(&self) -> Points {
        self.0.iter().map(|&(_, points)| points).sum()
    }

    fn add(&mut self, id: &'static str, points: Points) {
        match self.0.iter_mut().find(|(known, _)| *known == id) {
            Some((_, sum)) => *sum += points,
            None => self.0.push((id, points)),
        }
    }
}

impl Serialize for Terms {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().copied())
    }
}

#[expect(clippy::ref_option, reason = "the shape that serde asks for")]
fn in_mm<S: Serializer>(length: &Option<Length>, serializer: S) -> Result<S::Ok, S::Error> {
    length.map(Length::mm).serialize(serializer)
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

fn reason(opened: &Opened, standing: Standing) -> Option<Reason> {
    let Standing::Impossible(hindrance) = standing else { return None };
    let tell = |length| tell_length(length, opened.shelf.unit());
    Some(match hindrance {
        Hindrance::NothingServes => Reason {
            message: "no slot can be filled anew: the wording is empty, or all that stands is left alone"
                .into(),
            strip: None,
            shortest: None,
            room: None,
        },
        Hindrance::TooLong { strip, shortest, room } => {
            let role = opened.plan.strips()[strip].role();
            let message = format!(
                "the {role} cannot be as short as its room: {} at the least, and there are {}; break the line, \
                 or change its gaps or its room",
                tell(shortest),
                tell(room)
            );
            Reason { message, strip: Some(role.to_string()), shortest: Some(shortest), room: Some(room) }
        }
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
        points: Terms::default(),
    };
    match strip.letter(slot).map(|stood| &stood.sticker) {
        None => {}
        Some(Sticker::Chip { id, stands_in }) => {
            letter.chip = Some(id.to_string());
            letter.stands_in = stands_in.map(|kind| kind.as_str());
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
