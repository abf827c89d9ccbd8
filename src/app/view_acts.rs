//! What each action does that works in every view.
//!
//! Must not know which key asked.

use crate::measure::Unit;

use super::action::Action;
use super::asking::Question;
use super::effect::{Effect, Then};
use super::over::Over;
use super::page_view::Thing;
use super::state::State;
use super::typing::{What, with_breaks};
use super::view::View;

impl State {
    pub(super) fn act_on_views(&mut self, action: Action) -> Vec<Effect> {
        match action {
            Action::ToBench => self.go_to(View::Bench),
            Action::ToPage => self.go_to(View::Page),
            Action::ToStash => self.go_to(View::Stash),
            Action::ToWording => self.go_to(View::Wording),
            Action::StopLooking => self.stop_looking(),
            Action::Undo => self.go_back(true),
            Action::Redo => self.go_back(false),
            Action::Save => return self.save(Then::Stay),
            Action::Wording if self.look.view == View::Wording => self.type_wording(),
            Action::Wording => {
                let text = with_breaks(self.strip().wording().text());
                self.type_in(What::Wording, &text);
            }
            Action::OtherStrip => self.other_strip(),
            Action::PageColours => {
                let named =
                    self.trial.plan().page.colours.iter().map(|tint| {
                        tint.name.as_ref().map_or_else(|| tint.colour.hex(), ToString::to_string)
                    });
                let text = named.collect::<Vec<_>>().join(", ");
                self.type_in(What::PageColours, &text);
            }
            Action::ShowOrder => self.go_to(View::Order),
            Action::OpenPlan => return vec![Effect::ListPlans],
            Action::Unit => {
                let unit = if self.unit() == Unit::Inch { Unit::Millimetre } else { Unit::Inch };
                self.shelf.scene.unit = unit;
                self.trial.judge_anew(false, &mut self.shelf);
            }
            Action::Help => self.show_help(),
            Action::Quit if self.is_unsaved() && self.file.read_only.is_none() => {
                self.over = Over::Question(Question::SaveBeforeLeaving);
            }
            Action::Quit => return vec![Effect::Leave],
            _ => {}
        }
        Vec::new()
    }

    /// Goes to the next strip; where there is one only, a second is begun. From a thing on the page to the strip in hand.
    fn other_strip(&mut self) {
        let on_page = self.look.view == View::Page;
        if on_page && matches!(self.thing(), Thing::Element(_)) {
            return self.choose_thing(Thing::Strip(self.bench.strip));
        }
        if self.trial.plan().strips().len() == 1 {
            return self.type_in(What::Subtitle, "");
        }
        if !on_page {
            self.bench.pane = super::bench::Pane::Strip;
        }
        self.next_strip();
    }

    /// Stops what is being looked for; where nothing is, looks at the whole page again.
    fn stop_looking(&mut self) {
        if self.works_on_wordings() {
            self.stop_wordings();
        } else if self.work.resting.as_ref().is_some_and(super::seeking::Seeking::is_going) {
            self.stop_resting();
        } else if !self.is_working() && self.look.view == View::Page && self.page.near {
            self.page.near = false;
        } else {
            self.stop_suggesting();
        }
    }

    fn go_back(&mut self, undo: bool) {
        let chosen = self.element().map(|(place, element)| (place, element.clone()));
        let done = if undo { self.trial.undo(&mut self.shelf) } else { self.trial.redo(&mut self.shelf) };
        if let Some((place, element)) = chosen {
            self.choose_again(place, &element);
        }
        self.bench.strip = self.bench.strip.min(self.trial.plan().strips().len() - 1);
        self.bench.slot = self.bench.slot.min(self.strip().len().saturating_sub(1));
        self.bench.marked = None;
        if self.bench.grid.fits {
            self.list_grid();
        }
        match (undo, done) {
            (true, true) => self.say(format!("taken back; {} more", self.trial.steps())),
            (false, true) => self.say("made again"),
            (true, false) => self.say("nothing to take back"),
            (false, false) => self.say("nothing to make again"),
        }
    }
}
