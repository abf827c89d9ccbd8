//! One strip's part of the order: how its carrier is lined up, and its steps.
//!
//! Must not know the other strips.

use crate::measure::{Angle, Extent, Length};
use crate::page::{Page, Side};
use crate::stash::Stash;
use crate::title::{Layout, LineBox, LineUp, Role, Strip};

use super::spot::{Lying, Spot};
use super::step::{Step, Used, UsedLetter, steps};
use super::template::Template;

/// How one strip is stuck down.
#[derive(Debug, Clone, PartialEq)]
pub struct StripOrder {
    /// What it is for.
    pub role: Role,
    /// What it says, lines parted by a line break.
    pub wording: String,
    /// The longest line.
    pub length: Length,
    /// Its lines, each on a carrier of its own.
    pub lines: Vec<Line>,
    /// What its letters line up by.
    pub line_up: LineUp,
    /// The ledger entry that took its letters off the stash: it is on the page already.
    pub stuck: Option<u32>,
    /// Of a strip that is on the page, the numbers of letters that are not: they came off, or stand there anew.
    pub loose: Vec<usize>,
    /// How the carrier of each line lies on the page; empty where the strip is not placed.
    pub carriers: Vec<Carrier>,
    /// What it touches where it lies: elements, the topmost first, then other strips.
    pub touches: Vec<Contact>,
    /// Slot by slot, as they stand.
    pub steps: Vec<Step>,
    /// What it looks like on its carrier.
    pub template: Template,
}

/// What a strip touches where it lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contact {
    /// What it is called.
    pub name: String,
    /// The side of it that most of the letters beside it are at.
    pub side: Option<Side>,
    /// Whether letters lie on it.
    pub over: bool,
}

/// One line of a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// Its feet over those of the first line: 0, then below 0.
    pub feet: Length,
    /// From its leftmost to its rightmost letter.
    pub length: Length,
}

/// How a carrier is lined up: by where the line of its letters' feet lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Carrier {
    /// On that line, below the left edge of its first letter.
    pub first: Spot,
    /// On that line, below the left edge of the last letter that stands on it; only where the strip is turned and has two letters.
    pub last: Option<Spot>,
    /// Turned, clockwise positive.
    pub turn: Angle,
}

impl StripOrder {
    pub(super) fn of(strip: &Strip, page: &Page, stash: &Stash) -> Self {
        let layout = Layout::of(strip, stash);
        let lying = Lying::of(&strip.place, page);
        let steps = steps(strip, &layout, lying, stash);
        let template = Template::of(strip, &layout, stash, page);
        Self {
            role: strip.role().clone(),
            wording: strip.wording().text().to_owned(),
            length: layout.length(),
            lines: layout.lines.iter().map(|line| Line { feet: line.feet, length: line.length }).collect(),
            line_up: strip.setting.line_up,
            stuck: strip.stuck,
            loose: strip
                .stuck
                .iter()
                .flat_map(|_| (0..strip.len()).filter(|&slot| !strip.is_down(slot)).map(|slot| slot + 1))
                .collect(),
            carriers: lying.map_or_else(Vec::new, |lying| {
                carriers(lying, &layout, (&steps, &template), strip.place.turn)
            }),
            touches: Vec::new(),
            steps,
            template,
        }
    }

    /// The steps with nothing to stick down.
    pub fn missing(&self) -> impl Iterator<Item = &Step> {
        self.steps.iter().filter(|step| matches!(step.used, Used::Missing(_)))
    }

    /// The letters of the stash on it, as they stand.
    pub fn letters(&self) -> impl Iterator<Item = &UsedLetter> {
        self.steps.iter().filter_map(|step| match &step.used {
            Used::Letter(letter) => Some(letter),
            Used::Thing(_) | Used::Missing(_) => None,
        })
    }

    /// The letter of a line, from 0, besides its first, whose left edge is measured where it is turned: the last that stands on the
    /// line with a body, no comma and no quotation mark; or else the last.
    #[must_use]
    pub fn last_measured(&self, line: usize) -> Option<&Step> {
        last_measured(&self.steps, &self.template, line)
    }

    /// The letters whose left edges are measured where it has a place: of each line the first, and the last where it is turned.
    #[must_use]
    pub fn measured(&self) -> Vec<&Step> {
        let of_line = |line| {
            let first = self.steps.iter().find(|step| step.line == line);
            first.into_iter().chain(self.last_measured(line).filter(|_| self.is_turned()))
        };
        (0..self.carriers.len()).flat_map(of_line).collect()
    }

    /// Whether it is turned on the page.
    #[must_use]
    pub fn is_turned(&self) -> bool {
        self.carriers.iter().any(|carrier| carrier.turn != Angle::ZERO)
    }
}

fn carriers(
    lying: Lying,
    layout: &Layout,
    (steps, template): (&[Step], &Template),
    turn: Angle,
) -> Vec<Carrier> {
    let carrier = |(number, line): (usize, &LineBox)| {
        let below = |step: &Step| lying.spot(step.stance.left, line.feet);
        let first = steps.iter().find(|step| step.line == number);
        Carrier {
            first: first.map_or_else(|| lying.spot(Length::ZERO, line.feet), below),
            last: last_measured(steps, template, number).filter(|_| turn != Angle::ZERO).map(below),
            turn,
        }
    };
    layout.lines.iter().enumerate().map(carrier).collect()
}

fn last_measured<'a>(steps: &'a [Step], template: &Template, line: usize) -> Option<&'a Step> {
    let feet = template.feet.get(line).map_or(0.0, |line| line.down);
    let letters: Vec<(&Step, Extent)> = steps
        .iter()
        .zip(&template.letters)
        .filter(|(step, _)| step.line == line)
        .map(|(step, drawn)| {
            (step, drawn.extent().unwrap_or(Extent { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 }))
        })
        .collect();
    let tallest = letters.iter().map(|(_, extent)| feet - extent.top).fold(0.0, f64::max);
    let stands = |(_, extent): &&(&Step, Extent)| {
        feet - extent.bottom < 0.1 * tallest && feet - extent.top > 0.4 * tallest
    };
    let (_, rest) = letters.split_first()?;
    rest.iter().rfind(stands).or(rest.last()).map(|&(step, _)| step)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::super::{Order, trial};
    use super::*;

    #[test]
    fn lefts_and_feet_are_measured_from_the_edges_of_the_page() {
        let plan = trial::placed("LA", &["blocks/L", "blocks/A"], 0);
        let order = Order::of(&plan, &trial::stash());
        let corner = order.strips[0].steps[1].corner.unwrap();
        // 40 mm to the first feet, a 12 mm tile, a gap of 1.5 mm; 300 - 109 mm up.
        assert_eq!((corner.left.number(), corner.up.unwrap().number()), ("53.5 mm".into(), "191 mm".into()));
        assert_eq!(order.strips[0].carriers[0].last, None);
    }

    #[test]
    fn a_turned_strip_is_lined_up_at_both_ends() {
        let plan = trial::placed("LA", &["blocks/L", "blocks/A"], 90_000);
        let carrier = Order::of(&plan, &trial::stash()).strips[0].carriers[0];
        assert_eq!(carrier.first.down, Length::from_mm(109));
        let last = carrier.last.unwrap();
        assert_eq!((last.left.number(), last.down.number()), ("40 mm".into(), "122.5 mm".into()));
    }

    #[test]
    fn a_turned_strip_is_not_lined_up_by_a_small_mark() {
        let order = |wording: &str| Order::of(&trial::placed(wording, &[], 12_000), &trial::stash());
        for (wording, last) in [("LAN,", "N"), ("LAN'", "N"), ("LAN.\nLE", "N"), ("L,", ","), ("LAg", "g")] {
            let order = order(wording);
            assert_eq!(order.strips[0].last_measured(0).unwrap().wanted.spoken(), last, "{wording}");
        }
    }
}
