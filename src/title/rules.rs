//! What a strip asks of its letters beyond the wording.
//!
//! Must not know the letters.

use crate::letter::Character;
use crate::measure::{Length, Tint};
use crate::stash::Form;
use crate::words::words;

words! {
    /// Which case of a letter may stand for another.
    CaseRule {
        /// Any; another case is a stand-in.
        Any = "any",
        /// As the wording has it.
        AsWritten = "as-written",
        /// Capitals only.
        Upper = "upper",
        /// Small letters only.
        Lower = "lower",
    }
}

words! {
    /// Which forms the strip is made of.
    FormRule {
        /// Either.
        Any = "any",
        /// Tiles.
        Tile = "tile",
        /// Die-cut letters.
        DieCut = "die-cut",
    }
}

words! {
    /// How mixed the line is meant to look.
    Mix {
        /// Neighbours differ.
        Lively = "lively",
        /// Each word of one kind.
        Words = "words",
        /// No wish.
        Plain = "plain",
    }
}

/// What a strip asks of its letters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rules {
    /// Which case may stand.
    pub case: CaseRule,
    /// Which forms it is made of.
    pub forms: FormRule,
    /// How mixed it is meant to look.
    pub mix: Mix,
    /// Heights that suit, least and most; absent: by the page.
    pub tall: Option<(Length, Length)>,
    /// The longest line; absent: by the page.
    pub room: Option<Length>,
    /// What lies under the letters; absent: by the page.
    pub on: Option<Tint>,
}

impl Rules {
    /// A fresh strip's rules.
    #[must_use]
    pub const fn new(mix: Mix) -> Self {
        Self { case: CaseRule::Any, forms: FormRule::Any, mix, tall: None, room: None, on: None }
    }

    /// The character that the case rule asks for where the wording has `written`. A letter whose other case is more
    /// than one grapheme (ß) stays as written.
    #[must_use]
    pub fn wanted(&self, written: &Character) -> Character {
        match self.case {
            CaseRule::Any | CaseRule::AsWritten => None,
            CaseRule::Upper => written.to_upper(),
            CaseRule::Lower => written.to_lower(),
        }
        .unwrap_or_else(|| written.clone())
    }

    /// Whether a letter of another case may stand in.
    #[must_use]
    pub fn allows_other_case(&self) -> bool {
        self.case == CaseRule::Any
    }
}

impl FormRule {
    /// Whether a sticker of this form keeps the rule.
    #[must_use]
    pub fn allows(self, form: Form) -> bool {
        match self {
            Self::Any => true,
            Self::Tile => form == Form::Tile,
            Self::DieCut => form == Form::DieCut,
        }
    }
}
