//! How the letters get from the carrier onto the page, step by step (common practice, no source).
//!
//! Must not know columns or millimetres.

use crate::order::{Order, Step, Used, UsedLetter};

use super::{Block, Bullet, Item, TemplateIs, loose_told, open};

pub(super) fn blocks<'a>(order: &Order, template: TemplateIs) -> Vec<Block<'a>> {
    let mut blocks = vec![Block::part(5, "Down on the page, one strip at a time")];
    let steps = steps(order, template);
    if steps.is_empty() {
        blocks.push(Block::Paragraph("Nothing: every strip is on the page already.".into()));
    }
    blocks.extend(
        (1..).zip(steps).map(|(number, text)| {
            Block::Item(Item { bullet: Bullet::Number(number), text, under: Vec::new() })
        }),
    );
    blocks
}

/// How letters are stood on a carrier that lies over a template, so that their tops can be pressed before it is drawn out.
pub(in crate::print) const STAND: &str = "Lay the clear carrier over the carrier line and no more than the lower part of \
    the letters. Stand each letter lightly over its outline: only its feet touch the carrier, and backing paper under its top \
    keeps it off the print.";

fn steps(order: &Order, template: TemplateIs) -> Vec<String> {
    let trims = order.pulls.iter().flat_map(|pull| &pull.letters).any(|letter| letter.trimmed > 0);
    let trim = trims.then(|| {
        "Trim the letters that part 2 says to while they are still on their backing, before they are pulled; mind part 6."
            .into()
    });
    let among = order.strips.iter().filter_map(|strip| {
        let loose = loose_told(strip)?;
        Some(format!(
            "Stand {loose} of the {} by hand among those that are down, with the gaps that part 4 has on both sides.",
            strip.role
        ))
    });
    let whole = if open(order).next().is_some() { of_strips(order, template) } else { Vec::new() };
    elsewhere(order).into_iter().chain(trim).chain(among).chain(whole).collect()
}

/// The steps by which whole strips come onto the page.
fn of_strips(order: &Order, template: TemplateIs) -> Vec<String> {
    let any = |holds: fn(&Step) -> bool| open(order).any(|strip| strip.steps.iter().any(holds));
    let letters = |holds: fn(&UsedLetter) -> bool| open(order).any(|strip| strip.letters().any(holds));
    let turns = letters(|letter| letter.serves.is_some_and(|serves| serves.turn.is_turned()));
    let tilts = any(|step| step.stance.tilt_told().is_some());
    let two = open(order).any(|strip| strip.lines.len() > 1);
    let placed = open(order).all(|strip| !strip.carriers.is_empty());
    let line_up = if placed {
        "Line the carrier up on the page by the measurements of part 3; look before anything sticks."
    } else {
        "Lay the carrier on the page, by part 3 where that measures it; look before anything sticks."
    };
    let steps = [
        measure(template).map(str::to_owned),
        Some(stand(template, tilts)),
        two.then(|| "Each line has a carrier of its own; the first line goes down first.".into()),
        turns.then(|| "Turn those that part 4 says to as they are stood.".into()),
        (tilts && template == TemplateIs::Elsewhere)
            .then(|| "Tilt those that are to be tilted when all of them stand.".into()),
        kept_free(order),
        Some(line_up.into()),
        Some("Press the top of each letter, and no more than the top.".into()),
        Some("Draw the carrier out from under one letter at a time; when it is out, press all over.".into()),
        glued(order),
    ];
    steps.into_iter().flatten().collect()
}

/// That strips lie where they must not be stuck down.
fn elsewhere(order: &Order) -> Option<String> {
    let misplaced: Vec<String> = open(order)
        .filter(|strip| order.is_misplaced(strip))
        .map(|strip| format!("the {}", strip.role))
        .collect();
    (!misplaced.is_empty())
        .then(|| format!("Find {} another place first: see the top.", misplaced.join(" and ")))
}

const fn measure(template: TemplateIs) -> Option<&'static str> {
    match template {
        TemplateIs::Elsewhere => None,
        TemplateIs::Next { parted: true, .. } => {
            Some("Measure the check bars of the template; join its parts.")
        }
        TemplateIs::Next { parted: false, .. } => Some("Measure the check bars of the template."),
    }
}

fn stand(template: TemplateIs, tilts: bool) -> String {
    match template {
        TemplateIs::Elsewhere => {
            "Stand the letters lightly on a line on the carrier, from left to right, by part 4: only their feet touch it, \
             their tops stay free."
                .into()
        }
        TemplateIs::Next { .. } => {
            let tilted = if tilts { " Where the outline is tilted, stand it so." } else { "" };
            format!("{STAND}{tilted} Part 4 tells which letter, and its measures to check by.")
        }
    }
}

/// The places where nothing is stood.
fn kept_free(order: &Order) -> Option<String> {
    let missing = open(order).any(|strip| strip.missing().next().is_some());
    let free = match (glued(order).is_some(), missing) {
        (false, false) => return None,
        (true, false) => "Leave the places of what is glued on last free.",
        (false, true) => "Leave the places of missing letters free, or find them first.",
        (true, true) => {
            "Leave the places of what is glued on last free, and those of missing letters too, or find them first."
        }
    };
    Some(free.into())
}

/// What is no sticker, and where it goes.
fn glued(order: &Order) -> Option<String> {
    let things: Vec<String> = open(order)
        .flat_map(|strip| strip.steps.iter().map(move |step| (strip, step)))
        .filter_map(|(strip, step)| match &step.used {
            Used::Thing(thing) => {
                let (wanted, number) = (step.wanted.spoken(), step.number);
                Some(format!("{} for {wanted} (letter {number}) of the {}", thing.label, strip.role))
            }
            Used::Letter(_) | Used::Missing(_) => None,
        })
        .collect();
    (!things.is_empty()).then(|| format!("Last, glue on what is no sticker: {}.", things.join(", ")))
}
