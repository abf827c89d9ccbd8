//! Suggestions: the search for them, and one of them against the present trial, slot by slot.
//!
//! Must not know what a key does or how it is drawn.

use crate::checks::judge;
use crate::measure::Points;
use crate::plan::Plan;
use crate::suggest::{Hindrance, Problem, Put, Suggestion};
use crate::title::{Edit, Sticker, Stood};

use super::letter_told::LetterTold;
use super::pursuit::Pursuit;
use super::reasons::reasons;
use super::shelf::Shelf;
use super::trial::Trial;

/// How many suggestions are looked for.
pub const SUGGESTIONS: usize = 5;

/// The search for suggestions.
#[derive(Debug)]
pub struct Suggesting {
    /// The search.
    pub pursuit: Pursuit,
    /// The plan that they are for.
    plan: Plan,
    /// Whether they are shown as soon as they are there.
    pub(super) awaited: bool,
    /// Whether they were looked at.
    pub(super) seen: bool,
}

impl Suggesting {
    /// Begins to look for suggestions for `plan`.
    #[must_use]
    pub fn new(plan: &Plan, shelf: &Shelf) -> Self {
        let problem = Problem::new(plan, &shelf.stash, &shelf.scene, None);
        Self { pursuit: Pursuit::new(problem, SUGGESTIONS), plan: plan.clone(), awaited: true, seen: false }
    }

    /// Whether they are for `plan` as it is.
    #[must_use]
    pub fn is_for(&self, plan: &Plan) -> bool {
        self.plan == *plan
    }
}

/// A suggestion against the present trial.
#[derive(Debug, Clone)]
pub struct SuggestionView {
    /// Its place among the suggestions.
    pub place: usize,
    /// The suggestion.
    pub suggestion: Suggestion,
    /// The plan with it.
    pub plan: Plan,
    /// What the checks say of that plan.
    pub score: Points,
    /// Slot by slot.
    pub changes: Vec<SlotChange>,
    /// The chosen one of them.
    pub chosen: usize,
    /// Why its letter stands there, a sentence each.
    pub reasons: Vec<String>,
}

/// A slot now and as suggested.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SlotChange {
    /// The place of the strip, and the slot.
    pub at: (usize, usize),
    /// The character that is wanted.
    pub wanted: String,
    /// What stands there.
    pub now: Option<LetterTold>,
    /// What would stand there.
    pub then: Option<LetterTold>,
    /// What happens to the slot.
    pub change: Change,
    /// By how much the trial's score would change if this slot alone changed.
    pub alone: Option<Points>,
}

/// What a suggestion does with a slot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// What stands there stays.
    Stays,
    /// It is left alone: pinned, by hand, or on a strip that is stuck down.
    LeftAlone(&'static str),
    /// Something else stands there.
    Changes,
    /// Nothing stands there, for nothing in the stash serves.
    Unserved,
    /// Nothing stands there.
    LeftEmpty,
}

impl SuggestionView {
    /// Looks at `suggestion`, the one at `place`; with `chosen` at that row, else at the first that changes.
    #[must_use]
    pub fn new(
        trial: &Trial,
        shelf: &Shelf,
        pursuit: &Pursuit,
        place: usize,
        chosen: Option<usize>,
    ) -> Option<Self> {
        let suggestion = pursuit.outcome().suggestions.get(place)?.clone();
        let plan = suggestion.applied(trial.plan(), &shelf.stash);
        let score = judge(&plan, &shelf.stash, &shelf.scene).score;
        let mut changes = Vec::new();
        for (strip, suggested) in suggestion.strips.iter().enumerate() {
            for (slot, put) in suggested.puts.iter().enumerate() {
                let unserved = pursuit.outcome().unserved.contains(&(strip, slot));
                changes.push(slot_change(trial, shelf, &plan, (strip, slot), *put, unserved));
            }
        }
        let first = || changes.iter().position(|one| one.change == Change::Changes).unwrap_or(0);
        let chosen = chosen.unwrap_or_else(first);
        let mut view = Self { place, suggestion, plan, score, changes, chosen, reasons: Vec::new() };
        view.choose(chosen, shelf, pursuit);
        Some(view)
    }

    /// The chosen strip and slot.
    #[must_use]
    pub fn at(&self) -> (usize, usize) {
        self.changes.get(self.chosen).map_or((0, 0), |change| change.at)
    }

    /// Chooses a row and finds the reasons for its letter.
    pub(super) fn choose(&mut self, row: usize, shelf: &Shelf, pursuit: &Pursuit) {
        self.chosen = row.min(self.changes.len().saturating_sub(1));
        let Some(change) = self.changes.get(self.chosen) else { return };
        self.reasons = match change.change {
            Change::LeftAlone(why) => vec![format!("suggestions leave it alone: it is {why}")],
            Change::Unserved => {
                let wanted = &change.wanted;
                vec![format!("no {wanted} is left, and no letter that could stand in for it")]
            }
            Change::LeftEmpty => vec!["what could stand here serves better elsewhere".into()],
            Change::Stays | Change::Changes => {
                let but = match (self.place, pursuit.is_proved()) {
                    (0, true) => "",
                    (0, false) => "; the search has not come to it yet",
                    _ => ", but then it would be too like one before",
                };
                reasons(&self.plan, change.at, &shelf.stash, &shelf.scene, but)
            }
        };
    }

    /// How many slots change.
    #[must_use]
    pub fn changed(&self) -> usize {
        self.changes.iter().filter(|one| one.now != one.then).count()
    }
}

fn slot_change(
    trial: &Trial,
    shelf: &Shelf,
    plan: &Plan,
    at: (usize, usize),
    put: Put,
    unserved: bool,
) -> SlotChange {
    let (was, is) = (&trial.plan().strips()[at.0], &plan.strips()[at.0]);
    let (before, after) = (was.letter(at.1), is.letter(at.1));
    let sticker = |stood: Option<&Stood>| stood.map(|stood| stood.sticker.clone());
    let told =
        |stood: Option<&Stood>| stood.map(|stood| LetterTold::of(&stood.sticker, &shelf.stash, shelf.unit()));
    let change = match (put, before) {
        _ if was.stuck.is_some() => Change::LeftAlone("stuck down"),
        (Put::Kept, Some(stood)) if matches!(stood.sticker, Sticker::Hand(_)) => Change::LeftAlone("by hand"),
        (Put::Kept, Some(stood)) if stood.pinned => Change::LeftAlone("pinned"),
        (Put::Empty, _) if unserved => Change::Unserved,
        (Put::Empty, None) => Change::LeftEmpty,
        _ if sticker(before) == sticker(after) => Change::Stays,
        _ => Change::Changes,
    };
    let alone = (sticker(before) != sticker(after)).then(|| {
        let mut with = trial.plan().clone();
        with.edit_strip(at.0, Edit::Letter { slot: at.1, stood: after.cloned() });
        judge(&with, &shelf.stash, &shelf.scene).score - trial.verdict().score
    });
    let wanted = was.rules.wanted(&was.wording().slots()[at.1].character).spoken();
    SlotChange { at, wanted, now: told(before), then: told(after), change, alone }
}

/// Why there is no arrangement, in words.
pub(super) fn told_hindrance(hindrance: Hindrance, plan: &Plan, shelf: &Shelf) -> String {
    match hindrance {
        Hindrance::NothingAsked => "nothing is asked for: every slot is pinned, by hand or stuck down".into(),
        Hindrance::NothingServes => {
            "nothing to suggest: the wording is empty, or nothing in the stash serves".into()
        }
        Hindrance::TooLongTogether => {
            "nothing fits: to be as short as their rooms, lines would need the same letters".into()
        }
        Hindrance::TooLong { strip, shortest, room } => {
            let role = plan.strips().get(strip).map_or_else(String::new, |strip| strip.role().to_string());
            let tell = |length| crate::checks::tell_length(length, shelf.unit());
            format!(
                "nothing fits: the {role} has {} of room and is {} long at the least",
                tell(room),
                tell(shortest)
            )
        }
    }
}
