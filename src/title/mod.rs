//! A title on its strip: the wording, the letters that stand for it, where they lie, and every edit with its inverse.
//!
//! Must not know pages or screens.

mod cut;
mod edit;
mod layout;
mod place;
mod rules;
mod shape;
mod spacing;
mod stood;
mod strip;
mod wish;
mod wording;

pub use cut::{Cut, cuts, wished};
pub use edit::Edit;
pub use layout::{Layout, LetterBox, LineBox};
pub use place::Place;
pub use rules::{CaseRule, FormRule, Mix, Rules};
pub use shape::standing_width;
pub use spacing::{LineUp, Setting, Spacing};
pub use stood::{ByHand, Sticker, Stood};
pub use strip::{Role, RoleError, Strip};
pub use wish::Wish;
pub use wording::{Asked, Joint, Wording, WordingError};
