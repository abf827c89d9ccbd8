//! The mouse on the page: a click chooses, a drag carries, the wheel walks.
//!
//! Must not know how the page is drawn, only where it lies.

use crate::measure::{Length, Point};
use crate::plan::Plan;
use crate::title::{Layout, Place};

use super::input::{Mouse, MouseAct};
use super::page_map::PageMap;
use super::page_view::{Held, Lay, Thing};
use super::state::State;

impl State {
    pub(super) fn mouse_on_page(&mut self, mouse: Mouse) {
        match mouse.what {
            MouseAct::WheelUp => self.walk_things(-1),
            MouseAct::WheelDown => self.walk_things(1),
            MouseAct::Press => self.take_hold(mouse),
            MouseAct::Drag => self.drag(mouse),
            MouseAct::Release => self.let_go(),
        }
    }

    /// The mouse holds nothing any more.
    pub(super) fn let_go(&mut self) {
        if self.page.held.take().is_some() {
            self.trial.close_step();
        }
    }

    fn take_hold(&mut self, mouse: Mouse) {
        self.page.held = None;
        let panes = self.page_panes();
        if panes.things.holds(mouse.column, mouse.row) {
            let line = usize::from(mouse.row - panes.things.y);
            let thing = line.checked_sub(1).and_then(|line| self.things().nth(self.first_thing() + line));
            return thing.into_iter().for_each(|thing| self.choose_thing(thing));
        }
        if !panes.page.holds(mouse.column, mouse.row) {
            return;
        }
        let map = PageMap::of(self);
        let from = map.at_cell(mouse.column, mouse.row);
        let Some(thing) = self.thing_at(&map, from) else { return };
        self.choose_thing(thing);
        let lay = match thing {
            Thing::Element(place) => Lay::Element(self.trial.plan().page.elements[place].clone()),
            Thing::Strip(_) if self.strip().stuck.is_some() => return self.refuse_stuck(),
            Thing::Strip(_) => Lay::Strip(self.strip().place),
        };
        // Seen whole the map is the same wherever things lie.
        let map = if self.page.near { PageMap::of(self) } else { map };
        let from = map.at_cell(mouse.column, mouse.row);
        self.page.held = Some(Held { map, from, lay });
    }

    fn drag(&mut self, mouse: Mouse) {
        let Some(Held { map, from, lay }) = self.page.held.clone() else { return };
        let to = map.at_cell(mouse.column, mouse.row);
        let by = |from: f64, to: f64| Length::from_mm_f64((to - from).round());
        let moved = |at: Point| Point { x: at.x + by(from.0, to.0), y: at.y + by(from.1, to.1) };
        match lay {
            Lay::Strip(place) => {
                self.move_strip(Place { at: place.at.map(moved), ..place });
            }
            Lay::Element(was) => {
                self.change_element(|element| element.lie.at = moved(was.lie.at));
            }
        }
        self.say_where();
    }

    /// What lies topmost at a place on the page, in mm.
    fn thing_at(&self, map: &PageMap, at: (f64, f64)) -> Option<Thing> {
        let plan: &Plan = self.trial.plan();
        let strip = (0..plan.strips().len()).find(|&place| {
            let strip = &plan.strips()[place];
            let layout = Layout::of(strip, &self.shelf.stash);
            layout.box_on_page(&strip.place).is_some_and(|corners| is_within(&corners, at, map.scale))
        });
        let element = || plan.page.footprints().iter().rposition(|one| one.covers(at.0, at.1));
        strip.map(Thing::Strip).or_else(|| element().map(Thing::Element))
    }
}

/// Whether a place lies in a turned box, given by its corners from the lower left one clockwise, or within half a cell of it.
fn is_within(corners: &[(f64, f64)], at: (f64, f64), scale: (f64, f64)) -> bool {
    let [lower, upper, _, right] = corners else { return false };
    let along = |to: &(f64, f64), slack: f64| {
        let (dx, dy) = (to.0 - lower.0, to.1 - lower.1);
        let length = dx.hypot(dy);
        let way = ((at.0 - lower.0) * dx + (at.1 - lower.1) * dy) / length.max(1e-9);
        -slack <= way && way <= length + slack
    };
    along(upper, scale.1 / 2.0) && along(right, scale.0 / 2.0)
}
