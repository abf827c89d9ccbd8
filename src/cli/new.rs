//! `oddment new NAME`: a page plan to start from.
//!
//! Must not know how a plan is spelled in its file.

use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::files::PlanSlug;
use crate::measure::Unit;
use crate::page::{Page, page_size};
use crate::plan::Plan;
use crate::title::{Role, Strip, Wording};

use super::args::{Args, New};
use super::opened::right_to_write;
use super::say::{Fault, answer, answer_json};

#[derive(Serialize)]
struct Answer {
    format: u32,
    plan: String,
    file: String,
}

pub(super) fn run(args: &Args, new: &New) -> Result<ExitCode> {
    let folder = args.folder()?;
    let _writer = right_to_write(&folder)?;
    let loaded = folder.load()?;
    let wording = new.wording.as_deref().unwrap_or("").replace('|', "\n");
    let wording = Wording::new(&wording).map_err(|error| Fault::Input(format!("--wording: {error}")))?;
    let size = new.page_size.as_deref().map(|size| page_size(size, Unit::Millimetre)).transpose();
    let size = size.map_err(|error| Fault::Input(format!("--page-size: {error}")))?;
    let ground = new.ground.as_deref().map(|ground| loaded.colours.read(ground)).transpose();
    let ground = ground.map_err(|error| Fault::Input(format!("--ground: {error}")))?;
    if new.name.trim().is_empty() || new.name.chars().any(char::is_control) {
        return Err(Fault::Input("a page's name is a line of text".into()).into());
    }
    let page = Page { size, ground, ..Page::default() };
    let plan = Plan::new(Some(new.name.trim().to_owned()), page, vec![Strip::new(Role::title(), wording)])?;
    let file = folder.new_plan(&PlanSlug::from_title(&new.name), &plan, &loaded.colours)?;
    let (name, path) = (file.slug().to_string(), file.path().display().to_string());
    if args.json {
        answer_json(&Answer { format: 1, plan: name, file: path })?;
    } else {
        answer(&format!("{path}\nopen it with: oddment {name}\n"))?;
    }
    Ok(ExitCode::SUCCESS)
}
