//! What is chosen on the page, and in which order its things are walked.
//!
//! Must not know how the page is drawn.

use crate::page::Element;
use crate::title::Place;

use super::page_map::PageMap;
use super::state::State;

/// What is chosen on the page, and how near it is looked at.
#[derive(Debug, Clone, Default)]
pub struct PageView {
    /// The place of the chosen element; `None`: the strip in hand is chosen.
    pub element: Option<usize>,
    /// Whether it is looked at from near.
    pub near: bool,
    /// What the mouse holds.
    pub(super) held: Option<Held>,
}

/// Something on the page, by its place in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thing {
    /// A strip.
    Strip(usize),
    /// An element.
    Element(usize),
}

/// What the mouse holds since it was pressed. The map stays as it was then, so that the page keeps still under a thing
/// that is dragged.
#[derive(Debug, Clone)]
pub(super) struct Held {
    pub(super) map: PageMap,
    /// Where it was taken, in mm.
    pub(super) from: (f64, f64),
    /// How it lay then.
    pub(super) lay: Lay,
}

/// How a thing lay when it was taken.
#[derive(Debug, Clone)]
pub(super) enum Lay {
    Strip(Place),
    Element(Element),
}

impl State {
    /// What lies on the page, the topmost first: the strips, then the elements.
    pub fn things(&self) -> impl DoubleEndedIterator<Item = Thing> + ExactSizeIterator + Clone + use<> {
        let (strips, elements) = (self.trial.plan().strips().len(), self.trial.plan().page.elements.len());
        let thing = move |place: usize| match place.checked_sub(strips) {
            None => Thing::Strip(place),
            Some(down) => Thing::Element(elements - 1 - down),
        };
        (0..strips + elements).map(thing)
    }

    /// What is chosen on the page.
    #[must_use]
    pub fn thing(&self) -> Thing {
        match self.page.element.filter(|&place| place < self.trial.plan().page.elements.len()) {
            Some(place) => Thing::Element(place),
            None => Thing::Strip(self.bench.strip),
        }
    }

    /// The chosen element, with its place.
    #[must_use]
    pub fn element(&self) -> Option<(usize, &Element)> {
        match self.thing() {
            Thing::Element(place) => Some((place, &self.trial.plan().page.elements[place])),
            Thing::Strip(_) => None,
        }
    }

    /// Chooses something on the page.
    pub(super) fn choose_thing(&mut self, thing: Thing) {
        self.trial.close_step();
        match thing {
            Thing::Element(place) => self.page.element = Some(place),
            Thing::Strip(strip) => {
                self.page.element = None;
                if strip != self.bench.strip {
                    self.choose_strip(strip);
                }
            }
        }
    }

    /// Goes `by` things on, or back; after the last comes the first.
    pub(super) fn walk_things(&mut self, by: isize) {
        let things = self.things();
        let (chosen, count) = (self.thing(), things.len());
        let now = things.clone().position(|thing| thing == chosen).unwrap_or(0);
        let next = now.checked_add_signed(by.rem_euclid(isize::try_from(count).unwrap_or(1))).unwrap_or(0);
        if let Some(thing) = things.clone().nth(next % count) {
            self.choose_thing(thing);
        }
    }
}
