//! The order for a whole plan.
//!
//! Must not know how it is printed.

use crate::letter::StandInKind;
use crate::measure::{Angle, Length, Size};
use crate::page::Kind;
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Layout, Strip};

use super::pull::{Pull, pulls};
use super::step::{Stands, Step, steps};

/// The placement order of a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// What the page is called; empty: it has no name.
    pub page: String,
    /// Its size.
    pub size: Option<Size>,
    /// What to take off which sheet.
    pub pulls: Vec<Pull>,
    /// Strip by strip, in the plan's order.
    pub strips: Vec<StripOrder>,
    /// What to mind.
    pub cautions: Vec<Caution>,
}

/// The order of one strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripOrder {
    /// What it is for.
    pub role: String,
    /// What it says; a line break starts the second line.
    pub wording: String,
    /// Whether its letters are on the page already.
    pub stuck: bool,
    /// The measurements that line the carrier up; `None` while the strip is not placed.
    pub lining: Option<Lining>,
    /// The length of its longest line.
    pub length: Length,
    /// Slot by slot.
    pub steps: Vec<Step>,
}

/// The measurements that line a carrier up on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lining {
    /// From the page's left edge to the left end of the first letter's feet.
    pub from_left: Length,
    /// From the page's bottom edge up to those feet; `None` where the page's size is not known.
    pub from_bottom: Option<Length>,
    /// From the page's top edge down to them.
    pub from_top: Length,
    /// The turn of the strip, and how far from the page's top edge the right end of the feet line then is.
    pub turned: Option<(Angle, Length)>,
}

/// What to mind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// A letter is trimmed with a craft knife.
    Knife,
    /// A photo on the page cannot be reprinted.
    OriginalPhoto,
    /// There are photos on the page.
    PhotoSafe,
}

impl Caution {
    /// The caution in a sentence (common practice, no source).
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Knife => "Craft knife: cut away from your fingers, on a cutting mat, with a fresh blade.",
            Self::OriginalPhoto => {
                "An original photo is on this page: nothing adhesive over it; keep every letter clear of it."
            }
            Self::PhotoSafe => "Use photo-safe (acid-free) adhesives near photos.",
        }
    }
}

impl Order {
    /// The order of `plan` with the letters of `stash`.
    #[must_use]
    pub fn of(plan: &Plan, stash: &Stash) -> Self {
        let strips: Vec<StripOrder> =
            plan.strips().iter().map(|strip| strip_order(strip, plan, stash)).collect();
        let photos = || plan.page.elements.iter().filter(|element| element.kind == Kind::Photo);
        let trims = strips
            .iter()
            .flat_map(|strip| &strip.steps)
            .any(|step| matches!(step.stands, Stands::Letter { stands_in: Some(StandInKind::Trimmed), .. }));
        let cautions = [
            trims.then_some(Caution::Knife),
            photos().any(|photo| photo.original).then_some(Caution::OriginalPhoto),
            photos().next().map(|_| Caution::PhotoSafe),
        ];
        Self {
            page: plan.name.clone().unwrap_or_default(),
            size: plan.page.size,
            pulls: pulls(plan, stash),
            strips,
            cautions: cautions.into_iter().flatten().collect(),
        }
    }

    /// Whether a letter is to be trimmed.
    #[must_use]
    pub fn needs_knife(&self) -> bool {
        self.cautions.contains(&Caution::Knife)
    }

    /// The slots with nothing in them: role and step, in order.
    pub fn missing(&self) -> impl Iterator<Item = (&str, &Step)> {
        self.strips.iter().flat_map(|strip| {
            let missing = strip.steps.iter().filter(|step| step.stands == Stands::Missing);
            missing.map(|step| (strip.role.as_str(), step))
        })
    }
}

fn strip_order(strip: &Strip, plan: &Plan, stash: &Stash) -> StripOrder {
    let length = Layout::of(strip, stash).length();
    let lining = strip.place.at.map(|at| Lining {
        from_left: at.x,
        from_bottom: plan.page.size.map(|size| size.height - at.y),
        from_top: at.y,
        turned: (strip.place.turn != Angle::ZERO)
            .then(|| strip.place.on_page(length, Length::ZERO).map(|end| (strip.place.turn, end.y)))
            .flatten(),
    });
    StripOrder {
        role: strip.role().to_string(),
        wording: strip.wording().text().to_owned(),
        stuck: strip.stuck.is_some(),
        lining,
        length,
        steps: steps(strip, stash),
    }
}
