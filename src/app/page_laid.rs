//! The page as it is laid on its pane: whole, or what is chosen from near.
//!
//! Must not know how anything is drawn.

use crate::measure::Extent;
use crate::title::Layout;

use super::page_map::PageMap;
use super::page_view::Thing;
use super::panes::Area;
use super::state::State;

/// What is shown where neither a page nor anything on it tells a size: as much as a page of 12 x 12 in.
const USUAL_SIDE: f64 = 304.8;

/// Paper shown around what is looked at from near, in mm.
const AROUND: f64 = 8.0;

impl PageMap {
    /// Lays the page on its pane, whole or from near; while the mouse holds something it stays where it is.
    #[must_use]
    pub fn of(state: &State) -> Self {
        if let Some(held) = &state.page.held {
            return held.map;
        }
        let area = state.page_panes().page;
        match near(state) {
            Some(extent) => Self::fit(area, extent),
            None => Self::whole(area, state),
        }
    }

    fn whole(area: Area, state: &State) -> Self {
        let Some(size) = state.trial.plan().page.size else {
            return Self::fit(area, around_all(state));
        };
        // A cell all round is kept for the edge.
        let (columns, rows) = (f64::from(area.width.max(3)) - 2.0, f64::from(area.height.max(3)) - 2.0);
        let (width, height) = (size.width.mm(), size.height.mm());
        let mm_per_column = (width / columns).max(height / rows / 2.0);
        let (across, down) =
            ((width / mm_per_column).round().max(1.0), (height / mm_per_column / 2.0).round().max(1.0));
        let scale = (width / across, height / down);
        let before = |room: f64, taken: f64| 1.0 + ((room - taken) / 2.0).floor().max(0.0);
        let corner = (-before(columns, across) * scale.0, -before(rows, down) * scale.1);
        Self { area, scale, corner }
    }
}

/// What is looked at from near: what is chosen, unless it is a strip that is not placed.
fn near(state: &State) -> Option<Extent> {
    if !state.page.near {
        return None;
    }
    let extent = extent_of(state, state.thing())?;
    let Extent { left, top, right, bottom } = extent;
    Some(Extent { left: left - AROUND, top: top - AROUND, right: right + AROUND, bottom: bottom + AROUND })
}

fn extent_of(state: &State, thing: Thing) -> Option<Extent> {
    let plan = state.trial.plan();
    let outline = match thing {
        Thing::Element(place) => plan.page.elements[place].lie.polygon(),
        Thing::Strip(place) => {
            let strip = &plan.strips()[place];
            Layout::of(strip, &state.shelf.stash).box_on_page(&strip.place)?
        }
    };
    Extent::of(&[outline])
}

/// All that lies on a page without a size.
fn around_all(state: &State) -> Extent {
    let usual = Extent { left: 0.0, top: 0.0, right: USUAL_SIDE, bottom: USUAL_SIDE };
    state.things().filter_map(|thing| extent_of(state, thing)).fold(usual, Extent::and)
}
