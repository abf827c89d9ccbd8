//! `oddment order PLAN`: the placement order.
//!
//! Must not know how it is set on paper.

mod place;

use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::Result;

use crate::files::{SavedOrder, escaped, order_files, replace_file};
use crate::measure::Unit;
use crate::order::{Form, Order as PlacementOrder};
use crate::page::Paper;
use crate::print::{About, Head, Sheet, is_sheet_of_order, order_text, pdf, sheets, svg};

use super::args::{Args, Order, RulerUnit};
use super::opened::Opened;
use super::say::{Fault, answer_bytes, say_beside, so_many};

use place::is_fit;

pub(super) fn run(args: &Args, order: &Order) -> Result<ExitCode> {
    let file = order.output.as_deref().filter(|file| *file != Path::new("-"));
    let form = form(order, file);
    if args.json {
        return refuse("an order has no JSON; leave --json out, or ask check, suggest or places");
    }
    if form == Form::Text && (order.paper.is_some() || order.sheet.is_some()) {
        return refuse("text is not set on sheets of paper; --paper and --sheet go with --form svg or pdf");
    }
    let opened = Opened::plan(args, &order.plan)?;
    if let Some(file) = file {
        is_fit(file, &opened)?;
    }
    let unit = match order.unit {
        RulerUnit::Mm => Unit::Millimetre,
        RulerUnit::In => Unit::Inch,
    };
    let slug = opened.file.slug().as_str();
    let placed = PlacementOrder::of(&opened.plan, &opened.shelf.stash);
    let head = Head { date: order.date.clone(), file: Some(slug.to_owned()) };
    if form == Form::Text {
        return give(file, order_text(&placed, &head, unit).as_bytes());
    }
    if form == Form::Pdf && file.is_none() && io::stdout().is_terminal() {
        return refuse(&format!("a terminal shows no PDF; write it to a file: -o {slug}.pdf"));
    }
    let paper = order.paper.unwrap_or_else(|| Paper::usual(unit));
    let all = sheets(&placed, &head, paper, unit).map_err(|error| Fault::Input(error.to_string()))?;
    let chosen = match order.sheet {
        Some(number) => std::slice::from_ref(sheet(&all, number)?),
        None => &all[..],
    };
    let about = About::of(&placed, &head);
    match (form, file, chosen) {
        (Form::Pdf, ..) => give(file, &pdf(chosen, &about)),
        (_, Some(file), all) if order.sheet.is_none() => give_all(file, all, &about, &opened),
        (_, _, [one]) => give(file, svg(one, &about).as_bytes()),
        (_, _, several) => {
            let count = several.len();
            refuse(&format!(
                "an SVG holds one sheet, and this order has {count}: choose one with --sheet N, or write all: -o {slug}.svg"
            ))
        }
    }
}

/// The form asked for, or the one that the file's ending tells.
fn form(order: &Order, file: Option<&Path>) -> Form {
    let ending = file.and_then(Path::extension).and_then(|ending| ending.to_str());
    let told = ending.and_then(|ending| Form::parse(&ending.to_ascii_lowercase()));
    order.form.or(told).unwrap_or(Form::Text)
}

fn sheet(all: &[Sheet], number: u16) -> Result<&Sheet> {
    all.get(usize::from(number) - 1).ok_or_else(|| {
        let count = so_many(u32::try_from(all.len()).unwrap_or(u32::MAX), "sheet");
        Fault::Input(format!("there is no sheet {number}; this order has {count}")).into()
    })
}

/// Writes the file, or prints where there is none.
fn give(file: Option<&Path>, bytes: &[u8]) -> Result<ExitCode> {
    match file {
        Some(file) => replace_file(file, bytes)?,
        None => answer_bytes(bytes)?,
    }
    Ok(ExitCode::SUCCESS)
}

/// Writes all sheets, each to a file of its own if they are several; tells which are there, and what is gone.
fn give_all(file: &Path, sheets: &[Sheet], about: &About, opened: &Opened) -> Result<ExitCode> {
    order_files(file, sheets.len()).iter().try_for_each(|file| is_fit(file, opened))?;
    let drawings: Vec<Vec<u8>> = sheets.iter().map(|sheet| svg(sheet, about).into_bytes()).collect();
    let SavedOrder { paths, removed, .. } = opened.folder.save_order(file, &drawings, is_sheet_of_order)?;
    let mut told = Vec::new();
    if paths.len() > 1 {
        told.push(format!("wrote {}", listed(&paths)));
    }
    if !removed.is_empty() {
        told.push(format!("took away, of an earlier order: {}", listed(&removed)));
    }
    if !told.is_empty() {
        say_beside(&told.join("; "))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn listed(files: &[PathBuf]) -> String {
    let shown: Vec<String> = files.iter().map(|file| escaped(&file.display().to_string())).collect();
    shown.join(", ")
}

fn refuse(why: &str) -> Result<ExitCode> {
    Err(Fault::Input(why.to_owned()).into())
}
