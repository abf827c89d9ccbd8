//! How a strip's carrier is lined up on the page, told.
//!
//! Must not know columns or paper.

use std::fmt;

use crate::checks::tell_length;
use crate::measure::Unit;

use super::{Spot, Step, StripOrder};

/// One thing that lines a carrier up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LinedUp {
    /// `The strip is turned 5 degrees clockwise`, or what comes to lie where `edges` say.
    pub told: String,
    /// Its way from two edges of the page: `40 mm from the page's left edge`.
    pub edges: Option<[String; 2]>,
}

impl StripOrder {
    /// What lines its carriers up, line by line, lengths in `unit`; nothing where it has no place.
    #[must_use]
    pub fn lined_up(&self, unit: Unit) -> Vec<LinedUp> {
        let (mut told, two) = (Vec::new(), self.carriers.len() > 1);
        for (line, carrier) in self.carriers.iter().enumerate() {
            let mut letters = self.steps.iter().filter(|step| step.line == line);
            let (first, last) = match (line, two) {
                (0, false) => ("its first", "the line's last"),
                (0, true) => ("the first line's first", "the first line's last"),
                _ => ("the second line's first", "the second line's last"),
            };
            let [across, mut along] = carrier.first.edges(unit);
            if !self.is_turned() {
                along.push_str(", the same at both ends: it runs level");
            }
            told.push(feet(first, letters.next(), [across, along]));
            let turn = carrier.turn_told().filter(|_| line == 0);
            told.extend(
                turn.map(|turn| LinedUp { told: format!("The strip is turned {turn}"), edges: None }),
            );
            told.extend(
                carrier.last.iter().map(|spot| feet(last, self.last_measured(line), spot.edges(unit))),
            );
        }
        told
    }
}

fn feet(of: &str, step: Option<&Step>, edges: [String; 2]) -> LinedUp {
    let called = step.map_or_else(String::new, |step| step.wanted.spoken());
    let told = format!("The feet of {of} letter ({called}), at its left edge, come to lie");
    LinedUp { told, edges: Some(edges) }
}

impl fmt::Display for LinedUp {
    /// A sentence.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told)?;
        if let Some([one, other]) = &self.edges {
            write!(f, " {one} and {other}")?;
        }
        f.write_str(".")
    }
}

impl Spot {
    /// How far it is from two edges of the page, lengths in `unit`.
    fn edges(&self, unit: Unit) -> [String; 2] {
        let (edge, length) = self.up.map_or(("top", self.down), |up| ("bottom", up));
        [
            format!("{} from the page's left edge", tell_length(self.left, unit)),
            format!("{} from the page's {edge} edge", tell_length(length, unit)),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Order, trial};
    use super::*;
    use crate::measure::Length;

    #[test]
    fn a_turned_strip_is_told_by_both_ends() {
        let plan = trial::placed("LA", &["blocks/L", "blocks/A"], 90_000);
        let told = Order::of(&plan, &trial::stash()).strips[0].lined_up(Unit::Millimetre);
        let told: Vec<String> = told.iter().map(ToString::to_string).collect();
        assert_eq!(
            told.join(" "),
            "The feet of its first letter (L), at its left edge, come to lie 40 mm from the page's left edge and 191 mm \
             from the page's bottom edge. The strip is turned 90 degrees clockwise. The feet of the line's last letter \
             (A), at its left edge, come to lie 40 mm from the page's left edge and 177.5 mm from the page's bottom edge."
        );
    }

    #[test]
    fn each_line_is_told_by_its_own_measures() {
        let plan = trial::placed("L\nA", &["blocks/L", "blocks/A"], 0);
        let order = Order::of(&plan, &trial::stash());
        let strip = &order.strips[0];
        // Tiles of 12 mm; the feet of the first line are 191 mm up.
        let below = Length::from_mm(191) + strip.lines[1].feet;
        assert!(strip.lines[1].feet <= Length::from_mm(-12));
        let told: Vec<String> = strip.lined_up(Unit::Millimetre).iter().map(ToString::to_string).collect();
        let second = format!(
            "The feet of the second line's first letter (A), at its left edge, come to lie 40 mm from the page's left \
             edge and {} from the page's bottom edge, the same at both ends: it runs level.",
            tell_length(below, Unit::Millimetre)
        );
        assert!(told[0].starts_with("The feet of the first line's first letter (L)"), "{told:?}");
        assert_eq!(told[1..], [second]);
    }
}
