//! How a strip's carrier is lined up on the page, in sentences.
//!
//! Must not know columns or paper.

use crate::checks::tell_length;
use crate::measure::Unit;

use super::{Spot, Step, StripOrder};

impl StripOrder {
    /// The measurements that line its carrier up, a sentence each, lengths in `unit`; that it has no place where it has none.
    #[must_use]
    pub fn lined_up(&self, unit: Unit) -> Vec<String> {
        let role = &self.role;
        let Some(carrier) = &self.carrier else {
            return vec![format!("The {role} has no place on the page yet.")];
        };
        let called = |step: Option<&Step>| step.map_or_else(String::new, |step| step.wanted.spoken());
        let first = called(self.steps.first());
        let place = carrier.first.told(unit);
        let mut told =
            vec![format!("The feet of its first letter ({first}), at its left edge, come to lie {place}.")];
        if let Some(turn) = carrier.turn_told() {
            told.push(format!("The strip is turned {turn}."));
        }
        if let Some(last) = &carrier.last {
            let letter = called(self.steps.iter().rfind(|step| step.line == 0));
            let place = last.told(unit);
            told.push(format!(
                "The feet of the line's last letter ({letter}), at its left edge, come to lie {place}."
            ));
        }
        told
    }
}

impl Spot {
    /// Where it is, from two edges of the page, lengths in `unit`.
    #[must_use]
    pub fn told(&self, unit: Unit) -> String {
        let (edge, length) = self.up.map_or(("top", self.down), |up| ("bottom", up));
        format!(
            "{} from the page's left edge and {} from the page's {edge} edge",
            tell_length(self.left, unit),
            tell_length(length, unit)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Order, trial};
    use super::*;

    #[test]
    fn a_turned_strip_is_told_by_both_ends() {
        let plan = trial::placed("LA", &["blocks/L", "blocks/A"], 90_000);
        let told = Order::of(&plan, &trial::stash()).strips[0].lined_up(Unit::Millimetre).join(" ");
        assert_eq!(
            told,
            "The feet of its first letter (L), at its left edge, come to lie 40 mm from the page's left edge and 191 mm \
             from the page's bottom edge. The strip is turned 90 degrees clockwise. The feet of the line's last letter \
             (A), at its left edge, come to lie 40 mm from the page's left edge and 177.5 mm from the page's bottom edge."
        );
    }
}
