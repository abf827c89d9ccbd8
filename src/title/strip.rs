//! The strip: a wording, its slots, and what stands in them. The central type of the program.
//!
//! Must not know pages or screens.

use std::collections::BTreeSet;
use std::fmt;

use crate::stash::ChipId;

use super::{Mix, Place, Rules, Setting, Stood, Wording};

/// A clear strip on which letters stand while they are tried.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strip {
    role: Role,
    wording: Wording,
    letters: Vec<Option<Stood>>,
    /// What it asks of its letters.
    pub rules: Rules,
    /// How it is set.
    pub setting: Setting,
    /// Where it lies on the page.
    pub place: Place,
    /// Findings that the user is content with, by id.
    pub accepted: BTreeSet<String>,
    /// It is stuck down: the last ledger entry about it that it includes.
    pub stuck: Option<u32>,
}

/// What a strip is for: title, subtitle, or a word of the user's own. Unique in a plan.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Role(String);

/// Why a text is no role.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a role is one printable word of at most 24 characters, such as title or subtitle")]
pub struct RoleError;

impl Role {
    /// Checks that `text` is a role.
    ///
    /// # Errors
    /// When it is empty, longer than 24 characters, or holds white space or control characters.
    pub fn new(text: &str) -> Result<Self, RoleError> {
        let odd = |c: char| c.is_whitespace() || c.is_control();
        if text.is_empty() || text.chars().count() > 24 || text.contains(odd) {
            return Err(RoleError);
        }
        Ok(Self(text.into()))
    }

    /// The title's.
    #[must_use]
    pub fn title() -> Self {
        Self("title".into())
    }

    /// The subtitle's.
    #[must_use]
    pub fn subtitle() -> Self {
        Self("subtitle".into())
    }

    /// The word.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// How mixed a strip of this role is meant to look unless it says so: a subtitle plain, any other lively.
    #[must_use]
    pub fn usual_mix(&self) -> Mix {
        if self.0 == "subtitle" { Mix::Plain } else { Mix::Lively }
    }
}

impl fmt::Display for Role {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Strip {
    /// An empty strip for `wording`.
    #[must_use]
    pub fn new(role: Role, wording: Wording) -> Self {
        let rules = Rules::new(role.usual_mix());
        Self {
            role,
            letters: vec![None; wording.len()],
            wording,
            rules,
            setting: Setting::default(),
            place: Place::default(),
            accepted: BTreeSet::new(),
            stuck: None,
        }
    }

    /// What it is for.
    #[must_use]
    pub const fn role(&self) -> &Role {
        &self.role
    }

    /// What it says.
    #[must_use]
    pub const fn wording(&self) -> &Wording {
        &self.wording
    }

    /// What stands in each slot.
    #[must_use]
    pub fn letters(&self) -> &[Option<Stood>] {
        &self.letters
    }

    /// What stands in `slot`, from 0.
    #[must_use]
    pub fn letter(&self, slot: usize) -> Option<&Stood> {
        self.letters.get(slot)?.as_ref()
    }

    /// How many slots there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.letters.len()
    }

    /// Whether it asks for nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.letters.is_empty()
    }

    /// Whether the letter in `slot` is on the page already: its sticker is off the stash.
    #[must_use]
    pub fn is_down(&self, slot: usize) -> bool {
        self.stuck.is_some() && self.letter(slot).is_some_and(|stood| !stood.loose)
    }

    /// The stash's letters on it that are not stuck down yet, each as often as it stands: they are spoken for.
    pub fn spoken_for(&self) -> impl Iterator<Item = &ChipId> {
        let open = |slot: &usize| !self.is_down(*slot);
        (0..self.len()).filter(open).filter_map(|slot| self.letter(slot)?.chip())
    }

    /// The slots with nothing in them.
    pub fn empty_slots(&self) -> impl Iterator<Item = usize> + '_ {
        self.letters.iter().enumerate().filter(|(_, letter)| letter.is_none()).map(|(slot, _)| slot)
    }

    /// The first slot with nothing in it.
    #[must_use]
    pub fn first_empty(&self) -> Option<usize> {
        self.letters.iter().position(Option::is_none)
    }

    /// The stash's letters that stand on it, each as often as it stands.
    pub fn chips(&self) -> impl Iterator<Item = &ChipId> {
        self.letters.iter().flatten().filter_map(Stood::chip)
    }

    /// Puts `letter` in `slot` and gives back what stood there; nothing happens beyond the last slot.
    pub(crate) fn put(&mut self, slot: usize, letter: Option<Stood>) -> Option<Stood> {
        self.letters.get_mut(slot).and_then(|place| std::mem::replace(place, letter))
    }

    /// Exchanges what stands in two slots.
    pub(crate) fn exchange(&mut self, a: usize, b: usize) {
        if a < self.len() && b < self.len() {
            self.letters.swap(a, b);
        }
    }

    /// Changes the wording and all letters at once; `letters` is cut or filled up to the wording's slots.
    pub(crate) fn reword(
        &mut self,
        wording: Wording,
        mut letters: Vec<Option<Stood>>,
    ) -> (Wording, Vec<Option<Stood>>) {
        letters.resize(wording.len(), None);
        (std::mem::replace(&mut self.wording, wording), std::mem::replace(&mut self.letters, letters))
    }
}
