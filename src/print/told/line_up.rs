//! How each carrier is lined up on the page: by two measurements, and by the template.
//!
//! Must not know columns or millimetres.

use crate::measure::Unit;
use crate::order::{Contact, LinedUp, Order, StripOrder};

use super::{Block, Item, TemplateIs, Under, open, stuck_told};

pub(super) fn blocks<'a>(order: &Order, unit: Unit, template: TemplateIs) -> Vec<Block<'a>> {
    let mut blocks = vec![Block::part(3, "Line the carrier up")];
    if open(order).next().is_some() {
        blocks.push(Block::Paragraph(template_told(template).into()));
    }
    blocks.extend(order.strips.iter().map(|strip| Block::Item(line_up(order, strip, unit))));
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

fn line_up(order: &Order, strip: &StripOrder, unit: Unit) -> Item {
    let role = &strip.role;
    if strip.stuck.is_some() {
        let where_told = if strip.loose.is_empty() { "" } else { "; see part 5" };
        return Item::point(format!("the {role}{}: nothing to line up{where_told}", stuck_told(strip)));
    }
    let lined_up = strip.lined_up(unit);
    let Some((first, rest)) = lined_up.split_first() else {
        return unplaced(strip, unit);
    };
    if order.is_misplaced(strip) {
        let mut item = Item::point(format!("the {role}: NOT there, see the top. The plan has it so:"));
        item.under.extend(lined_up.iter().map(|told| Under::Words(told.to_string())));
        return item;
    }
    let mut item = Item::point(format!("the {role}: {}", first.told.replacen('T', "t", 1)));
    item.under.extend(edges(first));
    for more in rest {
        let told = if more.edges.is_some() { more.told.clone() } else { more.to_string() };
        item.under.push(Under::Words(told));
        item.under.extend(edges(more));
    }
    let touches: Vec<String> = strip.touches.iter().map(Contact::told).collect();
    if !touches.is_empty() {
        item.under.push(Under::Words(format!("There its letters come to lie {}.", touches.join(", "))));
    }
    item
}

/// With room to write its measures down; its letters are measured along the strip.
fn unplaced(strip: &StripOrder, unit: Unit) -> Item {
    let mut item = Item::point(format!(
        "the {}: choose its place first; it has none yet. The feet of its first letter, at its left edge, come to lie",
        strip.role
    ));
    let rule = match unit {
        Unit::Millimetre => "________ mm",
        Unit::Inch => "________ in",
    };
    let edges = ["left edge and", "bottom edge."];
    item.under.extend(edges.map(|edge| Under::Measured(format!("{rule} from the page's {edge}"))));
    item
}

fn edges(lined_up: &LinedUp) -> Vec<Under> {
    lined_up
        .edges
        .iter()
        .flat_map(|[one, other]| [format!("{one} and"), format!("{other}.")])
        .map(Under::Measured)
        .collect()
}
