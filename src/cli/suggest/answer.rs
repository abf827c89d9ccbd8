//! The answer, as JSON spells it.
//!
//! Must not know where it comes from.

use serde::{Serialize, Serializer};

use crate::measure::{Length, Points};

/// The whole answer, as JSON spells it.
#[derive(Debug, Serialize)]
pub(super) struct Answer {
    pub(super) format: u32,
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
    pub(super) explored: u64,
    pub(super) milliseconds: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) written: Option<Written>,
}

/// Why there is no mix.
#[derive(Debug, Serialize)]
pub(super) struct Reason {
    pub(super) message: String,
    pub(super) strip: Option<String>,
    #[serde(serialize_with = "in_mm")]
    pub(super) shortest: Option<Length>,
    #[serde(serialize_with = "in_mm")]
    pub(super) room: Option<Length>,
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
    /// The other plans for which, beside this one, there are too few of it.
    pub(super) spoken_for: Vec<String>,
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

    pub(super) fn add(&mut self, id: &'static str, points: Points) {
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
