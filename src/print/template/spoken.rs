//! The drawing of a part of a template in words, for a reader who hears it.
//!
//! Must not know where on the sheet anything is.

use crate::measure::Length;
use crate::order::{Drawn, Edge, Step, StripOrder, Used};
use crate::print::clip;
use crate::print::face::Face;

use super::near::Near;
use super::view::View;

/// The letters that are `seen` in `view`, their cross marks, `joints` as told, and what is `near`.
pub(super) fn told(
    strip: &StripOrder,
    seen: &[(&Step, &Drawn)],
    view: &View,
    joints: &[String],
    near: &[Near],
) -> String {
    let mut told = format!(
        "Letters outlined at true size on the carrier line, from left to right: {}.",
        lines(seen).unwrap_or_else(|| "none".to_owned())
    );
    for sentence in crosses(strip, view).into_iter().chain(joints.iter().cloned()).chain(beyond(strip, seen))
    {
        told.push(' ');
        told.push_str(&sentence);
    }
    let near: Vec<&str> = near.iter().map(|near| near.name.as_str()).collect();
    if !near.is_empty() {
        told.push_str(" In grey: ");
        told.push_str(&near.join(", "));
        told.push('.');
    }
    Face::legible(&told)
}

/// The letters line by line; `None` where there are none.
fn lines(seen: &[(&Step, &Drawn)]) -> Option<String> {
    let line = |number: usize| {
        let letters = seen.iter().filter(|(step, _)| step.line == number).map(letter);
        letters.collect::<Vec<_>>().join(", ")
    };
    match (line(0), line(1)) {
        (first, second) if first.is_empty() && second.is_empty() => None,
        (first, second) if second.is_empty() => Some(first),
        (first, second) if first.is_empty() => Some(format!("on the second line {second}")),
        (first, second) => Some(format!("{first}; on the second line {second}")),
    }
}

/// `4 M (a W upside down, tilted 3 degrees clockwise)`.
fn letter((step, drawn): &(&Step, &Drawn)) -> String {
    let (name, stand_in) = match &step.used {
        Used::Thing(thing) => (format!("{} for {}", thing.label, step.wanted.spoken()), None),
        Used::Letter(letter) => (step.wanted.spoken(), letter.stand_in(&step.wanted)),
        Used::Missing(_) => (step.wanted.spoken(), None),
    };
    let raised = match step.stance.raise.cmp(&Length::ZERO) {
        std::cmp::Ordering::Less => Some("lowered".to_owned()),
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some("raised".to_owned()),
    };
    let missing = drawn.missing.then(|| "missing, in fine dashes".to_owned());
    let notes: Vec<String> =
        missing.into_iter().chain(stand_in).chain(step.stance.tilt_told()).chain(raised).collect();
    if notes.is_empty() {
        format!("{} {name}", step.number)
    } else {
        format!("{} {name} ({})", step.number, notes.join(", "))
    }
}

/// Where the cross marks are that are measured to.
fn crosses(strip: &StripOrder, view: &View) -> Option<String> {
    let down = |step: &Step| strip.template.feet.get(step.line).map_or(0.0, |line| line.down);
    let measured = strip.measured().into_iter();
    let shown = measured.filter(|step| view.keeps((step.stance.left.mm(), down(step))));
    let at: Vec<String> = shown.map(|step| format!("{} {}", step.number, step.wanted.spoken())).collect();
    (!at.is_empty()).then(|| {
        format!(
            "It is measured to a cross mark on the carrier line at the left edge of {}.",
            at.join(" and of ")
        )
    })
}

/// Which letters reach beyond the page.
fn beyond(strip: &StripOrder, seen: &[(&Step, &Drawn)]) -> Option<String> {
    let page: &Edge = strip.template.edges.iter().find(|edge| edge.name == "page")?;
    let is_beyond = |drawn: &Drawn| drawn.edge.iter().flatten().any(|&dot| !clip::within(&page.outline, dot));
    let numbers: Vec<String> =
        seen.iter().filter(|(_, drawn)| is_beyond(drawn)).map(|(step, _)| step.number.to_string()).collect();
    match numbers.as_slice() {
        [] => None,
        [one] => Some(format!("1 letter reaches beyond the page's edge: {one}.")),
        more => Some(format!("{} letters reach beyond the page's edge: {}.", more.len(), more.join(", "))),
    }
}
