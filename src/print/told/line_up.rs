//! How each carrier is lined up on the page: by two measurements, and by the template.
//!
//! Must not know columns or millimetres.

use crate::checks::tell_length;
use crate::measure::Unit;
use crate::order::{Carrier, Contact, Order, Spot, StripOrder};

use super::{Block, Item, TemplateIs, Under, open, stuck_told};

pub(super) fn blocks<'a>(order: &Order, unit: Unit, template: TemplateIs) -> Vec<Block<'a>> {
    let mut blocks = vec![Block::part(3, "Line the carrier up")];
    if open(order).next().is_some() {
        blocks.push(Block::Paragraph(template_told(template).into()));
    }
    blocks.extend(order.strips.iter().map(|strip| Block::Item(line_up(strip, unit))));
    blocks
}

fn template_told(template: TemplateIs) -> &'static str {
    match template {
        TemplateIs::Next { .. } => {
            "A template at true size follows. Before use, measure both of its check bars: 100 mm and 4 in. If one is off, \
             print the sheet again at 100 %, not fitted to the paper."
        }
        TemplateIs::Elsewhere => {
            "The PDF and SVG forms of this order hold a template at true size. Print it at 100 %, not fitted to the paper, \
             and before use measure both of its check bars: 100 mm and 4 in."
        }
    }
}

fn line_up(strip: &StripOrder, unit: Unit) -> Item {
    let role = &strip.role;
    if let Some(entry) = strip.stuck {
        return Item::point(format!("the {role}{}: nothing to line up", stuck_told(entry)));
    }
    let Some(carrier) = &strip.carrier else {
        return Item::point(format!(
            "the {role} has no place on the page yet; its letters are measured along the strip"
        ));
    };
    let first = strip.steps.first().map_or_else(String::new, |step| step.wanted.spoken());
    let mut item = Item::point(format!(
        "the {role}: the feet of its first letter ({first}), at its left edge, come to lie"
    ));
    item.under.extend(edges(&carrier.first, unit));
    item.under.extend(turned(strip, carrier, unit));
    let touches: Vec<String> = strip.touches.iter().map(Contact::told).collect();
    if !touches.is_empty() {
        item.under.push(Under::Words(format!("There its letters come to lie {}.", touches.join(", "))));
    }
    item
}

fn turned(strip: &StripOrder, carrier: &Carrier, unit: Unit) -> Vec<Under> {
    let Some(turn) = carrier.turn_told() else { return Vec::new() };
    let mut under = vec![Under::Words(format!("The strip is turned {turn}."))];
    if let Some(last) = &carrier.last {
        let step = strip.steps.iter().rfind(|step| step.line == 0);
        let letter = step.map_or_else(String::new, |step| step.wanted.spoken());
        under.push(Under::Words(format!(
            "The feet of the line's last letter ({letter}), at its left edge, come to lie"
        )));
        under.extend(edges(last, unit));
    }
    under
}

fn edges(spot: &Spot, unit: Unit) -> [Under; 2] {
    let (edge, length) = spot.up.map_or(("top", spot.down), |up| ("bottom", up));
    [
        Under::Measured(format!("{} from the page's left edge and", tell_length(spot.left, unit))),
        Under::Measured(format!("{} from the page's {edge} edge.", tell_length(length, unit))),
    ]
}
