//! `oddment man`: the manual page, made from the parser and from the table of actions.
//!
//! Must not know what a command or an action does.

use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use clap::Arg;
use clap_mangen::Man;
use clap_mangen::roff::{Roff, bold, roman};

use crate::app::{ACTIONS, Reach, Row};

use super::args::Args;
use super::say::answer;

/// The date of the manual page.
const DATE: &str = "2026-11-25";

pub(super) fn run() -> Result<ExitCode> {
    answer(&page()?)?;
    Ok(ExitCode::SUCCESS)
}

/// The manual page in roff.
pub(super) fn page() -> Result<String> {
    let command = Args::for_documents();
    let man = Man::new(command.clone()).date(DATE).section("1").manual("oddment manual");
    let mut page = Vec::new();
    man.render_title(&mut page)?;
    man.render_name_section(&mut page)?;
    synopsis().to_writer(&mut page)?;
    man.render_description_section(&mut page)?;
    man.render_options_section(&mut page)?;
    commands(&command).to_writer(&mut page)?;
    keys().to_writer(&mut page)?;
    rest().to_writer(&mut page)?;
    Ok(String::from_utf8_lossy(&page).into_owned())
}

/// The three ways to call it.
fn synopsis() -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["SYNOPSIS"]);
    for (place, rest) in
        [" [--stash DIR] [PLAN]", " --sample", " [--stash DIR] [--json] COMMAND [ARGUMENT ...]"]
            .into_iter()
            .enumerate()
    {
        if place > 0 {
            roff.control("br", []);
        }
        roff.text([bold("oddment"), roman(rest)]);
    }
    roff
}

/// Every command with its own arguments.
fn commands(command: &clap::Command) -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["COMMANDS"]);
    for one in command.get_subcommands() {
        let mut usage = one.get_name().to_owned();
        for argument in one.get_positionals() {
            let several = argument.get_num_args().is_some_and(|times| times.max_values() > 1);
            let name = value_name(argument).to_owned() + if several { " ..." } else { "" };
            let _ = if argument.is_required_set() {
                write!(usage, " {name}")
            } else {
                write!(usage, " [{name}]")
            };
        }
        roff.control("TP", []);
        roff.text([bold(usage)]);
        let about = one.get_long_about().or(one.get_about()).map(ToString::to_string);
        roff.text([roman(sentence(about).replace("\n\n", " "))]);
        let own =
            |option: &&Arg| !option.is_positional() && !option.is_global_set() && option.get_id() != "help";
        for option in one.get_arguments().filter(own) {
            let short = option.get_short().map_or_else(String::new, |short| format!("-{short}, "));
            let usage = format!("{short}--{} {}", option.get_long().unwrap_or(""), value_name(option));
            let usage = usage.trim_end().to_owned();
            roff.control("br", []);
            roff.text([bold(usage), roman(format!(": {}{}", sentence(help(option)), choices(option)))]);
        }
    }
    roff
}

/// What stands for an argument's value; nothing where it takes none.
fn value_name(argument: &Arg) -> &str {
    let names = argument.get_value_names().filter(|_| argument.get_action().takes_values());
    names.and_then(|names| names.first()).map_or("", |name| name.as_str())
}

fn help(argument: &Arg) -> Option<String> {
    argument.get_help().map(ToString::to_string)
}

/// The words that an option takes, where they are few, and what it usually is.
fn choices(option: &Arg) -> String {
    let words = option.get_possible_values();
    let words: Vec<&str> = words.iter().map(clap::builder::PossibleValue::get_name).collect();
    let usual: Vec<String> =
        option.get_default_values().iter().map(|usual| usual.to_string_lossy().into_owned()).collect();
    match (option.get_action().takes_values(), words.is_empty(), usual.is_empty()) {
        (false, ..) | (_, true, true) => String::new(),
        (_, true, false) => format!(" Usually {}.", usual.join(", ")),
        (_, false, true) => format!(" One of: {}.", words.join(", ")),
        _ => format!(" One of: {}; usually {}.", words.join(", "), usual.join(", ")),
    }
}

/// The parser's texts end without a full stop; a manual's sentence has one.
fn sentence(text: Option<String>) -> String {
    let text = text.unwrap_or_default();
    if text.is_empty() || text.ends_with('.') { text } else { text + "." }
}

/// Every action with its name and its keys.
fn keys() -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["KEYS"]);
    roff.text([roman(
        "Each action with the keys it comes with. keys.toml in the stash's folder changes them: an action's name, then a \
         key or a list of keys. In the program, ? lists those that work where you are.",
    )]);
    let mut last: Option<Reach> = None;
    for row in ACTIONS {
        if last != Some(row.reach) {
            roff.control("SS", [place(row)]);
            last = Some(row.reach);
        }
        roff.control("TP", []);
        roff.text([bold(row.name), roman(format!(" ({})", row.keys.join(", ")))]);
        roff.text([roman(row.help)]);
    }
    roff
}

fn place(row: &Row) -> &'static str {
    use crate::app::Focus;
    match row.reach {
        Reach::Bench => "In every pane of the bench",
        Reach::Trial => "On the bench, on the page and among wordings",
        Reach::Wordings => "Among wordings: wishes and ideas",
        Reach::Views => "In every view",
        Reach::Sheet => "While a sheet is in hand",
        Reach::Both => "In every view, and in lists and pages over it",
        Reach::Over => "In lists and pages over the bench",
        Reach::In(Focus::Strip) => "On the strip",
        Reach::In(Focus::Grid) => "Among the chips",
        Reach::In(Focus::Checks) => "Among the checks",
        Reach::In(Focus::OnPage) => "On the page",
        Reach::In(Focus::Wishes) => "Among the wishes",
        Reach::In(Focus::Ideas) => "Among the ideas",
        Reach::In(Focus::Sheets) => "Among the sheets of the stash",
        Reach::In(Focus::Fields) => "At what is told of a sheet",
        Reach::In(Focus::Swatches) => "While a colour is chosen",
        Reach::In(Focus::Letters) => "While letters are counted",
        Reach::In(Focus::Alternates) => "In the list of alternates",
        Reach::In(Focus::Compare) => "While two trials are compared",
        Reach::In(Focus::Suggestions) => "At a suggestion",
        Reach::In(Focus::OneMore) => "While it is told what one more letter would do",
        Reach::In(Focus::Order) => "In the placement order",
        Reach::In(Focus::Plans) => "In the list of plans",
        Reach::In(Focus::Page) => "In a page of text",
        Reach::In(Focus::Typing) => "While a line is typed",
        Reach::In(Focus::Question) => "At a question",
    }
}

fn rest() -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["FILES"]);
    roff.text([roman("The stash is a folder of plain text: see oddment-files(5).")]);
    roff.control("SH", ["CAUTIONS"]);
    roff.text([roman(
        "A trimmed stand-in is cut with a craft knife: on a cutting mat, with a fresh blade, away from the fingers. \
         Stick nothing on an original photo, and use adhesives that are safe for photos.",
    )]);
    roff.control("SH", ["EXIT STATUS"]);
    for (status, meaning) in [
        ("0", "Done."),
        (
            "1",
            "Done, but the answer is no: something keeps the title from being stuck down, or no mix fills every slot.",
        ),
        ("2", "Wrong use or bad input."),
        ("3", "The system failed: a disk, a lock."),
    ] {
        roff.control("TP", []);
        roff.text([bold(status)]);
        roff.text([roman(meaning)]);
    }
    roff.control("SH", ["ENVIRONMENT"]);
    for (name, meaning) in [
        ("ODDMENT_STASH", "The folder of the stash, unless --stash names one."),
        ("NO_COLOR", "If it is set and not empty, no colour is used; each colour is named in words."),
        ("COLORTERM, TERM", "How many colours the terminal has. TERM=dumb is refused."),
    ] {
        roff.control("TP", []);
        roff.text([bold(name)]);
        roff.text([roman(meaning)]);
    }
    roff.control("SH", ["SEE ALSO"]);
    roff.text([roman("oddment-files(5)")]);
    roff
}
