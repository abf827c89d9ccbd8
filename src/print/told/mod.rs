//! An order as it is told: titles, paragraphs, lists and tables, in the order in which they are read. Names are as the owner
//! wrote them: whoever sets them sees to control characters.
//!
//! Must not know columns or millimetres.

mod block;
mod down;
mod front;
mod letters;
mod line_up;
mod pull;

use crate::measure::Unit;
use crate::order::{Order, StripOrder};
use crate::page::Paper;

pub(super) use block::{
    Block, Bullet, Heading, Item, LetterRow, LetterTable, Row, Taken, TakenLetter, Under, Warning,
};

pub(super) use down::STAND;

use super::Head;

/// An order, told.
#[derive(Debug)]
pub(super) struct Told<'a> {
    /// What the page is called.
    pub(super) name: String,
    /// What is done until the template is at hand.
    pub(super) front: Vec<Block<'a>>,
    /// What comes after it.
    pub(super) back: Vec<Block<'a>>,
    /// The page's map with its heading; empty where there is nothing on the page.
    pub(super) map: Vec<Block<'a>>,
}

/// Where the template at true size is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TemplateIs {
    /// In the order's other forms.
    Elsewhere,
    /// Right after the front.
    Next {
        /// Whether that of a strip is in parts, to be joined.
        parted: bool,
        /// What it is printed on.
        paper: Paper,
    },
}

impl<'a> Told<'a> {
    /// `order` told, lengths in `unit`.
    pub(super) fn of(order: &'a Order, head: &Head, unit: Unit, template: TemplateIs) -> Self {
        let mut front = front::blocks(order, head, unit, template);
        front.extend(pull::blocks(order));
        front.extend(line_up::blocks(order, unit, template));
        let mut back = letters::blocks(order, unit);
        back.extend(down::blocks(order, template));
        let mut part = 6;
        let mut cautions = order.cautions.iter().filter(|caution| !front::tells(caution)).peekable();
        if cautions.peek().is_some() {
            back.push(Block::part(part, "Mind"));
            back.extend(cautions.map(|caution| Block::Item(Item::mind(caution.to_string()))));
            part += 1;
        }
        let map = order.map.iter().flat_map(|map| [Block::part(part, "The page"), Block::Map(map)]);
        Self { name: front::name(order, head), front, back, map: map.collect() }
    }
}

/// The strips that are still to be stuck down.
fn open(order: &Order) -> impl Iterator<Item = &StripOrder> {
    order.strips.iter().filter(|strip| strip.stuck.is_none())
}

/// That a strip is on the page, behind its role; empty where it is not.
fn stuck_told(strip: &StripOrder) -> String {
    match (strip.stuck, loose_told(strip)) {
        (None, _) => String::new(),
        (Some(entry), None) => format!(", stuck down already (ledger entry {entry})"),
        (Some(_), Some(loose)) => format!(", stuck down but for {loose}"),
    }
}

/// The letters that are not down on a strip that is; `None` where all are.
fn loose_told(strip: &StripOrder) -> Option<String> {
    let numbers: Vec<String> = strip.loose.iter().map(ToString::to_string).collect();
    match numbers.as_slice() {
        [] => None,
        [one] => Some(format!("letter {one}")),
        several => Some(format!("letters {}", several.join(", "))),
    }
}
