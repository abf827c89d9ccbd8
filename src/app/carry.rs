//! What is carried over the page: strips and elements, by keys.
//!
//! Must not know which key asked.

use crate::checks::tell_length;
use crate::measure::{Angle, Length, Point, Unit};
use crate::page::Element;
use crate::plan::PlanEdit;
use crate::title::{Edit, Layout, Place, Strip};

use super::page_view::Thing;
use super::state::State;

/// How far one key carries, and how far the larger one does: what can be read off a ruler.
pub(super) const fn strides(unit: Unit) -> (Length, Length) {
    match unit {
        Unit::Millimetre => (Length::from_mm(1), Length::from_mm(10)),
        Unit::Inch => (Length::from_nm(1_587_500), Length::from_nm(12_700_000)),
    }
}

/// Where a place worked out with sines is put: a hundredth of a millimetre.
const GRAIN: i64 = 10_000;

/// Kept between a strip that is put down and the one above it.
const BELOW: Length = Length::from_mm(10);

impl State {
    /// Carries what is chosen.
    pub(super) fn carry(&mut self, by: Point) {
        match self.thing() {
            Thing::Element(_) => {
                let moved = |element: &mut Element| {
                    let Point { x, y } = element.lie.at;
                    element.lie.at = Point { x: x + by.x, y: y + by.y };
                };
                if self.change_element(moved) {
                    self.say_where();
                }
            }
            Thing::Strip(_) => {
                let Some(place) = self.place_in_hand() else { return };
                let at = place.at.map(|at| Point { x: at.x + by.x, y: at.y + by.y });
                self.lay_strip(Place { at, ..place });
            }
        }
    }

    /// Turns what is chosen about its middle.
    pub(super) fn turn_by(&mut self, by: Angle) {
        let now = match self.element() {
            Some((_, element)) => element.lie.turn,
            None => self.strip().place.turn,
        };
        self.turn_to(now + by);
    }

    /// Turns what is chosen so far.
    pub(super) fn turn_to(&mut self, turn: Angle) {
        match self.thing() {
            Thing::Element(_) => {
                if self.change_element(|element| element.lie.turn = turn) {
                    self.say_where();
                }
            }
            Thing::Strip(_) => {
                let Some(place) = self.place_in_hand() else { return };
                let layout = Layout::of(self.strip(), &self.shelf.stash);
                self.lay_strip(turned(place, turn, &layout));
            }
        }
    }

    /// Where the strip in hand lies. One that is stuck down is refused, and one that is not on the page is put down first,
    /// which is all that happens then.
    fn place_in_hand(&mut self) -> Option<Place> {
        let strip = self.strip();
        if strip.stuck.is_some() {
            self.refuse_stuck();
            return None;
        }
        if strip.place.at.is_none() {
            let (place, role) = (Place { at: Some(self.first_place()), ..strip.place }, strip.role().clone());
            self.trial.close_step();
            self.change(Edit::Place(place));
            self.trial.close_step();
            self.say(format!("the {role} is put down: the arrows carry it, n finds where it rests"));
            return None;
        }
        Some(strip.place)
    }

    /// Says that the strip in hand is stuck down.
    pub(super) fn refuse_stuck(&mut self) {
        let role = self.strip().role().clone();
        self.say(format!(
            "the {role} is stuck down: its letters are on the page and can no longer be carried"
        ));
    }

    /// Lays the strip in hand, and says where; not where nothing may lie.
    pub(super) fn lay_strip(&mut self, place: Place) {
        let far = |at: Point| at.x.as_offset().is_err() || at.y.as_offset().is_err();
        if place.at.is_some_and(far) {
            return self.say("that is further than anything can lie from the page");
        }
        self.move_strip(place);
        self.say_where();
    }

    /// Lays the strip in hand; where it lies so already there is nothing to take back.
    pub(super) fn move_strip(&mut self, place: Place) {
        if place != self.strip().place {
            self.change(Edit::Place(place));
        }
    }

    /// The middle of the page; below the lowest other strip where there is room.
    fn first_place(&self) -> Point {
        let plan = self.trial.plan();
        let usual = Length::from_mm(305);
        let (width, height) = plan.page.size.map_or((usual, usual), |size| (size.width, size.height));
        let bounds = |strip: &Strip| Layout::of(strip, &self.shelf.stash).bounds();
        let (left, bottom, right, top) = bounds(self.strip());
        let middle = |whole: Length, from: Length, to: Length| whole_mm((whole - (to - from)) / 2 - from);
        let x = middle(width, left, right);
        let corners = |strip: &Strip| Layout::of(strip, &self.shelf.stash).box_on_page(&strip.place);
        let lowest = plan.strips().iter().filter_map(corners).flatten().map(|(_, y)| y).reduce(f64::max);
        let below = lowest.map(|lowest| whole_mm(Length::from_mm_f64(lowest) + BELOW + top));
        let fits = |feet: &Length| *feet - bottom <= height - plan.page.margin;
        let y = below.filter(fits).unwrap_or_else(|| middle(height, -top, -bottom));
        Point { x, y }
    }

    /// Says where what is chosen lies.
    pub(super) fn say_where(&mut self) {
        let text = self.where_told();
        self.say(text);
    }

    /// Where what is chosen lies, in words.
    #[must_use]
    pub fn where_told(&self) -> String {
        let unit = self.unit();
        let strip = self.strip();
        let (name, at, turn) = self.element().map_or_else(
            || (format!("the {}'s feet", strip.role()), strip.place.at, strip.place.turn),
            |(_, element)| (element.called().to_owned(), Some(element.lie.at), element.lie.turn),
        );
        let Some(at) = at else {
            return format!(
                "the {} is not on the page yet: an arrow puts it down, n finds where it rests",
                self.strip().role()
            );
        };
        let turned = if turn == Angle::ZERO { String::new() } else { format!(", turned by {turn}") };
        let (x, y) = (tell_length(at.x, unit), tell_length(at.y, unit));
        format!("{name}: {x} from the left, {y} down{turned}")
    }
}

/// A place turned about the middle of the letters.
fn turned(place: Place, turn: Angle, layout: &Layout) -> Place {
    let (left, bottom, right, top) = layout.bounds();
    let middle = ((left + right).mm() / 2.0, (bottom + top).mm() / 2.0);
    let off = |turn: Angle| {
        let (sin, cos) = turn.sin_cos();
        (middle.0 * cos + middle.1 * sin, middle.0 * sin - middle.1 * cos)
    };
    let (was, is) = (off(place.turn), off(turn));
    let grain =
        |mm: f64| Length::from_nm((Length::from_mm_f64(mm).nm() + GRAIN / 2).div_euclid(GRAIN) * GRAIN);
    let at = place.at.map(|at| Point { x: at.x + grain(was.0 - is.0), y: at.y + grain(was.1 - is.1) });
    Place { at, turn }
}

/// Rounded down to the millimetre.
const fn whole_mm(length: Length) -> Length {
    Length::from_mm(length.nm().div_euclid(1_000_000))
}

/// Makes an edit that puts `element` in place of the one at `place`.
pub(super) fn edit_element(place: usize, element: Element) -> PlanEdit {
    PlanEdit::Element(place, Box::new(element))
}
