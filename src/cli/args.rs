//! The arguments, from which parser, help, completions and the manual page are made.
//!
//! Must not know what a command does.

use std::path::PathBuf;
use std::time::Duration;

use anyhow::Result;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args as ClapArgs, CommandFactory, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

use crate::files::StashFolder;
use crate::order::Form;
use crate::page::Paper;

use super::spell_args::{Ideas, Restock, Spell, Wishes};
use super::time_limit::seconds;

/// Make an album page's title out of the remains of many alphabet sticker sheets.
///
/// Without a command it opens the bench: the letters that are left, a carrier strip to try them on, and live checks.
#[derive(Debug, Parser)]
#[command(name = "oddment", version, max_term_width = 100)]
pub(super) struct Args {
    /// The page plan to open: its name, or the path of its file; a new one without it.
    pub(super) plan: Option<String>,

    /// Open a scratch copy of the sample stash; where it is, is printed on leaving.
    #[arg(long, conflicts_with = "stash")]
    pub(super) sample: bool,

    /// The folder of the stash; else the one in `ODDMENT_STASH`, else this system's folder for data.
    #[arg(long, global = true, value_name = "DIR")]
    pub(super) stash: Option<PathBuf>,

    /// Answer in JSON, for other programs.
    #[arg(long, global = true)]
    pub(super) json: bool,

    /// What to do.
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Write a page plan to start from.
    New(New),
    /// Judge a page plan: its findings and its score; exit 1 where something keeps it from being stuck down.
    Check(Check),
    /// Find the best mix of letters for a page plan; exit 1 where there is none, or a slot has to stay empty.
    ///
    /// Pinned letters, things by hand and strips that are stuck down are left alone. Nothing is written without --apply.
    Suggest(Suggest),
    /// Find where on its page a strip rests best; exit 1 where it finds no room.
    ///
    /// Best: it touches what is there, traps no bare paper, covers nothing that must not be covered, and stays within the
    /// margins. Nothing is written without --apply.
    Places(Places),
    /// Print the placement order of a page plan: as text, as drawings of its sheets of paper (SVG), or as a PDF.
    ///
    /// A millimetre of a drawing is a millimetre of paper: print it at 100 % and measure the check bars. The same plan always
    /// gives the same bytes.
    Order(Order),
    /// Tell whether wordings can be spelled with what is left: now, with stand-ins, only in mixed heights, or short of letters;
    /// exit 1 where one is short.
    ///
    /// A wording can be spelled where each of its letters gets a sticker of its own, all of them of like height.
    Spell(Spell),
    /// Tell which of the titles wished for can be spelled, each alone, and the most of them that can be made together; exit 1
    /// where one is short, none is wished for, or one that must be made cannot.
    ///
    /// Made together no sticker is used twice, and each title is made of letters of like height. With --add or --drop the list
    /// is changed first, and the exit status tells only of that.
    Wishes(Wishes),
    /// Find words that can be spelled now; exit 1 where there is none.
    ///
    /// Each word is tried in capitals, with a first capital and in small letters. Those of words.txt in the stash's folder come
    /// first, if there is one, then the English words that the program carries, the commonest first.
    Ideas(Ideas),
    /// Tell what to look for in a shop: which letters run out first, which of the titles wished for each sheet in on-sale.toml
    /// would unlock, and what can still be made of sheets that are nearly spent.
    Restock(Restock),
    /// List what is left: all sheets, or the letters of one.
    Stash(Stash),
    /// Take in a table of letters, as stash --csv prints it or a spreadsheet saves it (CSV): new sheets, and recounts of letters
    /// of sheets that are there; exit 1 where it holds no letter.
    ///
    /// All of it or nothing: with any mistake in it, every mistake is told and nothing is taken in. oddment-files(5) tells the
    /// columns.
    TakeIn(TakeIn),
    /// Count letters of a sheet in, out or anew; exit 1 where there are too few to count out.
    Count(Count),
    /// Take a plan's letters off the stash: they are stuck down; exit 1 where they cannot be, or are already.
    Stick(Stick),
    /// Put a plan's letters back into the stash: they came off the page; exit 1 where none is stuck down.
    Lift(LiftArgs),
    /// Look the whole stash over and tell what is wrong, and what would mend it; exit 1 where anything is left wrong.
    ///
    /// Nothing is changed without --write. Files that mending changes are first copied to a folder in kept-aside.
    Mend(Mend),
    /// Print completions for a shell.
    Completions {
        /// The shell.
        shell: Shell,
    },
    /// Print the manual page.
    Man,
}

/// Arguments of `new`.
#[derive(Debug, ClapArgs)]
pub(super) struct New {
    /// The page's name; the plan's file is called after it.
    pub(super) name: String,
    /// What the title says; | starts a second line.
    #[arg(long, value_name = "WORDS")]
    pub(super) wording: Option<String>,
    /// The page's size, such as "12 x 12 in", "300 x 300 mm", A4 or letter.
    #[arg(long, value_name = "SIZE")]
    pub(super) page_size: Option<String>,
    /// The colour of the paper under everything.
    #[arg(long, value_name = "COLOUR")]
    pub(super) ground: Option<String>,
}

/// Arguments of `check`.
#[derive(Debug, ClapArgs)]
pub(super) struct Check {
    /// The page plan: its name, or the path of its file.
    pub(super) plan: String,
}

/// Arguments of `suggest`.
#[derive(Debug, ClapArgs)]
pub(super) struct Suggest {
    /// The page plan: its name, or the path of its file.
    pub(super) plan: String,
    /// Ask about one strip only, by its role, such as title; the others stay as they are.
    #[arg(long, value_name = "ROLE")]
    pub(super) strip: Option<String>,
    /// How many mixes, at most 100; each differs from all before it.
    #[arg(long, value_name = "K", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=100))]
    pub(super) count: u8,
    /// How long to search at most; the answer says what is proved by then.
    #[arg(long, value_name = "S", default_value = "10", value_parser = seconds)]
    pub(super) seconds: Duration,
    /// Write the first mix into the plan; a plan that scores less already is left as it is.
    #[arg(long)]
    pub(super) apply: bool,
    /// Tell what the points of each letter and each line are for.
    #[arg(long)]
    pub(super) explain: bool,
}

/// Arguments of `places`.
#[derive(Debug, ClapArgs)]
pub(super) struct Places {
    /// The page plan: its name, or the path of its file.
    pub(super) plan: String,
    /// The strip, by its role, such as title; else the plan's first.
    #[arg(long, value_name = "ROLE")]
    pub(super) strip: Option<String>,
    /// How many places, at most 100; each half a letter's height or more from all before it.
    #[arg(long, value_name = "K", default_value_t = 5, value_parser = clap::value_parser!(u8).range(1..=100))]
    pub(super) count: u8,
    /// How long to search at most.
    #[arg(long, value_name = "S", default_value = "10", value_parser = seconds)]
    pub(super) seconds: Duration,
    /// Write the first place into the plan.
    #[arg(long)]
    pub(super) apply: bool,
}

/// Arguments of `order`.
#[derive(Debug, ClapArgs)]
pub(super) struct Order {
    /// The page plan: its name, or the path of its file.
    pub(super) plan: String,
    /// The form it is printed in; else the one that FILE ends in, else text of 80 columns.
    #[arg(long, value_name = "FORM", value_parser = form())]
    pub(super) form: Option<Form>,
    /// The paper that the sheets of svg and pdf are for; else a4, with --unit in letter.
    #[arg(long, value_name = "PAPER", value_parser = paper())]
    pub(super) paper: Option<Paper>,
    /// The unit of its lengths.
    #[arg(long, value_enum, default_value_t = RulerUnit::Mm)]
    pub(super) unit: RulerUnit,
    /// The day of printing, as it shall read; else there is room to write it.
    #[arg(long, value_name = "DATE", value_parser = one_line)]
    pub(super) date: Option<String>,
    /// This sheet alone, counted from 1, of svg or pdf.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..))]
    pub(super) sheet: Option<u16>,
    /// The file to write; else, or for -, standard output. An svg holds one sheet: quay.svg of several becomes quay-1.svg,
    /// quay-2.svg and so on, and what a longer order left of such sheets goes.
    #[arg(short, long, value_name = "FILE")]
    pub(super) output: Option<PathBuf>,
}

/// The units of a ruler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum RulerUnit {
    /// Millimetres.
    Mm,
    /// Inches, to the sixteenth.
    In,
}

/// Arguments of `stash`.
#[derive(Debug, ClapArgs)]
pub(super) struct Stash {
    /// The sheet: its file's name without .toml, or its tag; all of them without it.
    pub(super) sheet: Option<String>,
    /// Print a table for a spreadsheet (CSV), one row for each kind of letter; take-in reads it. A character such as = or + is
    /// printed as it is: have the spreadsheet read that column as text.
    #[arg(long, conflicts_with_all = ["by_tag", "history", "json"])]
    pub(super) csv: bool,
    /// List all sheets for paper, in the order of their tags, with the letters left on each; spent sheets last.
    #[arg(long, conflicts_with_all = ["sheet", "history"])]
    pub(super) by_tag: bool,
    /// Tell what happened to the sheet, the newest first.
    #[arg(long, requires = "sheet")]
    pub(super) history: bool,
}

/// Arguments of `take-in`.
#[derive(Debug, ClapArgs)]
pub(super) struct TakeIn {
    /// The file of the table; - for standard input.
    pub(super) file: PathBuf,
    /// Only tell what it would take in.
    #[arg(long)]
    pub(super) only_tell: bool,
}

/// Arguments of `count`.
#[derive(Debug, ClapArgs)]
#[command(group = clap::ArgGroup::new("how").args(["add", "take", "set"]))]
pub(super) struct Count {
    /// The sheet: its file's name without .toml, or its tag where no other has the same.
    pub(super) sheet: String,
    /// The letters as they are read off the sheet, one after the other, such as AAEIO&.
    pub(super) letters: String,
    /// Count them in; so it is without --take or --set.
    #[arg(long)]
    pub(super) add: bool,
    /// Count them out.
    #[arg(long)]
    pub(super) take: bool,
    /// So many of each of these characters are left; others stay as they are.
    #[arg(long)]
    pub(super) set: bool,
    /// The mark of the letters, where the sheet has several of a character.
    #[arg(long, value_name = "MARK")]
    pub(super) mark: Option<String>,
}

/// Arguments of `stick`.
#[derive(Debug, ClapArgs)]
pub(super) struct Stick {
    /// The page plan: its name, or the path of its file.
    pub(super) plan: String,
    /// One strip only, by its role, such as title.
    #[arg(long, value_name = "ROLE")]
    pub(super) strip: Option<String>,
}

/// Arguments of `lift`.
#[derive(Debug, ClapArgs)]
pub(super) struct LiftArgs {
    /// The page plan: its name, or the path of its file.
    pub(super) plan: String,
    /// One strip only, by its role, such as title.
    #[arg(long, value_name = "ROLE")]
    pub(super) strip: Option<String>,
    /// Only the letter in this slot, counted from 1; its slot is empty then. May be given again.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..))]
    pub(super) slot: Vec<u16>,
    /// The letters tore as they came off: they are spent and do not go back.
    #[arg(long)]
    pub(super) torn: bool,
}

/// Arguments of `mend`.
#[derive(Debug, ClapArgs)]
pub(super) struct Mend {
    /// Set right what can be set right.
    #[arg(long)]
    pub(super) write: bool,
}

fn form() -> impl TypedValueParser<Value = Form> {
    let words = Form::ALL.iter().map(|one| one.as_str());
    PossibleValuesParser::new(words).map(|word| Form::parse(&word).unwrap_or(Form::Text))
}

fn paper() -> impl TypedValueParser<Value = Paper> {
    let words = Paper::ALL.iter().map(|one| one.as_str());
    PossibleValuesParser::new(words).map(|word| Paper::parse(&word).unwrap_or(Paper::A4))
}

fn one_line(text: &str) -> Result<String, String> {
    if text.contains(char::is_control) {
        Err("it is printed on one line".into())
    } else {
        Ok(text.to_owned())
    }
}

impl Args {
    /// The folder of the stash.
    pub(super) fn folder(&self) -> Result<StashFolder> {
        // Not left to the parser: it would take the variable for a --stash that was written, which --sample excludes.
        let told = || std::env::var_os("ODDMENT_STASH").filter(|path| !path.is_empty()).map(PathBuf::from);
        match self.stash.clone().or_else(told) {
            Some(path) => Ok(StashFolder::at(path)),
            None => Ok(StashFolder::usual()?),
        }
    }

    /// The command, for completions and the manual page.
    pub(super) fn for_documents() -> clap::Command {
        Self::command()
    }
}
