//! What the stash can spell: whether, with which stand-ins at least cost, and what is short.
//!
//! A wording is spelled where each of its letters gets a sticker of its own, all of them within one band of heights. The answers
//! are exact: an assignment at least cost, never a letter at a time. Must not know screens, files or checks.

mod alphabet;
mod answer;
mod asking;
mod band;
mod demand;
mod flow;
mod gather;
mod group;
mod ideas;
mod look;
mod restock;
mod rows;
mod sharing;
mod sizes;
mod speller;
mod stock;
mod together;
mod word_list;
mod written;

pub use answer::{Answer, Short, StandsIn};
pub use asking::{Asking, Costs};
pub use band::{BAND, Band, BandIx};
pub use demand::Demand;
pub use ideas::{Idea, IdeaRules, Ideas};
pub use restock::{
    Better, Count, Leftover, NEARLY_SPENT, Possible, Running, RunningOut, Shop, StillShort, Unlocks,
    leftovers,
};
pub use sharing::Sharing;
pub use sizes::There;
pub use speller::Speller;
pub use stock::Supply;
pub use together::{Made, Together};
pub use word_list::WordList;

use crate::words::words;

words! {
    /// Whether a wording can be spelled.
    Verdict {
        /// By its own letters, within one band of heights; two cases of one shape are one letter.
        Now = "now",
        /// Within one band of heights, but with stand-ins.
        StandIns = "stand-ins",
        /// Only if letters of unlike heights stand side by side.
        MixedHeights = "mixed heights",
        /// Not with what is left.
        Short = "short",
    }
}
