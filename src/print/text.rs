//! The placement order as plain text of at most 80 columns, for any printer or screen.
//!
//! Must not know the clock: the date is given.

use crate::checks::tell_length;
use crate::letter::StandInKind;
use crate::measure::Unit;
use crate::order::{Carrier, Contact, Order, Spot, Step, StripOrder, Used, UsedLetter};

use super::column::{left, printable, right, width, wrap};
use super::table;

/// The most columns of a line.
const COLUMNS: usize = 80;

/// What the head of an order says beside the plan itself.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Head {
    /// The day of printing, as it shall read.
    pub date: Option<String>,
    /// What the page is called where the plan has no name: its file's.
    pub file: Option<String>,
}

/// `order` as text, lengths in `unit`; ends in a line break. The same order, head and unit always give the same text.
#[must_use]
pub fn order_text(order: &Order, head: &Head, unit: Unit) -> String {
    let mut paper = Paper::default();
    paper.head(order, head, unit);
    paper.not_whole(order);
    paper.at_hand(order, unit);
    paper.pull(order);
    paper.section("3. Line the carrier up");
    for strip in &order.strips {
        paper.line_up(strip, unit);
    }
    paper.section("4. The letters, as they stand from left to right");
    for strip in &order.strips {
        paper.letters(strip, unit);
    }
    paper.down(order);
    if !order.cautions.is_empty() {
        paper.section("6. Mind");
        for caution in &order.cautions {
            paper.item("!", &caution.to_string());
        }
    }
    paper.lines.join("\n") + "\n"
}

/// Lines as they come.
#[derive(Default)]
struct Paper {
    lines: Vec<String>,
}

impl Paper {
    fn line(&mut self, line: &str) {
        self.lines.push(line.trim_end().to_owned());
    }

    fn section(&mut self, title: &str) {
        self.line("");
        self.line(title);
        self.line(&"-".repeat(COLUMNS));
    }

    /// Wrapped, each line set in by `inset`.
    fn inset(&mut self, inset: usize, text: &str) {
        for line in wrap(&printable(text), COLUMNS - inset) {
            self.line(&format!("{}{line}", " ".repeat(inset)));
        }
    }

    /// Wrapped behind a short `bullet`.
    fn item(&mut self, bullet: &str, text: &str) {
        let inset = width(bullet) + 3;
        for (place, line) in wrap(&printable(text), COLUMNS - inset).iter().enumerate() {
            let front = if place == 0 { bullet } else { "" };
            self.line(&format!("  {} {line}", left(front, width(bullet))));
        }
    }

    fn head(&mut self, order: &Order, head: &Head, unit: Unit) {
        let date = printable(head.date.as_deref().unwrap_or_default());
        let title = "PLACEMENT ORDER";
        let date = left(&date, width(&date).min(COLUMNS - title.len() - 2));
        self.line(&format!("{title}{}", right(&date, COLUMNS - title.len())));
        let name = order.name.as_deref().or(head.file.as_deref()).unwrap_or("a page without a name");
        let size = order.page.map_or_else(
            || "page size not given".into(),
            |size| format!("{} x {}", tell_length(size.width, unit), tell_length(size.height, unit)),
        );
        self.inset(0, &format!("{name}, {size}"));
        self.line(&"=".repeat(COLUMNS));
    }

    /// What keeps the plan from being stuck down whole.
    fn not_whole(&mut self, order: &Order) {
        let (missing, short): (Vec<_>, Vec<_>) = (order.missing().collect(), order.short().collect());
        if missing.is_empty() && short.is_empty() {
            return;
        }
        self.line("NOT COMPLETE");
        for (strip, step) in missing {
            let gone = match &step.used {
                Used::Missing(Some(id)) => format!(" ({id} is no longer in the stash)"),
                _ => String::new(),
            };
            let (role, number, wanted) = (&strip.role, step.number, step.wanted.spoken());
            self.item("*", &format!("missing: {wanted}, letter {number} of the {role}{gone}"));
        }
        for (sheet, letter) in short {
            let (called, count, left) = (letter.called(), letter.count, letter.left);
            self.item("*", &format!("short: {called} of {sheet} is used {count} times and {left} left"));
        }
    }

    fn at_hand(&mut self, order: &Order, unit: Unit) {
        self.section("1. Have at hand");
        for strip in &order.strips {
            let wording = strip.wording.lines().collect::<Vec<_>>().join(" / ");
            let (count, length) = (strip.steps.len(), tell_length(strip.length, unit));
            let letters = if count == 1 { "letter" } else { "letters" };
            let stuck = strip.stuck.map_or_else(String::new, stuck_told);
            self.item(
                "*",
                &format!("the {}: {wording} ({count} {letters}, {length} long){stuck}", strip.role),
            );
        }
        let tools: Vec<&str> = order.tools.iter().map(|tool| tool.as_str()).collect();
        self.item("*", &tools.join(", "));
        for (strip, step) in open(order).flat_map(|strip| strip.steps.iter().map(move |step| (strip, step))) {
            if let Used::Thing(thing) = &step.used {
                let (label, wide) = (&thing.label, tell_length(thing.width, unit));
                let (wanted, role) = (step.wanted.spoken(), &strip.role);
                self.item("*", &format!("{label}, {wide} wide, for {wanted} of the {role}"));
            }
        }
    }

    fn pull(&mut self, order: &Order) {
        self.section("2. Pull from the sheets");
        if order.pulls.is_empty() {
            self.inset(2, "Nothing.");
        }
        for pull in &order.pulls {
            self.item("*", &format!("{} ({})", pull.sheet, pull.form));
            for letter in &pull.letters {
                let called = letter.called();
                let text =
                    format!("{} {}", left(&called, width(&called).max(12)), printable(&letter.colour()));
                let front = format!("{} x ", right(&letter.count.to_string(), 7));
                self.hanging(&front, &text);
            }
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

    fn line_up(&mut self, strip: &StripOrder, unit: Unit) {
        let role = &strip.role;
        if let Some(entry) = strip.stuck {
            return self.item("*", &format!("the {role}{}: nothing to line up", stuck_told(entry)));
        }
        let Some(carrier) = &strip.carrier else {
            let text =
                format!("the {role} has no place on the page yet; its letters are measured along the strip");
            return self.item("*", &text);
        };
        let first = strip.steps.first().map_or_else(String::new, |step| step.wanted.spoken());
        let text =
            format!("the {role}: the feet of its first letter ({first}), at its left edge, come to lie");
        self.item("*", &text);
        self.edges(&carrier.first, unit);
        self.turned(strip, carrier, unit);
        let touches: Vec<String> = strip.touches.iter().map(Contact::told).collect();
        if !touches.is_empty() {
            self.inset(4, &format!("There its letters come to lie {}.", touches.join(", ")));
        }
    }

    fn turned(&mut self, strip: &StripOrder, carrier: &Carrier, unit: Unit) {
        let Some(turn) = carrier.turn_told() else { return };
        self.inset(4, &format!("The strip is turned {turn}."));
        if let Some(last) = &carrier.last {
            let step = strip.steps.iter().rfind(|step| step.line == 0);
            let letter = step.map_or_else(String::new, |step| step.wanted.spoken());
            let text =
                format!("The feet of the line's last letter ({letter}), at its left edge, come to lie");
            self.inset(4, &text);
            self.edges(last, unit);
        }
    }

    fn edges(&mut self, spot: &Spot, unit: Unit) {
        let (edge, length) = spot.up.map_or(("top", spot.down), |up| ("bottom", up));
        self.inset(6, &format!("{} from the page's left edge and", tell_length(spot.left, unit)));
        self.inset(6, &format!("{} from the page's {edge} edge.", tell_length(length, unit)));
    }

    fn letters(&mut self, strip: &StripOrder, unit: Unit) {
        let stuck = strip.stuck.map_or_else(String::new, stuck_told);
        self.inset(0, &format!("The {}{stuck}", strip.role));
        for note in table::legend(strip, unit) {
            self.inset(2, &note);
        }
        self.line(&table::header(unit));
        for step in &strip.steps {
            let line_starts = step.line > 0 && strip.steps.iter().find(|other| other.line > 0) == Some(step);
            if line_starts {
                self.line("     second line");
            }
            let (row, notes) = table::told(step, unit);
            self.line(&row);
            self.inset(table::INSET, &notes);
        }
        self.line("");
    }

    /// Down on the page (common practice, no source).
    fn down(&mut self, order: &Order) {
        self.lines.pop_if(|line| line.is_empty());
        self.section("5. Down on the page, one strip at a time");
        if open(order).next().is_none() {
            return self.inset(2, "Nothing: every strip is on the page already.");
        }
        let any = |holds: fn(&Step) -> bool| open(order).any(|strip| strip.steps.iter().any(holds));
        let things = any(|step| matches!(step.used, Used::Thing(_)));
        let tilts = any(|step| step.stance.tilt_told().is_some());
        let stands_in = open(order).any(|strip| strip.letters().any(is_changed));
        let placed = open(order).all(|strip| strip.carrier.is_some());
        let line_up = if placed {
            "Line the carrier up on the page by the measurements of part 3; look before anything sticks."
        } else {
            "Lay the carrier on the page, by part 3 where that measures it; look before anything sticks."
        };
        let steps = [
            Some("Stand the letters on the carrier from left to right, by part 4."),
            stands_in.then_some("Turn or trim those that part 4 says to before they are stood."),
            tilts.then_some("Tilt those that are to be tilted when all of them stand."),
            Some(line_up),
            Some("Press the top of each letter, and no more than the top."),
            Some("Draw the carrier out from under one letter at a time."),
            Some("When the carrier is out, press all over."),
            things.then_some("Add the things that are no stickers last."),
        ];
        for (number, step) in (1..).zip(steps.into_iter().flatten()) {
            self.item(&format!("{number}."), step);
        }
    }
}

/// The strips that are still to be stuck down.
fn open(order: &Order) -> impl Iterator<Item = &StripOrder> {
    order.strips.iter().filter(|strip| strip.stuck.is_none())
}

/// Whether a letter is turned or cut before it stands.
fn is_changed(letter: &UsedLetter) -> bool {
    letter.serves.is_some_and(|serves| serves.turn.is_turned() || serves.kind == StandInKind::Trimmed)
}

fn stuck_told(entry: u32) -> String {
    format!(", stuck down already (ledger entry {entry})")
}
