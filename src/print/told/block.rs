//! What an order is told in.
//!
//! Must not know how it is set.

use crate::measure::Colour;
use crate::order::Map;

/// Something told that belongs together.
#[derive(Debug)]
pub(in crate::print) enum Block<'a> {
    /// What the whole is.
    Heading(Heading),
    /// What keeps it from being done as it is.
    Warning(Warning),
    /// The heading of a part, its number in front.
    Part(String),
    /// The heading of a part of a part.
    Subheading(String),
    /// A paragraph.
    Paragraph(String),
    /// What explains a table, in small print.
    Note(String),
    /// An item of a list.
    Item(Item),
    /// What to take off the sheets.
    Pulls(Vec<Taken>),
    /// The letters of a strip in full.
    Letters(LetterTable),
    /// The page with all that lies on it.
    Map(&'a Map),
}

/// The top of the order.
#[derive(Debug)]
pub(in crate::print) struct Heading {
    /// What it is.
    pub(in crate::print) title: &'static str,
    /// The day of printing; `None`: to be written by hand.
    pub(in crate::print) date: Option<String>,
    /// What the page is called.
    pub(in crate::print) page: String,
    /// Its size.
    pub(in crate::print) size: String,
}

/// What must be seen before all else.
#[derive(Debug)]
pub(in crate::print) struct Warning {
    /// In capitals.
    pub(in crate::print) heading: &'static str,
    /// One by one.
    pub(in crate::print) items: Vec<String>,
}

/// An item of a list.
#[derive(Debug)]
pub(in crate::print) struct Item {
    /// What stands in front.
    pub(in crate::print) bullet: Bullet,
    /// What it says.
    pub(in crate::print) text: String,
    /// What belongs below it.
    pub(in crate::print) under: Vec<Under>,
}

/// What stands in front of an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::print) enum Bullet {
    /// One of several, in no order.
    Point,
    /// The number of a step.
    Number(usize),
    /// What to mind.
    Mind,
}

/// A line or more below an item.
#[derive(Debug)]
pub(in crate::print) enum Under {
    /// Said further.
    Words(String),
    /// A length to measure.
    Measured(String),
}

/// What to take off one sheet.
#[derive(Debug)]
pub(in crate::print) struct Taken {
    /// The sheet, and how its stickers are made.
    pub(in crate::print) sheet: String,
    /// What to take.
    pub(in crate::print) letters: Vec<TakenLetter>,
}

/// Letters of one kind to take.
#[derive(Debug)]
pub(in crate::print) struct TakenLetter {
    /// How many.
    pub(in crate::print) count: u16,
    /// The character, and its mark.
    pub(in crate::print) called: String,
    /// The names of its colours, and what is done before it is taken.
    pub(in crate::print) colour: String,
    /// The colours themselves, the main one first.
    pub(in crate::print) colours: Vec<Colour>,
}

/// The letters of a strip, row by row.
#[derive(Debug)]
pub(in crate::print) struct LetterTable {
    /// What its figures are measured in.
    pub(in crate::print) unit: &'static str,
    /// Its rows.
    pub(in crate::print) rows: Vec<Row>,
}

/// A row of the letters.
#[derive(Debug)]
pub(in crate::print) enum Row {
    /// From here on, the letters stand on another line.
    Line(&'static str),
    /// A letter.
    Letter(Box<LetterRow>),
}

/// How one slot is filled.
#[derive(Debug)]
pub(in crate::print) struct LetterRow {
    /// The number of its slot.
    pub(in crate::print) number: String,
    /// The character that the title shows there.
    pub(in crate::print) wanted: String,
    /// The character on the sticker; `-` where there is none.
    pub(in crate::print) used: String,
    /// The sheet it comes off, or what else stands there.
    pub(in crate::print) source: String,
    /// Left, lowest, gap and width, without their unit.
    pub(in crate::print) figures: [String; 4],
    /// Its colours, the main one first.
    pub(in crate::print) colours: Vec<Colour>,
    /// What else there is to know; it may be nothing.
    pub(in crate::print) notes: String,
}

impl Block<'_> {
    pub(super) fn part(number: usize, title: &str) -> Self {
        Self::Part(format!("{number}. {title}"))
    }

    pub(super) fn point(text: impl Into<String>) -> Self {
        Self::Item(Item::point(text))
    }
}

impl Item {
    pub(super) fn point(text: impl Into<String>) -> Self {
        Self { bullet: Bullet::Point, text: text.into(), under: Vec::new() }
    }

    pub(super) fn mind(text: String) -> Self {
        Self { bullet: Bullet::Mind, text, under: Vec::new() }
    }
}

impl LetterTable {
    /// What stands over the columns.
    pub(in crate::print) fn names(&self) -> [String; 8] {
        let measured = |name: &str| format!("{name} {}", self.unit);
        let [no, wanted, used, source] = ["no", "for", "use", "sheet"].map(String::from);
        let [left, lowest, gap, width] = ["left", "lowest", "gap", "width"].map(measured);
        [no, wanted, used, source, left, lowest, gap, width]
    }
}
