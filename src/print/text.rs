//! The placement order as text: 80 columns, any printer or screen. The same order always gives the same text.
//!
//! Must not know where it is saved.

use std::fmt::Write;

use crate::letter::StandInKind;
use crate::measure::{Angle, Length, Size, Unit};
use crate::order::{Lining, Order, Pull, Stands, Step, StripOrder};

use super::columns::{WIDTH, cell, heading, paragraph};

/// The order as text, lengths in `unit`.
#[must_use]
pub fn order_text(order: &Order, unit: Unit) -> String {
    let mut text = head(order, unit);
    text += &missing(order);
    text += &heading("What to pull");
    text += &pulls(&order.pulls);
    for strip in &order.strips {
        text += &strip_text(strip, order.size, unit);
    }
    text += &heading("Down on the page");
    text += &down(order);
    if !order.cautions.is_empty() {
        text += &heading("Mind");
        for caution in &order.cautions {
            text += &paragraph(caution.text(), "! ", 2);
        }
    }
    text
}

fn head(order: &Order, unit: Unit) -> String {
    let page = if order.page.is_empty() { "a page" } else { &order.page };
    let mut text = paragraph(&format!("Placement order for {page}"), "", 2);
    text += &"=".repeat(WIDTH);
    text.push('\n');
    if let Some(size) = order.size {
        text += &paragraph(&format!("Page: {} x {}", size.width.show(unit), size.height.show(unit)), "", 2);
    }
    text += "Date: ____________\n";
    for strip in &order.strips {
        let wording = strip.wording.replace('\n', " / ");
        let stuck = if strip.stuck { " (stuck down already)" } else { "" };
        text += &paragraph(&format!("{}: {wording}{stuck}", capital(&strip.role)), "", 2);
    }
    let knife = if order.needs_knife() { ", craft knife and cutting mat" } else { "" };
    text + &paragraph(&format!("At hand: carrier strip, tweezers, ruler{knife}."), "", 2)
}

fn missing(order: &Order) -> String {
    let missing: Vec<String> =
        order.missing().map(|(role, step)| format!("{} ({role} {})", step.wanted, step.number)).collect();
    if missing.is_empty() {
        return String::new();
    }
    let text = format!("NOT FINISHED: nothing stands yet for {}.", missing.join(", "));
    format!("\n{}", paragraph(&text, "", 2))
}

fn pulls(pulls: &[Pull]) -> String {
    if pulls.is_empty() {
        return "Nothing: no sticker stands on a strip yet.\n".into();
    }
    let mut text = String::new();
    for pull in pulls {
        let letters = pull.letters.iter().map(|letter| {
            let colour = letter.colour.as_ref().map_or_else(String::new, |colour| format!(" ({colour})"));
            let times = if letter.count > 1 { format!(" x{}", letter.count) } else { String::new() };
            format!("{}{colour}{times}", letter.character)
        });
        let tag = pull.tag.as_deref().unwrap_or("-");
        let line = format!("{}: {}", pull.sheet, letters.collect::<Vec<_>>().join(", "));
        text += &paragraph(&line, &format!("[ ] {} ", cell(tag, 6)), 11);
    }
    text
}

fn strip_text(strip: &StripOrder, page: Option<Size>, unit: Unit) -> String {
    let mut text = heading(&format!("{}: {}", capital(&strip.role), strip.wording.replace('\n', " / ")));
    text += &lining(strip, unit);
    if strip.steps.is_empty() {
        return text + "It has no wording yet.\n";
    }
    text += "\n";
    let (left, feet) = match (&strip.lining, page) {
        (None, _) => ("along", "up"),
        (Some(_), None) => ("from left", "from top"),
        (Some(_), Some(_)) => ("from left", "from foot"),
    };
    let _ = writeln!(
        text,
        " no  letter  {} {} {} {} {:>9} {:>9} {:>8}",
        cell("sheet", 10),
        cell("form", 7),
        cell("colour", 10),
        cell("gap", 8),
        left,
        feet,
        "width"
    );
    if on_paper(strip, page) {
        text +=
            &paragraph("(from foot: from the page's bottom edge up to where the letter stands)", "     ", 6);
    }
    for step in &strip.steps {
        text += &step_text(step, page, unit);
    }
    text
}

const fn on_paper(strip: &StripOrder, page: Option<Size>) -> bool {
    strip.lining.is_some() && page.is_some()
}

/// The measurements that line the carrier up.
fn lining(strip: &StripOrder, unit: Unit) -> String {
    let show = |length: Length| length.show(unit);
    let Some(Lining { from_left, from_bottom, from_top, turned }) = strip.lining else {
        let text = format!(
            "Not placed on the page yet: lengths run along the carrier from its first letter. The line is {} long.",
            show(strip.length)
        );
        return paragraph(&text, "", 2);
    };
    let up = match from_bottom {
        Some(bottom) => {
            format!("{} up from the page's bottom edge ({} down from its top)", show(bottom), show(from_top))
        }
        None => format!("{} down from the page's top edge", show(from_top)),
    };
    let text = format!(
        "Line the carrier up: the first letter's feet begin {} from the page's left edge and {up}.",
        show(from_left)
    );
    let turned = turned.map_or_else(String::new, |(turn, end)| {
        let way = if turn > Angle::ZERO { "clockwise" } else { "anticlockwise" };
        let text = format!(
            "The strip is turned {} {way}: the feet line ends {} down from the top.",
            degrees(turn),
            show(end)
        );
        paragraph(&text, "", 2)
    });
    paragraph(&text, "", 2) + &turned
}

fn step_text(step: &Step, page: Option<Size>, unit: Unit) -> String {
    let show = |length: Length| length.show(unit).replace(" mm", "").replace(" in", "");
    let (sheet, form, colour) = match &step.stands {
        Stands::Missing => ("MISSING", "", ""),
        Stands::Hand(_) => ("by hand", "", ""),
        Stands::Letter { sheet, form, colour, .. } => (sheet.as_str(), form.as_str(), colour.as_str()),
    };
    let about = if step.place.estimated { "~" } else { "" };
    let (left, feet) = match (step.on_page, page) {
        (None, _) => (step.place.left, step.place.feet),
        (Some(at), None) => (at.x, at.y),
        (Some(at), Some(page)) => (at.x, page.height - at.y),
    };
    let mut text = String::new();
    let _ = writeln!(
        text,
        "{:>3}  {}  {} {} {} {} {:>9} {:>9} {:>8}",
        step.number,
        cell(&step.wanted, 6),
        cell(sheet, 10),
        cell(form, 7),
        cell(colour, 10),
        cell(&step.gap.map_or_else(|| "-".into(), show), 8),
        show(left),
        show(feet),
        format!("{about}{}", show(step.place.width)),
    );
    for remark in remarks(step, unit) {
        text += &paragraph(&remark, "       ", 9);
    }
    text
}

/// What is out of the ordinary about a step, in words.
fn remarks(step: &Step, unit: Unit) -> Vec<String> {
    let mut remarks = Vec::new();
    match &step.stands {
        Stands::Hand(label) => remarks.push(format!("no sticker: {label}")),
        Stands::Letter { character, stands_in: Some(kind), .. } => {
            let wanted = &step.wanted;
            remarks.push(match kind {
                StandInKind::Turned => match step.place.turn.degrees() {
                    0 => format!("take {character} and move it up or down into the place of {wanted}"),
                    degrees => format!("take {character} and turn it by {degrees} degrees to serve as {wanted}"),
                },
                StandInKind::LookAlike => format!("take {character}, which serves as {wanted}"),
                StandInKind::OtherCase => format!("take {character}, the other case of {wanted}"),
                StandInKind::Trimmed => {
                    format!("take {character} and trim it to {wanted}: cut away from your fingers, on a mat, fresh blade")
                }
            });
        }
        Stands::Missing | Stands::Letter { .. } => {}
    }
    if step.raise != Length::ZERO {
        let way = if step.raise > Length::ZERO { "raised" } else { "lowered" };
        remarks.push(format!("{way} by {}", step.raise.abs().show(unit)));
    }
    if step.tilt != Angle::ZERO {
        let way = if step.tilt > Angle::ZERO { "right (clockwise)" } else { "left (anticlockwise)" };
        remarks.push(format!("tilted {} to the {way}", degrees(step.tilt)));
    }
    remarks
}

/// How the carrier goes down (common practice, no source).
fn down(order: &Order) -> String {
    let tweezers =
        "Lift each letter off its sheet with tweezers and stand it along the carrier's edge, face up.";
    let steps = [
        tweezers,
        "Check the whole line against the order above before anything sticks.",
        "Lay the carrier on the page and line it up by the measurements given for it.",
        "Press the top of each letter down, only the top.",
        "Draw the carrier out from under one letter at a time.",
        "Press all over once the carrier is out.",
    ];
    let unplaced = order.strips.iter().any(|strip| strip.lining.is_none());
    let choose = unplaced
        .then_some("A strip that is not placed yet: move the carrier over the page until it looks right.");
    let steps = steps.iter().copied().chain(choose);
    (1..).zip(steps).map(|(number, step)| paragraph(step, &format!("{number}. "), 3)).collect()
}

fn degrees(angle: Angle) -> String {
    format!("{} degrees", angle.degrees().abs())
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
