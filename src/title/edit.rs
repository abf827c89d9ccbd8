//! Every way in which a strip changes, each with its inverse.
//!
//! Must not know who asked for it, nor the history.

use super::{Place, Rules, Setting, Stood, Strip, Wording};

/// One change of a strip. Applying it gives the edit that undoes it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    /// Puts a letter in a slot, takes it off, or changes how it stands.
    Letter {
        /// The slot, from 0.
        slot: usize,
        /// What stands there from now on.
        stood: Option<Stood>,
    },
    /// Exchanges what stands in two slots.
    Exchange(usize, usize),
    /// Changes the wording and all letters.
    Wording(Wording, Vec<Option<Stood>>),
    /// Changes what it asks of its letters.
    Rules(Rules),
    /// Changes how it is set.
    Setting(Setting),
    /// Moves it over the page.
    Place(Place),
    /// It is stuck down as of a ledger entry, or no longer.
    Stuck(Option<u32>),
    /// The user is content with a finding, or no longer.
    Accept(String, bool),
    /// Several, in order, as one.
    Several(Vec<Edit>),
}

impl Edit {
    /// Changes the wording of `strip` and keeps every letter that still has its character.
    #[must_use]
    pub fn reword(strip: &Strip, wording: Wording) -> Self {
        let old: Vec<_> = strip.wording().slots().iter().map(|asked| asked.character.clone()).collect();
        let kept = wording.kept_from(&old);
        let letters = kept.into_iter().map(|slot| strip.letter(slot?).cloned()).collect();
        Self::Wording(wording, letters)
    }

    /// Applies it and gives back its inverse. A slot that is not there changes nothing.
    #[must_use]
    pub fn apply(self, strip: &mut Strip) -> Self {
        match self {
            Self::Letter { slot, stood } => Self::Letter { slot, stood: strip.put(slot, stood) },
            Self::Exchange(a, b) => {
                strip.exchange(a, b);
                Self::Exchange(a, b)
            }
            Self::Wording(wording, letters) => {
                let (wording, letters) = strip.reword(wording, letters);
                Self::Wording(wording, letters)
            }
            Self::Rules(rules) => Self::Rules(std::mem::replace(&mut strip.rules, rules)),
            Self::Setting(setting) => Self::Setting(std::mem::replace(&mut strip.setting, setting)),
            Self::Place(place) => Self::Place(std::mem::replace(&mut strip.place, place)),
            Self::Stuck(entry) => Self::Stuck(std::mem::replace(&mut strip.stuck, entry)),
            Self::Accept(id, content) => {
                let was =
                    if content { !strip.accepted.insert(id.clone()) } else { strip.accepted.remove(&id) };
                Self::Accept(id, was)
            }
            Self::Several(edits) => {
                let mut inverse: Vec<Self> = edits.into_iter().map(|edit| edit.apply(strip)).collect();
                inverse.reverse();
                Self::Several(inverse)
            }
        }
    }

    /// Whether `next`, made right after the edit whose inverse this is, belongs to the same step of history: the same
    /// letter moved a little further, the strip carried on. Standing another sticker never joins a move.
    #[must_use]
    pub fn goes_on_as(&self, next: &Self) -> bool {
        match (self, next) {
            (Self::Place(_), Self::Place(_)) => true,
            (Self::Letter { slot: a, stood: Some(was) }, Self::Letter { slot: b, stood: Some(next) }) => {
                a == b && was.sticker == next.sticker && was.pinned == next.pinned
            }
            _ => false,
        }
    }
}
