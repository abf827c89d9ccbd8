//! The top of an order: what it is, what keeps it from being done, and what to have at hand.
//!
//! Must not know columns or millimetres.

use crate::checks::tell_length;
use crate::measure::{Length, Unit};
use crate::order::{Caution, Order, Step, StripOrder, Tool, Used};
use crate::page::Paper;

use super::super::Head;
use super::{Block, Heading, TemplateIs, Warning, open, stuck_told};

/// What the page is called.
pub(super) fn name(order: &Order, head: &Head) -> String {
    order.name.as_deref().or(head.file.as_deref()).unwrap_or("a page without a name").to_owned()
}

pub(super) fn blocks<'a>(order: &Order, head: &Head, unit: Unit, template: TemplateIs) -> Vec<Block<'a>> {
    let size = order.page.map_or_else(
        || "page size not given".into(),
        |size| format!("{} x {}", tell_length(size.width, unit), tell_length(size.height, unit)),
    );
    let size = match template {
        TemplateIs::Elsewhere => size,
        TemplateIs::Next { paper, .. } => format!("{size}, printed on {}", paper_told(paper)),
    };
    let heading =
        Heading { title: "Placement order", date: head.date.clone(), page: name(order, head), size };
    let mut blocks = vec![Block::Heading(heading)];
    blocks.extend(order.strips.iter().map(|strip| Block::point(strip_told(strip, unit))));
    blocks.extend(not_whole(order).map(Block::Warning));
    blocks.extend(not_there(order).map(Block::Warning));
    blocks.push(Block::part(1, "Have at hand"));
    blocks.extend(at_hand(order, unit, template).into_iter().map(Block::point));
    blocks
}

const fn paper_told(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "A4 (210 x 297 mm)",
        Paper::Letter => "US Letter (8 1/2 x 11 in)",
        Paper::Page => "paper as large as the page",
    }
}

fn strip_told(strip: &StripOrder, unit: Unit) -> String {
    let wording = strip.wording.lines().collect::<Vec<_>>().join(" / ");
    let (count, length) = (strip.steps.len(), tell_length(strip.length, unit));
    let letters = if count == 1 { "letter" } else { "letters" };
    let stuck = stuck_told(strip);
    format!("the {}: {wording} ({count} {letters}, {length} long){stuck}", strip.role)
}

/// What keeps the plan from being stuck down whole.
fn not_whole(order: &Order) -> Option<Warning> {
    let missing = order.strips.iter().filter_map(missing_told);
    let short = order.short().map(|(sheet, letter)| {
        let (called, count, left) = (letter.called(), letter.count, letter.left);
        format!("short: {called} of {sheet} is used {count} times and {left} left")
    });
    let items: Vec<String> = missing.chain(short).collect();
    (!items.is_empty()).then_some(Warning { heading: "NOT COMPLETE", items })
}

fn missing_told(strip: &StripOrder) -> Option<String> {
    let lacks: Vec<&Step> = strip.missing().collect();
    let never = |step: &&Step| step.used == Used::Missing(None);
    if lacks.len() > 1 && lacks.len() == strip.steps.len() && lacks.iter().all(never) {
        return Some(format!("missing from the {}: every letter", strip.role));
    }
    let told = |step: &&Step| {
        let gone = match &step.used {
            Used::Missing(Some(id)) => format!("; {id} is no longer in the stash"),
            _ => String::new(),
        };
        format!("{} (letter {}{gone})", step.wanted.spoken(), step.number)
    };
    let lacks: Vec<String> = lacks.iter().map(told).collect();
    (!lacks.is_empty()).then(|| format!("missing from the {}: {}", strip.role, lacks.join(", ")))
}

/// Whether the top tells a caution, so that it is not told again below.
pub(super) const fn tells(caution: &Caution) -> bool {
    caution.misplaced().is_some()
}

/// What must not be stuck down where it lies.
fn not_there(order: &Order) -> Option<Warning> {
    let items: Vec<String> =
        order.cautions.iter().filter(|caution| tells(caution)).map(ToString::to_string).collect();
    (!items.is_empty()).then_some(Warning { heading: "NOT TO BE STUCK DOWN AS IT LIES", items })
}

fn at_hand(order: &Order, unit: Unit, template: TemplateIs) -> Vec<String> {
    let (carriers, others): (Vec<Tool>, Vec<Tool>) =
        order.tools.iter().partition(|tool| **tool == Tool::Carrier);
    let others: Vec<&str> = others.iter().map(|tool| tool.as_str()).collect();
    let mut things: Vec<String> = carriers.iter().map(|_| carrier_told(order, unit)).collect();
    things.push(others.join(", "));
    if matches!(template, TemplateIs::Next { parted: true, .. }) {
        things.push("scissors and clear tape, to join the parts of the template".into());
    }
    let tools = things.len();
    for (strip, step) in open(order).flat_map(|strip| strip.steps.iter().map(move |step| (strip, step))) {
        if let Used::Thing(thing) = &step.used {
            let (label, wide) = (&thing.label, tell_length(thing.width, unit));
            let (wanted, role) = (step.wanted.spoken(), &strip.role);
            things.push(format!("{label} ({wide} wide), for {wanted} of the {role}"));
        }
    }
    if let Some(last) = things.get_mut(tools..).and_then(<[String]>::last_mut) {
        last.push_str("; glue for that, safe for photos");
    }
    things
}

/// What a carrier is longer than its line at each end: a finger's width, to hold it by (common practice, no source).
const FINGER: Length = Length::from_mm(15);

/// Carriers whose lengths are told one by one, at most: all serve one strip after the other.
const CARRIERS: usize = 4;

fn carrier_told(order: &Order, unit: Unit) -> String {
    let longest = open(order).map(|strip| strip.length).max().filter(|length| *length > Length::ZERO);
    let Some(longest) = longest else { return Tool::Carrier.as_str().to_owned() };
    let long = |length: Length| tell_length(length + FINGER + FINGER, unit);
    let lines = |strip: &StripOrder| strip.lines.iter().map(|line| long(line.length)).collect::<Vec<_>>();
    let of_strip = |strip: &StripOrder| format!("{} for the {}", lines(strip).join(" and "), strip.role);
    let lengths: Vec<String> = open(order).map(of_strip).collect();
    let lengths =
        if lengths.len() > CARRIERS { format!("{} at most", long(longest)) } else { lengths.join(", ") };
    let two = if open(order).any(|strip| strip.lines.len() > 1) { " (two for two lines)" } else { "" };
    format!(
        "{}{two}: clear, smooth, lets go again; no higher than half the smallest letter on it; {} longer than the line at \
         each end: {lengths}",
        Tool::Carrier,
        tell_length(FINGER, unit)
    )
}
