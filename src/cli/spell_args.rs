//! The arguments of the commands that tell what can be spelled.
//!
//! Must not know what a command does.

use std::path::PathBuf;
use std::time::Duration;

use clap::Args as ClapArgs;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use crate::app::read_heights;
use crate::measure::{Length, Unit};
use crate::title::{CaseRule, FormRule, Wording};

use super::time_limit::seconds;

/// What is asked of the letters.
#[derive(Debug, ClapArgs)]
pub(super) struct LettersAsked {
    /// Which case of a letter may stand for another, as in a page plan.
    #[arg(long, value_name = "CASE", default_value = "any", value_parser = case_rule())]
    pub(super) case: CaseRule,
    /// Which forms may be used, as in a page plan.
    #[arg(long, value_name = "FORMS", default_value = "any", value_parser = form_rule())]
    pub(super) forms: FormRule,
    /// The least and the greatest height, such as 18-26 in mm, or 0.75-1in.
    #[arg(long, value_name = "HEIGHTS", value_parser = heights)]
    pub(super) tall: Option<(Length, Length)>,
    /// Leave alone the letters that page plans speak for.
    #[arg(long)]
    pub(super) spare_plans: bool,
}

/// Arguments of `spell`.
#[derive(Debug, ClapArgs)]
pub(super) struct Spell {
    /// What is to be spelled; | starts a second line. May be given again.
    #[arg(value_name = "WORDING", required_unless_present = "list")]
    pub(super) wordings: Vec<String>,
    /// A file of wordings too, one a line; - for standard input. Blank lines and those that begin with # are left out.
    #[arg(long, value_name = "FILE")]
    pub(super) list: Option<PathBuf>,
    /// Tell why each stand-in is believed and what it costs, and which heights come nearest to what cannot be spelled.
    #[arg(long)]
    pub(super) explain: bool,
    #[command(flatten)]
    pub(super) letters: LettersAsked,
}

/// Arguments of `wishes`.
#[derive(Debug, ClapArgs)]
pub(super) struct Wishes {
    /// Wish for a title; | starts a second line.
    #[arg(long, value_name = "WORDING", conflicts_with = "drop")]
    pub(super) add: Option<String>,
    /// Anything worth remembering of the title that is added.
    #[arg(long, value_name = "NOTE", requires = "add")]
    pub(super) note: Option<String>,
    /// Wish for a title no longer.
    #[arg(long, value_name = "WORDING")]
    pub(super) drop: Option<String>,
    /// A title wished for that has to be among those made together. May be given again.
    #[arg(long, value_name = "WORDING")]
    pub(super) must: Vec<String>,
    /// How long to search for those at most; the answer says what is proved by then.
    #[arg(long, value_name = "S", default_value = "10", value_parser = seconds)]
    pub(super) seconds: Duration,
    #[command(flatten)]
    pub(super) letters: LettersAsked,
}

/// Arguments of `ideas`.
#[derive(Debug, ClapArgs)]
pub(super) struct Ideas {
    /// A wording that the word is to stand beside: both are spelled in letters of like height; | starts a second line.
    pub(super) beside: Option<String>,
    /// How many letters a word has.
    #[arg(long, value_name = "LETTERS", default_value = "3-20", value_parser = length)]
    pub(super) length: (usize, usize),
    /// Letters that must be in it, each as often as it stands here, such as ZZ; case does not matter.
    #[arg(long, value_name = "LETTERS")]
    pub(super) with: Option<String>,
    /// At most so many letters of which few are left: letters that English needs, three or fewer of that height.
    #[arg(long, value_name = "N")]
    pub(super) scarce: Option<u32>,
    /// Let letters stand in for others.
    #[arg(long)]
    pub(super) stand_ins: bool,
    /// A file of words or wordings to look through, one a line, in place of words.txt and the English words; - for standard
    /// input.
    #[arg(long, value_name = "FILE")]
    pub(super) list: Option<PathBuf>,
    /// How many words at most.
    #[arg(long, value_name = "K", default_value_t = 40, value_parser = clap::value_parser!(u32).range(1..))]
    pub(super) count: u32,
    #[command(flatten)]
    pub(super) letters: LettersAsked,
}

/// Arguments of `restock`.
#[derive(Debug, ClapArgs)]
pub(super) struct Restock {
    #[command(flatten)]
    pub(super) letters: LettersAsked,
}

fn case_rule() -> impl TypedValueParser<Value = CaseRule> {
    let words = CaseRule::ALL.iter().map(|one| one.as_str());
    PossibleValuesParser::new(words).map(|word| CaseRule::parse(&word).unwrap_or(CaseRule::Any))
}

fn form_rule() -> impl TypedValueParser<Value = FormRule> {
    let words = FormRule::ALL.iter().map(|one| one.as_str());
    PossibleValuesParser::new(words).map(|word| FormRule::parse(&word).unwrap_or(FormRule::Any))
}

/// Reads a least and a greatest height.
fn heights(text: &str) -> Result<(Length, Length), String> {
    let sensible = |&(least, _): &(Length, Length)| least > Length::ZERO;
    let read = read_heights(text.trim(), Unit::Millimetre).filter(sensible);
    read.ok_or_else(|| "heights are a least and a greatest one, such as 18-26 or 0.75-1in".into())
}

/// Reads `4-8`, or `5` for words of five letters alone.
fn length(text: &str) -> Result<(usize, usize), String> {
    let (least, most) = text.split_once('-').unwrap_or((text, text));
    let read = least.trim().parse().ok().zip(most.trim().parse().ok());
    let sensible = |&(least, most): &(usize, usize)| 0 < least && least <= most && most <= Wording::MOST;
    read.filter(sensible).ok_or_else(|| {
        format!("a length is a number of letters from 1 to {}, or two as in 4-8", Wording::MOST)
    })
}
