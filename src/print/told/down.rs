//! How the letters get from the carrier onto the page, step by step (common practice, no source).
//!
//! Must not know columns or millimetres.

use crate::letter::StandInKind;
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
    the letters. Stand each letter over its outline, its top free of the carrier.";

fn steps(order: &Order, template: TemplateIs) -> Vec<String> {
    let among = order.strips.iter().filter_map(|strip| {
        let loose = loose_told(strip)?;
        Some(format!(
            "Stand {loose} of the {} by hand among those that are down, with the gaps that part 4 has on both sides.",
            strip.role
        ))
    });
    let whole = if open(order).next().is_some() { of_strips(order, template) } else { Vec::new() };
    among.chain(whole).collect()
}

/// The steps by which whole strips come onto the page.
fn of_strips(order: &Order, template: TemplateIs) -> Vec<String> {
    let any = |holds: fn(&Step) -> bool| open(order).any(|strip| strip.steps.iter().any(holds));
    let letters = |holds: fn(&UsedLetter) -> bool| open(order).any(|strip| strip.letters().any(holds));
    let trims = letters(|letter| letter.serves.is_some_and(|serves| serves.kind == StandInKind::Trimmed));
    let turns = letters(|letter| letter.serves.is_some_and(|serves| serves.turn.is_turned()));
    let tilts = any(|step| step.stance.tilt_told().is_some());
    let things = any(|step| matches!(step.used, Used::Thing(_)));
    let placed = open(order).all(|strip| !strip.carriers.is_empty());
    let misplaced: Vec<String> = open(order)
        .filter(|strip| order.is_misplaced(strip))
        .map(|strip| format!("the {}", strip.role))
        .collect();
    let find = (!misplaced.is_empty())
        .then(|| format!("Find {} another place first: see the top.", misplaced.join(" and ")));
    let stand = match template {
        TemplateIs::Elsewhere => {
            "Stand the letters on a line on the carrier, from left to right, by part 4: only the lower part of each sticks \
             to it, its top stays free."
                .to_owned()
        }
        TemplateIs::Next { .. } => {
            format!("Use the template. {STAND} Part 4 tells which letter, and its measures to check by.")
        }
    };
    let line_up = if placed {
        "Line the carrier up on the page by the measurements of part 3; look before anything sticks."
    } else {
        "Lay the carrier on the page, by part 3 where that measures it; look before anything sticks."
    };
    let steps = [
        find.as_deref(),
        trims.then_some("First trim the letters that part 4 says to; mind part 6."),
        Some(stand.as_str()),
        turns.then_some("Turn those that part 4 says to as they are stood."),
        tilts.then_some("Tilt those that are to be tilted when all of them stand."),
        Some(line_up),
        Some("Press the top of each letter, and no more than the top."),
        Some("Draw the carrier out from under one letter at a time; when it is out, press all over."),
        things.then_some("Add the things that are no stickers last."),
    ];
    steps.into_iter().flatten().map(str::to_owned).collect()
}
