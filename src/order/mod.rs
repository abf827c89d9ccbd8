//! The placement order: everything needed to stick a plan's letters down, derived from the plan and never stored.
//!
//! Must not know files or paper.

mod caution;
mod lined_up;
mod map;
mod pull;
mod sheet_name;
mod spot;
mod step;
mod strip;
mod telling;
mod template;
#[cfg(test)]
pub(crate) mod trial;

use crate::checks::{tell_touched, touches};
use crate::measure::Size;
use crate::page::Touch;
use crate::plan::Plan;
use crate::stash::Stash;
use crate::words::words;

pub use caution::Caution;
pub use lined_up::LinedUp;
pub use map::{Map, MapStrip, MapThing};
pub use pull::{Pull, PulledLetter};
pub use sheet_name::SheetName;
pub use spot::Spot;
pub use step::{Serves, Stance, Step, Used, UsedLetter};
pub use strip::{Carrier, Contact, Line, StripOrder};
pub use template::{Drawn, Edge, FeetLine, Template};

words! {
    /// A thing to have at hand.
    Tool {
        /// What the line stands on until it is down.
        Carrier = "carrier",
        /// For small letters.
        Tweezers = "tweezers",
        /// For the two measurements that line the carrier up.
        Ruler = "ruler",
        /// Only where a letter is trimmed.
        Knife = "craft knife with a fresh blade",
        /// What is cut on.
        Mat = "cutting mat",
    }
}

words! {
    /// A form that an order is given in.
    Form {
        /// Words alone, in 80 columns.
        Text = "text",
        /// A drawing of a sheet of paper.
        Svg = "svg",
        /// All sheets of paper.
        Pdf = "pdf",
    }
}

/// How a plan's letters are stuck down. Strips already stuck are told, but nothing is pulled or cut for them.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// What the plan's owner calls it.
    pub name: Option<String>,
    /// Width and height of the page, where known.
    pub page: Option<Size>,
    /// What to have at hand; things by hand are told in the steps.
    pub tools: Vec<Tool>,
    /// What to take off which sheet, each sheet once, by tag, name and id.
    pub pulls: Vec<Pull>,
    /// Strip by strip, in the plan's order.
    pub strips: Vec<StripOrder>,
    /// What to mind, gravest first.
    pub cautions: Vec<Caution>,
    /// The page with what lies on it; `None` where its size is not known, or nothing does.
    pub map: Option<Map>,
}

impl Order {
    /// The order for `plan` from `stash`. A chip that the stash lacks leaves its slot missing.
    #[must_use]
    pub fn of(plan: &Plan, stash: &Stash) -> Self {
        let mut strips: Vec<StripOrder> =
            plan.strips().iter().map(|strip| StripOrder::of(strip, &plan.page, stash)).collect();
        for (place, touches) in touches(plan, stash) {
            let named: Vec<(Touch, String)> =
                touches.into_iter().map(|touch| (touch, tell_touched(plan, touch.what))).collect();
            let contact =
                |(touch, name): (Touch, String)| Contact { name, side: touch.side, over: touch.over };
            strips[place].touches = named.into_iter().map(contact).collect();
        }
        let mut pulls = pull::pulls(plan, stash);
        pull::tell_apart(&mut pulls, &mut strips);
        let cuts = pulls.iter().flat_map(|pull| &pull.letters).any(|letter| letter.trimmed > 0);
        let needed = |tool: &&Tool| cuts || !matches!(tool, Tool::Knife | Tool::Mat);
        Self {
            name: plan.name.clone(),
            page: plan.page.size,
            tools: Tool::ALL.iter().filter(needed).copied().collect(),
            pulls,
            strips,
            cautions: caution::cautions(plan, stash, cuts),
            map: Map::of(plan, stash),
        }
    }

    /// Whether `strip` must not be stuck down where it lies.
    #[must_use]
    pub fn is_misplaced(&self, strip: &StripOrder) -> bool {
        self.cautions.iter().any(|caution| caution.misplaced() == Some(&strip.role))
    }

    /// The letters asked for more often than they are left, each with its sheet.
    pub fn short(&self) -> impl Iterator<Item = (&SheetName, &PulledLetter)> {
        self.pulls.iter().flat_map(|pull| {
            pull.letters
                .iter()
                .filter(|letter| letter.count > letter.left)
                .map(|letter| (&pull.sheet, letter))
        })
    }
}
