//! What can be done to the things on the page besides carrying them.
//!
//! Must not know which key asked.

use crate::measure::{Length, Point, Size};
use crate::page::{Cover, Element, Kind, Outline};
use crate::plan::PlanEdit;
use crate::title::{Edit, Place};

use super::carry::edit_element;
use super::page_view::Thing;
use super::state::State;
use super::thing_place::can_lie;
use super::update::after;

impl State {
    /// Changes the chosen element; `false`, with a word why, where none is chosen or it would not serve.
    pub(super) fn change_element(&mut self, change: impl FnOnce(&mut Element)) -> bool {
        let Some((place, was)) = self.element() else {
            let role = self.strip().role();
            let text = format!(
                "the {role} is chosen, which is made on the bench (1); tab chooses the things on the page"
            );
            self.say(text);
            return false;
        };
        let mut element = was.clone();
        change(&mut element);
        if element == *was {
            return false;
        }
        if let Err(why) = can_lie(&element.lie) {
            self.say(why);
            return false;
        }
        self.trial.change(edit_element(place, element), &mut self.shelf);
        true
    }

    /// Changes the chosen element by a step of its own, and says what came of it.
    pub(super) fn change_element_once(
        &mut self,
        change: impl FnOnce(&mut Element),
        told: impl FnOnce(&Element) -> String,
    ) {
        self.trial.close_step();
        if self.change_element(change) {
            let text = self
                .element()
                .map_or_else(String::new, |(_, element)| format!("{}: {}", element.called(), told(element)));
            self.say(text);
        }
        self.trial.close_step();
    }

    /// Makes the chosen element larger: by `width` and `height`, of which half goes to each side where `all_round`.
    pub(super) fn grow(&mut self, width: Length, height: Length, all_round: bool) {
        let unit = self.unit();
        let grown = |element: &mut Element| {
            let lie = &mut element.lie;
            lie.size = Size { width: lie.size.width + width, height: lie.size.height + height };
            if all_round {
                lie.at = Point { x: lie.at.x - width / 2, y: lie.at.y - height / 2 };
            }
        };
        if self.change_element(grown)
            && let Some((_, element)) = self.element()
        {
            let Size { width, height } = element.lie.size;
            let text = format!("{}: {} x {}", element.called(), width.show(unit), height.show(unit));
            self.say(text);
        }
    }

    pub(super) fn next_kind(&mut self) {
        let next = |element: &mut Element| element.kind = after(Kind::ALL, element.kind);
        self.change_element_once(next, |element| format!("a {}", element.kind));
    }

    pub(super) fn next_shape(&mut self) {
        let next = |element: &mut Element| element.lie.outline = after(Outline::ALL, element.lie.outline);
        self.change_element_once(next, |element| element.lie.outline.to_string());
    }

    pub(super) fn next_cover(&mut self) {
        let all = [None, Some(Cover::Never), Some(Cover::Edge), Some(Cover::Fine)];
        let next = |element: &mut Element| element.cover = after(&all, element.cover);
        self.change_element_once(next, |element| {
            let by = if element.cover.is_none() { ", as its kind has it" } else { "" };
            format!("{}{by}", cover_told(element.cover()))
        });
    }

    pub(super) fn next_bed(&mut self) {
        let all = [None, Some(true), Some(false)];
        let page = self.trial.plan().page.size;
        let next = |element: &mut Element| element.bed = after(&all, element.bed);
        self.change_element_once(next, |element| {
            let by = if element.bed.is_none() { ", by its size" } else { "" };
            let counts =
                if element.is_bed(page) { "counts as bare paper" } else { "does not count as bare paper" };
            format!("{counts}{by}")
        });
    }

    pub(super) fn toggle_original(&mut self) {
        let next = |element: &mut Element| element.original = !element.original;
        self.change_element_once(next, |element| {
            let told = if element.original {
                "an original: nothing sticks to it, and use adhesives that are safe for photos near it"
            } else {
                "no original: it can be printed again"
            };
            told.to_owned()
        });
    }

    /// Puts an element on the page under those from `place` on, as a step of its own, and chooses it.
    pub(super) fn add_element(&mut self, place: usize, element: Element, mat: Option<Element>) {
        let insert = |place, element| PlanEdit::InsertElement(place, Box::new(element));
        let with_mat = usize::from(mat.is_some());
        let edit = match mat {
            Some(mat) => PlanEdit::Several(vec![insert(place, mat), insert(place + 1, element)]),
            None => insert(place, element),
        };
        self.change_page(edit);
        self.choose_thing(Thing::Element(place + with_mat));
    }

    /// Makes an edit of the page as a step of its own.
    pub(super) fn change_page(&mut self, edit: PlanEdit) {
        self.trial.close_step();
        self.trial.change(edit, &mut self.shelf);
        self.trial.close_step();
    }

    /// Takes what is chosen off the page.
    pub(super) fn take_away(&mut self) {
        match self.thing() {
            Thing::Element(place) => {
                let name = self.trial.plan().page.elements[place].called().to_owned();
                self.change_page(PlanEdit::RemoveElement(place));
                let count = self.trial.plan().page.elements.len();
                self.page.element = count.checked_sub(1).map(|last| place.saturating_sub(1).min(last));
                self.say(format!("{name} is taken away; undo brings it back (u)"));
            }
            Thing::Strip(_) if self.strip().stuck.is_some() => self.refuse_stuck(),
            Thing::Strip(_) if self.strip().place.at.is_none() => self.say_where(),
            Thing::Strip(strip) => {
                let role = self.strip().role().clone();
                self.change_page(PlanEdit::Strip(strip, Edit::Place(Place::default())));
                self.say(format!("the {role} is taken off the page; its letters stay on the strip"));
            }
        }
    }

    /// Lays the chosen element over the one above it, or under the one below.
    pub(super) fn restack(&mut self, up: bool) {
        let Some((place, element)) = self.element() else {
            return self.say("strips lie over all things; tab chooses the things on the page");
        };
        let (name, elements) = (element.called().to_owned(), &self.trial.plan().page.elements);
        let other =
            if up { Some(place + 1).filter(|&next| next < elements.len()) } else { place.checked_sub(1) };
        let Some(other) = other else {
            return self.say(format!("{name} lies {} already", if up { "on top" } else { "at the bottom" }));
        };
        let beside = elements[other].called().to_owned();
        self.change_page(PlanEdit::Restack(place, other));
        self.page.element = Some(other);
        self.say(format!("{name} lies {} {beside}", if up { "over" } else { "under" }));
    }
}

/// Whether letters may lie on a thing, in words.
#[must_use]
pub const fn cover_told(cover: Cover) -> &'static str {
    match cover {
        Cover::Never => "letters never lie on it",
        Cover::Edge => "letters may lie over its edge",
        Cover::Fine => "letters may lie on it",
    }
}
