//! What each action of the page's view does.
//!
//! Must not know which key asked.

use crate::measure::{Angle, Length, Point};

use super::action::Action;
use super::carry::strides;
use super::page_line::PageLine;
use super::page_view::Thing;
use super::state::State;
use super::view::View;

/// How far one key turns, and how far the finer one does: 1 degree and a tenth.
const TURNS: (Angle, Angle) = (Angle::from_thousandths(1000), Angle::from_thousandths(100));

impl State {
    pub(super) fn act_on_page(&mut self, action: Action) {
        let (near, far) = strides(self.unit());
        let zero = Length::ZERO;
        let by = |x, y| Point { x, y };
        match action {
            Action::CarryLeft => self.carry(by(-near, zero)),
            Action::CarryRight => self.carry(by(near, zero)),
            Action::CarryUp => self.carry(by(zero, -near)),
            Action::CarryDown => self.carry(by(zero, near)),
            Action::CarryFarLeft => self.carry(by(-far, zero)),
            Action::CarryFarRight => self.carry(by(far, zero)),
            Action::CarryFarUp => self.carry(by(zero, -far)),
            Action::CarryFarDown => self.carry(by(zero, far)),
            Action::TurnLeft => self.turn_by(-TURNS.0),
            Action::TurnRight => self.turn_by(TURNS.0),
            Action::TurnLeftFine => self.turn_by(-TURNS.1),
            Action::TurnRightFine => self.turn_by(TURNS.1),
            Action::TurnStraight => self.turn_to(Angle::ZERO),
            Action::RestNext => self.rest(true),
            Action::RestBefore => self.rest(false),
            Action::ThingNext => self.walk_things(1),
            Action::ThingBefore => self.walk_things(-1),
            Action::Near => self.look_near(),
            Action::TakeAway => self.take_away(),
            _ => self.act_on_thing(action, near),
        }
    }

    fn act_on_thing(&mut self, action: Action, by: Length) {
        let zero = Length::ZERO;
        match action {
            Action::ChangeThing if self.element().is_none() => self.go_to(View::Bench),
            Action::Larger => self.grow(by * 2, by * 2, true),
            Action::Smaller => self.grow(-by * 2, -by * 2, true),
            Action::Wider => self.grow(by, zero, false),
            Action::Narrower => self.grow(-by, zero, false),
            Action::Taller => self.grow(zero, by, false),
            Action::Shorter => self.grow(zero, -by, false),
            Action::StackUp => self.restack(true),
            Action::StackDown => self.restack(false),
            Action::KindNext => self.next_kind(),
            Action::ShapeNext => self.next_shape(),
            Action::CoverNext => self.next_cover(),
            Action::BedNext => self.next_bed(),
            Action::Original => self.toggle_original(),
            _ => {
                if let Some(line) = line_of(action) {
                    self.type_on_page(line);
                }
            }
        }
    }

    /// Looks at what is chosen from near, or at the whole page.
    fn look_near(&mut self) {
        if !self.page.near && matches!(self.thing(), Thing::Strip(_)) && self.strip().place.at.is_none() {
            return self.say_where();
        }
        self.page.near = !self.page.near;
    }

    /// Goes to a view.
    pub(super) fn go_to(&mut self, view: View) {
        self.trial.close_step();
        if view == View::Order {
            self.come_to_order();
        }
        self.look.view = view;
        if view != View::Page {
            self.work.stop_resting();
        }
    }
}

/// The line that is typed for an action.
const fn line_of(action: Action) -> Option<PageLine> {
    Some(match action {
        Action::AddThing => PageLine::Add,
        Action::ChangeThing => PageLine::Change,
        Action::NameThing => PageLine::Name,
        Action::SizeThing => PageLine::Size,
        Action::ColourThing => PageLine::Colours,
        Action::MatUnder => PageLine::Mat,
        Action::PutAt => PageLine::At,
        Action::PageSize => PageLine::PageSize,
        Action::Ground => PageLine::Ground,
        Action::Margin => PageLine::Margin,
        _ => return None,
    })
}
