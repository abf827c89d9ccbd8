//! What lies on the page in the order in which it is walked, and which of it is chosen.
//!
//! Must not know how the page is drawn.

use crate::page::Element;

use super::page_view::Thing;
use super::state::State;

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

    /// Chooses something on the page; what the mouse holds is let go.
    pub(super) fn choose_thing(&mut self, thing: Thing) {
        self.page.held = None;
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

    /// Chooses the element that was chosen before others came or went in the stack: at its place, unless it lies at another
    /// now.
    pub(super) fn choose_again(&mut self, place: usize, was: &Element) {
        let elements = &self.trial.plan().page.elements;
        if elements.get(place) != Some(was) {
            self.page.element = elements.iter().position(|element| element == was).or(Some(place));
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
