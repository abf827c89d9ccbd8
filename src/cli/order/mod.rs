//! `oddment order PLAN`: the placement order.
//!
//! Must not know how it is set on paper.

use std::process::ExitCode;

use anyhow::Result;

use crate::files::replace_file;
use crate::measure::Unit;
use crate::order::Order as PlacementOrder;
use crate::print::{Head, order_text};

use super::args::{Args, Form, Order, RulerUnit};
use super::opened::Opened;
use super::say::answer;

pub(super) fn run(args: &Args, order: &Order) -> Result<ExitCode> {
    let Opened { plan, shelf, .. } = Opened::plan(args, &order.plan)?;
    let unit = match order.unit {
        RulerUnit::Mm => Unit::Millimetre,
        RulerUnit::In => Unit::Inch,
    };
    let placed = PlacementOrder::of(&plan, &shelf.stash);
    let text = match order.form {
        Form::Text => order_text(&placed, &Head { date: None, file: Some(order.plan.clone()) }, unit),
    };
    match &order.output {
        Some(path) => replace_file(path, text.as_bytes())?,
        None => answer(&text)?,
    }
    Ok(ExitCode::SUCCESS)
}
