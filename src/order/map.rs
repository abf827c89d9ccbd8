//! A map of the page: what lies on it, and the strips where they come to lie.
//!
//! Must not know paper.

use crate::measure::{Polygon, Size};
use crate::page::Kind;
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Layout, Role, Strip, cuts, wished};

/// The page with all that lies on it, in mm from its upper left corner, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Map {
    /// Width and height of the page.
    pub size: Size,
    /// The things on it, in stacking order, lowest first.
    pub things: Vec<MapThing>,
    /// The strips that are placed.
    pub strips: Vec<MapStrip>,
}

/// A thing on the map.
#[derive(Debug, Clone, PartialEq)]
pub struct MapThing {
    /// What the owner calls it, or else what it is.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// Whether it cannot be reprinted.
    pub original: bool,
    /// Its outline.
    pub outline: Polygon,
}

/// A strip on the map.
#[derive(Debug, Clone, PartialEq)]
pub struct MapStrip {
    /// What it is for.
    pub role: Role,
    /// The box around its letters, from the lower left corner clockwise.
    pub corners: Polygon,
    /// The outline of each letter that stands on it.
    pub letters: Vec<Vec<Polygon>>,
    /// What is printed on those that are tiles, tile by tile.
    pub prints: Vec<Vec<Polygon>>,
    /// The outline of each letter that is missing, as it is wanted.
    pub missing: Vec<Vec<Polygon>>,
}

impl Map {
    /// Of `plan`; `None` where its page has no size, or nothing lies on it.
    pub(super) fn of(plan: &Plan, stash: &Stash) -> Option<Self> {
        let thing = |element: &crate::page::Element| MapThing {
            name: element.called().to_owned(),
            kind: element.kind,
            original: element.original,
            outline: element.lie.polygon(),
        };
        let map = Self {
            size: plan.page.size?,
            things: plan.page.elements.iter().map(thing).collect(),
            strips: plan.strips().iter().filter_map(|strip| laid(strip, stash)).collect(),
        };
        (!map.things.is_empty() || !map.strips.is_empty()).then_some(map)
    }
}

fn laid(strip: &Strip, stash: &Stash) -> Option<MapStrip> {
    let layout = Layout::of(strip, stash);
    let corners = layout.box_on_page(&strip.place)?;
    let on_page = |polygon: &Polygon| polygon.iter().filter_map(|&at| strip.place.on_page(at)).collect();
    let letters = cuts(strip, &layout, stash);
    let laid = |shape: &Vec<Polygon>| shape.iter().map(on_page).collect();
    let prints = letters.iter().filter_map(|cut| cut.print.as_ref()).map(laid).collect();
    let stands = |slot: usize| letters.iter().any(|cut| cut.slot == slot);
    let lacking = (0..strip.len()).filter(|&slot| !stands(slot));
    let missing = lacking.map(|slot| laid(&wished(strip, &layout, slot))).collect();
    let letters = letters.iter().map(|cut| laid(&cut.edge)).collect();
    Some(MapStrip { role: strip.role().clone(), corners, letters, prints, missing })
}
