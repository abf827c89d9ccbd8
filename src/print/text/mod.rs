//! The placement order as plain text of at most 80 columns, for any printer or screen.
//!
//! Must not know the clock: the date is given.

mod map;
mod table;

use crate::measure::Unit;
use crate::order::Order;

use super::column::{left, printable, right, width, wrap};
use super::told::{Block, Bullet, Heading, Item, LetterTable, Row, Taken, TemplateIs, Told, Under, Warning};

/// The most columns of a line.
const COLUMNS: usize = 80;

/// Where the date is written by hand.
const NO_DATE: &str = "date ______";

/// What the head of an order says beside the plan itself.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Head {
    /// The day of printing, as it shall read; `None`: a rule to write it on.
    pub date: Option<String>,
    /// What the page is called where the plan has no name: its file's.
    pub file: Option<String>,
}

/// `order` as text, lengths in `unit`; ends in a line break. The same order, head and unit always give the same text.
#[must_use]
pub fn order_text(order: &Order, head: &Head, unit: Unit) -> String {
    let told = Told::of(order, head, unit, TemplateIs::Elsewhere);
    let mut paper = Paper::default();
    for block in told.front.iter().chain(&told.back).chain(&told.map) {
        paper.block(block);
    }
    paper.lines.pop_if(|line| line.is_empty());
    paper.lines.join("\n") + "\n"
}

/// Lines as they come.
#[derive(Default)]
struct Paper {
    lines: Vec<String>,
}

impl Paper {
    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(heading) => self.heading(heading),
            Block::Warning(warning) => self.warning(warning),
            Block::Part(title) => self.part(title),
            Block::Subheading(title) => {
                self.space();
                self.inset(0, title);
            }
            Block::Paragraph(text) | Block::Note(text) => self.inset(2, text),
            Block::Item(item) => self.item(item),
            Block::Pulls(pulls) => pulls.iter().for_each(|pull| self.pull(pull)),
            Block::Letters(letters) => self.letters(letters),
            Block::Map(map) => map::lines(map).iter().for_each(|line| self.line(line)),
        }
    }

    fn line(&mut self, line: &str) {
        self.lines.push(line.trim_end().to_owned());
    }

    /// A blank line, unless there is one, or the rule below a heading.
    fn space(&mut self) {
        if self.lines.last().is_some_and(|line| !line.is_empty() && !line.starts_with("---")) {
            self.line("");
        }
    }

    fn part(&mut self, title: &str) {
        self.space();
        self.line(title);
        self.line(&"-".repeat(COLUMNS));
    }

    /// Wrapped, each line set in by `inset`.
    fn inset(&mut self, inset: usize, text: &str) {
        for line in wrap(&printable(text), COLUMNS - inset) {
            self.line(&format!("{}{line}", " ".repeat(inset)));
        }
    }

    fn heading(&mut self, heading: &Heading) {
        let date = printable(heading.date.as_deref().unwrap_or(NO_DATE));
        let title = heading.title.to_uppercase();
        let date = left(&date, width(&date).min(COLUMNS - width(&title) - 2));
        self.line(&format!("{title}{}", right(&date, COLUMNS - width(&title))));
        self.inset(0, &format!("{}, {}", heading.page, heading.size));
        self.line(&"=".repeat(COLUMNS));
    }

    fn warning(&mut self, warning: &Warning) {
        self.space();
        self.line(warning.heading);
        for item in &warning.items {
            self.behind("*", item);
        }
    }

    fn item(&mut self, item: &Item) {
        match item.bullet {
            Bullet::Point => self.behind("*", &item.text),
            Bullet::Mind => self.behind("!", &item.text),
            Bullet::Number(number) => self.behind(&format!("{number}."), &item.text),
        }
        for under in &item.under {
            match under {
                Under::Words(text) => self.inset(4, text),
                Under::Measured(text) => self.inset(6, text),
            }
        }
    }

    /// Wrapped behind a short `bullet`.
    fn behind(&mut self, bullet: &str, text: &str) {
        let inset = width(bullet) + 3;
        for (place, line) in wrap(&printable(text), COLUMNS - inset).iter().enumerate() {
            let front = if place == 0 { bullet } else { "" };
            self.line(&format!("  {} {line}", left(front, width(bullet))));
        }
    }

    fn pull(&mut self, pull: &Taken) {
        self.behind("*", &pull.sheet);
        for letter in &pull.letters {
            let called = &letter.called;
            let text = format!("{} {}", left(called, width(called).max(12)), printable(&letter.colour));
            self.hanging(&format!("{} x ", right(&letter.count.to_string(), 7)), &text);
        }
    }

    /// `text` as it is behind `front`, wrapped only where it must be.
    fn hanging(&mut self, front: &str, text: &str) {
        let inset = width(front);
        if inset + width(text) <= COLUMNS {
            return self.line(&format!("{front}{text}"));
        }
        for (place, line) in wrap(text, COLUMNS - inset).iter().enumerate() {
            let front = if place == 0 { front.to_owned() } else { " ".repeat(inset) };
            self.line(&format!("{front}{line}"));
        }
    }

    fn letters(&mut self, letters: &LetterTable) {
        self.line(&table::header(letters));
        for row in &letters.rows {
            match row {
                Row::Line(title) => self.line(&format!("     {title}")),
                Row::Letter(letter) => {
                    let (row, notes) = table::told(letter);
                    self.line(&row);
                    if !notes.is_empty() {
                        self.inset(table::INSET, &notes);
                    }
                }
            }
        }
        self.line("");
    }
}
