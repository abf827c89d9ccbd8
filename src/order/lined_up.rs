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
    /// What lines its carrier up, lengths in `unit`; nothing where it has no place.
    #[must_use]
    pub fn lined_up(&self, unit: Unit) -> Vec<LinedUp> {
        let Some(carrier) = &self.carrier else { return Vec::new() };
        let feet = |of: &str, step: Option<&Step>, spot: &Spot| LinedUp {
            told: format!(
                "The feet of {of} letter ({}), at its left edge, come to lie",
                step.map_or_else(String::new, |step| step.wanted.spoken())
            ),
            edges: Some(spot.edges(unit)),
        };
        let mut told = vec![feet("its first", self.steps.first(), &carrier.first)];
        told.extend(
            carrier
                .turn_told()
                .map(|turn| LinedUp { told: format!("The strip is turned {turn}"), edges: None }),
        );
        if let Some(last) = &carrier.last {
            told.push(feet("the line's last", self.last_measured(), last));
        }
        told
    }
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
}
