//! The page colours, which of them lead, and which of them a letter's colour belongs to.
//!
//! Must not know letters.

use crate::measure::{Colour, Hundredths, Lab, Tint};
use crate::page::{ColourShare, Page, visible_shares};

use super::taste::{Knob, Taste};

/// Colours that look like one on a page: up to this difference (house).
const SAME: Hundredths = Hundredths::new(600);

/// The colours present on a page; empty where neither the plan nor the things on the page name any.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Palette {
    colours: Vec<PageColour>,
    main: Option<usize>,
    second: Option<usize>,
}

/// One page colour.
#[derive(Debug, Clone, PartialEq)]
pub struct PageColour {
    /// The colour and its name.
    pub tint: Tint,
    lab: Lab,
    /// Whether it is the ground's.
    ground: bool,
}

/// What a letter's colour belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Family {
    /// A page colour, by its place in the palette.
    Page(u8),
    /// No page colour; light (0), middling (1) or dark (2).
    Neutral(u8),
    /// No page colour; one of eight sectors of 45 degrees of hue, the first centred on 0.
    Hue(u8),
}

impl Palette {
    /// Colours up to this difference are taken for one another by whoever looks for a colour by name (house).
    pub const ALIKE: Hundredths = Hundredths::new(1500);

    /// The palette of `page`: the plan's own list, or else what shows.
    #[must_use]
    pub fn of(page: &Page, taste: &Taste) -> Self {
        if page.colours.is_empty() { Self::seen(page, taste) } else { Self::listed(page) }
    }

    fn listed(page: &Page) -> Self {
        let ground = page.ground.as_ref().map(|tint| tint.colour.lab());
        let colours: Vec<PageColour> = page
            .colours
            .iter()
            .map(|tint| {
                let lab = tint.colour.lab();
                PageColour {
                    tint: tint.clone(),
                    lab,
                    ground: ground.is_some_and(|g| g.difference(lab) <= SAME),
                }
            })
            .collect();
        Self { main: Some(0), second: (colours.len() > 1).then_some(1), colours }
    }

    fn seen(page: &Page, taste: &Taste) -> Self {
        if page.elements.is_empty() {
            return Self::default();
        }
        let mut shares = visible_shares(page);
        // What is wholly hidden is not on the page; without a page size the ground has no area, yet it shows.
        shares.retain(|share| share.area > 0.0 || (share.ground && page.size.is_none()));
        let joined = join_alike(shares);
        let leading = |share: &ColourShare| {
            share.area > 0.0 && at_least(share.tint.colour.lab().chroma(), taste.ratio(Knob::NeutralChroma))
        };
        let mut order: Vec<usize> = (0..joined.len()).filter(|&place| leading(&joined[place])).collect();
        // Ground and photos lead only where nothing else can; within each, the larger area.
        order.sort_by(|&a, &b| {
            (joined[b].placed, joined[b].area)
                .partial_cmp(&(joined[a].placed, joined[a].area))
                .unwrap_or(std::cmp::Ordering::Equal)
        });
        let colours = joined
            .into_iter()
            .map(|share| PageColour { lab: share.tint.colour.lab(), ground: share.ground, tint: share.tint })
            .collect();
        Self { colours, main: order.first().copied(), second: order.get(1).copied() }
    }

    /// Whether there are page colours at all; without, the checks of page colours do not apply.
    #[must_use]
    pub fn is_known(&self) -> bool {
        !self.colours.is_empty()
    }

    /// The page colours, the most seen first.
    #[must_use]
    pub fn colours(&self) -> &[PageColour] {
        &self.colours
    }

    /// The main colour's family.
    #[must_use]
    pub fn main(&self) -> Option<Family> {
        self.main.map(family_at)
    }

    /// The second colour's family.
    #[must_use]
    pub fn second(&self) -> Option<Family> {
        self.second.map(family_at)
    }

    /// How many colours a title should have: `want`, or all that the page has besides its ground.
    #[must_use]
    pub fn variety(&self, want: usize) -> usize {
        if !self.is_known() {
            return want;
        }
        want.min(self.colours.iter().filter(|colour| !colour.ground).count())
    }

    /// What to call a family.
    #[must_use]
    pub fn name(&self, family: Family) -> String {
        const SHADES: [&str; 3] = ["light neutral", "grey", "dark neutral"];
        const HUES: [&str; 8] = ["pink", "orange", "yellow", "green", "teal", "sky blue", "blue", "purple"];
        match family {
            Family::Page(place) => {
                self.colours.get(usize::from(place)).map_or_else(String::new, |c| c.tint.name().into_owned())
            }
            Family::Neutral(shade) => SHADES[usize::from(shade.min(2))].into(),
            Family::Hue(sector) => HUES[usize::from(sector % 8)].into(),
        }
    }

    /// The page colour nearest to `lab` and its difference, ties to the earlier.
    pub(super) fn nearest(&self, lab: Lab) -> Option<(usize, Hundredths)> {
        let differences = self.colours.iter().map(|colour| colour.lab.difference(lab));
        differences.enumerate().min_by_key(|&(place, difference)| (difference, place))
    }

    /// The family of a colour that is no page colour.
    pub(super) fn stray_family(colour: Colour, taste: &Taste) -> Family {
        let lab = colour.lab();
        if !at_least(lab.chroma(), taste.ratio(Knob::NeutralChroma)) {
            return Family::Neutral(match lab.l() {
                l if l >= 70.0 => 0,
                l if l >= 30.0 => 1,
                _ => 2,
            });
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 8")]
        let sector = ((lab.hue_degrees() + 22.5) / 45.0) as u8;
        Family::Hue(sector % 8)
    }
}

/// The family of the page colour at `place`; a page has far fewer than 200 colours, and what is beyond shares one.
pub(super) fn family_at(place: usize) -> Family {
    Family::Page(u8::try_from(place).unwrap_or(u8::MAX))
}

/// Compares a chroma, rounded to 0.01 as every figure is before use.
pub(super) fn at_least(chroma: f64, least: Hundredths) -> bool {
    Hundredths::from_f64(chroma) >= least
}

/// Joins shares whose colours look like one, the most seen first, ties in file order.
fn join_alike(shares: Vec<ColourShare>) -> Vec<ColourShare> {
    let mut same: Vec<ColourShare> = Vec::new();
    for share in shares {
        match same.iter_mut().find(|earlier| earlier.tint.colour == share.tint.colour) {
            Some(earlier) => add(earlier, &share),
            None => same.push(share),
        }
    }
    same.sort_by(|a, b| b.area.partial_cmp(&a.area).unwrap_or(std::cmp::Ordering::Equal));
    let mut joined: Vec<ColourShare> = Vec::new();
    for share in same {
        let lab = share.tint.colour.lab();
        match joined.iter_mut().find(|earlier| earlier.tint.colour.lab().difference(lab) <= SAME) {
            Some(earlier) => add(earlier, &share),
            None => joined.push(share),
        }
    }
    joined
}

fn add(to: &mut ColourShare, share: &ColourShare) {
    to.area += share.area;
    to.placed |= share.placed;
    to.ground |= share.ground;
}
