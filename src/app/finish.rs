//! What becomes of a line that was typed.
//!
//! Must not know how it was typed.

use crate::page::Page;
use crate::plan::PlanEdit;
use crate::stash::SheetId;
use crate::title::{Edit, Role, Sticker, Stood, Strip, Wording};

use super::effect::Effect;
use super::filter::Filter;
use super::over::Over;
use super::state::State;
use super::typing::{What, from_breaks, read_by_hand};

impl State {
    /// Takes what was typed; where it cannot be read it stays to be mended, with what is wrong.
    pub(super) fn finish_typing(&mut self) -> Vec<Effect> {
        let Over::Typing(typing) = &self.over else { return Vec::new() };
        let (what, text) = (typing.what.clone(), typing.text().to_owned());
        let mut effects = Vec::new();
        let taken = match &what {
            What::Wording | What::FirstWording(_) => self.take_wording(&text),
            What::Subtitle => self.take_subtitle(&text),
            What::Filter => self.take_filter(&text),
            What::PageColours => self.take_colours(&text),
            What::ByHand => self.take_by_hand(&text),
            What::OnPage(line) => self.take_on_page(*line, &text),
            What::FindSheet => self.take_find(&text),
            What::OfSheet(field) => self.take_field(*field, &text).map(|found| effects = found),
            What::Spell => self.take_spelled(&text),
            What::Ideas => self.take_idea_line(&text).map(|found| effects = found),
            What::SpellHeights => self.take_heights(&text),
            What::PlanName(_) => SheetId::new(text.trim())
                .map(|_| ())
                .map_err(|_| "a plan's name is made of small letters a-z, figures and hyphens".to_owned()),
        };
        if let (Err(wrong), Over::Typing(typing)) = (taken, &mut self.over) {
            typing.wrong = Some(wrong);
            return Vec::new();
        }
        self.over = Over::Nothing;
        match what {
            What::PlanName(then) => vec![Effect::Save(text.trim().to_owned(), then)],
            _ => effects,
        }
    }

    pub(super) fn take_wording(&mut self, text: &str) -> Result<(), String> {
        let wording = Wording::new(&from_breaks(text)).map_err(|error| error.to_string())?;
        if wording != *self.strip().wording() {
            let edit = Edit::reword(self.strip(), wording);
            self.bench.marked = None;
            self.change(edit);
            let slot = self.strip().first_empty().unwrap_or(self.bench.slot);
            self.choose_slot(slot);
            self.list_grid();
        }
        Ok(())
    }

    fn take_subtitle(&mut self, text: &str) -> Result<(), String> {
        let wording = Wording::new(&from_breaks(text)).map_err(|error| error.to_string())?;
        if wording.is_empty() {
            return Err("type what the subtitle says, or leave it (esc)".into());
        }
        let place = self.trial.plan().strips().len();
        let role = if self.trial.plan().strip_called("subtitle").is_none() {
            Role::subtitle()
        } else {
            Role::title()
        };
        let strip = Box::new(Strip::new(role, wording));
        self.trial.change(PlanEdit::Insert(place, strip), &mut self.shelf);
        self.choose_strip(place);
        Ok(())
    }

    fn take_filter(&mut self, text: &str) -> Result<(), String> {
        self.bench.grid.filter = Filter::read(text, &self.shelf.names, self.unit())?;
        self.list_grid();
        Ok(())
    }

    fn take_colours(&mut self, text: &str) -> Result<(), String> {
        let colours = self.shelf.names.read_several(text)?;
        let page = Page { colours, ..self.trial.plan().page.clone() };
        self.trial.change(PlanEdit::Page(Box::new(page)), &mut self.shelf);
        Ok(())
    }

    fn take_by_hand(&mut self, text: &str) -> Result<(), String> {
        let sticker = Sticker::Hand(read_by_hand(text, &self.shelf.names, self.unit())?);
        self.change(Edit::Letter { slot: self.bench.slot, stood: Some(Stood::straight(sticker)) });
        Ok(())
    }
}
