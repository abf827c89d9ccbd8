//! Questions that need an answer before the program goes on.
//!
//! Must not know how they are drawn.

use crate::title::Wording;

use super::action::Action;
use super::effect::Then;
use super::key::{Key, KeyCode};
use super::keys::Keys;

/// A question to be answered by yes, no or neither.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Question {
    /// Something is not saved: save it before leaving?
    SaveBeforeLeaving,
    /// Something is not saved: save it before opening that plan?
    SaveBeforeOpening(String),
    /// A trial was kept when the program ended last time: go on with it?
    GoOnWithTrial,
    /// A sheet was being counted when the program ended: go on? With how many letters of which sheet.
    GoOnCounting(String),
    /// The stash is empty: try the sample?
    TrySample,
    /// Let go of the letters that were counted?
    DropCount,
    /// No letter was counted: is none left?
    NoneLeft,
    /// Take the letters off the stash?
    StickDown,
    /// Put the letters back?
    LiftAll,
    /// A letter came off the page: whole, or torn?
    LiftOne,
    /// Drop this title from the wishes?
    DropWish(Wording),
    /// Another hand has changed the plan's file, and the trial has changes of its own: take the file's? With what comes
    /// after saving, where that is what is kept waiting.
    TakeFile(Option<Then>),
}

impl Question {
    /// Whether enter may say yes: where yes loses nothing, and is what most want. An enter that is still held down, or
    /// pressed from habit, answers nothing else.
    const fn takes_enter(&self) -> bool {
        match self {
            Self::SaveBeforeLeaving
            | Self::SaveBeforeOpening(_)
            | Self::GoOnWithTrial
            | Self::GoOnCounting(_)
            | Self::StickDown => true,
            Self::TrySample
            | Self::DropCount
            | Self::NoneLeft
            | Self::LiftAll
            | Self::LiftOne
            | Self::DropWish(_)
            | Self::TakeFile(_) => false,
        }
    }

    /// Whether it can be left unanswered.
    #[must_use]
    pub const fn can_wait(&self) -> bool {
        !matches!(self, Self::GoOnWithTrial | Self::GoOnCounting(_))
    }

    /// The keys that answer it by `action`, of those that are bound to it. Enter alone stays where no other is bound.
    fn keys(&self, action: Action, keys: &Keys) -> Vec<Key> {
        let bound = keys.of(action);
        let without: Vec<Key> = bound.iter().copied().filter(|key| key.code() != KeyCode::Enter).collect();
        let is_grave = action == Action::Yes && !self.takes_enter() && !without.is_empty();
        if is_grave { without } else { bound.to_vec() }
    }

    /// Whether `key` answers it by `action`, to which it is bound.
    pub(super) fn is_answered_by(&self, key: Key, action: Action, keys: &Keys) -> bool {
        self.keys(action, keys).contains(&key)
    }

    /// The answers with the keys that give them: `y or enter: yes   n: no   esc: back`.
    #[must_use]
    pub fn answers(&self, keys: &Keys) -> String {
        let answers = [(Action::Yes, "yes"), (Action::No, "no"), (Action::Back, "back")];
        let given = answers.iter().filter(|(action, _)| *action != Action::Back || self.can_wait());
        let told = given.filter_map(|(action, word)| {
            // ctrl-c goes back everywhere: one key is enough to tell.
            let most = if *action == Action::Back { 1 } else { usize::MAX };
            let keys: Vec<String> =
                self.keys(*action, keys).iter().take(most).map(ToString::to_string).collect();
            (!keys.is_empty()).then(|| format!("{}: {word}", keys.join(" or ")))
        });
        told.collect::<Vec<_>>().join("   ")
    }

    /// The question in words.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Self::SaveBeforeLeaving => "The plan is not saved. Save it before leaving?".into(),
            Self::SaveBeforeOpening(slug) => format!("The plan is not saved. Save it before opening {slug}?"),
            Self::GoOnWithTrial => {
                "A trial of this plan was kept when the program ended. Go on with it?".into()
            }
            Self::GoOnCounting(told) => {
                format!(
                    "{told} were counted, and not yet kept, when the program ended. Go on counting? If not, they are put aside in a \
                     file."
                )
            }
            Self::DropCount => "Let go of this sheet, and of what was counted?".into(),
            Self::NoneLeft => "No letter was typed. Is none left on this sheet?".into(),
            Self::StickDown => {
                "Are the letters stuck down? They are taken off the stash, and the plan is saved.".into()
            }
            Self::LiftAll => "Did all the letters come off whole? They go back into the stash.".into(),
            Self::LiftOne => "Did this letter come off whole? y: back into the stash, and the plan is saved. n: it tore and is \
                 spent. esc: it is still down."
                .into(),
            Self::DropWish(wording) => {
                format!("Drop the wish {}?", wording.text().replace('\n', " | "))
            }
            Self::TakeFile(_) => {
                "The plan's file was changed outside, and this trial has changes of its own. Take the file's? \
                 Then this trial is set aside. If not, saving makes the file say what this trial says; of what \
                 the file says now, only comments and unknown keys stay."
                    .into()
            }
            Self::TrySample => {
                "There is no sheet in this stash yet. y: try the program on a sample stash. n: count in a first sheet. \
                 esc: look around."
                    .into()
            }
        }
    }
}
