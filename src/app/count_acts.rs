//! What can be done with a sheet in hand: its fields, the colours, the letters as they are read off.
//!
//! Must not know which key asked.

use super::action::Action;
use super::asking::Question;
use super::counting::{Count, Stage};
use super::effect::Effect;
use super::key::Key;
use super::over::Over;
use super::sheet_field::Field;
use super::state::State;
use super::typing::What;

/// Columns that one colour takes on the screen.
pub const SWATCH_WIDTH: u16 = 20;

impl State {
    pub(super) fn act_on_counting(&mut self, action: Action) -> Vec<Effect> {
        let per_row = isize::try_from(self.swatches_per_row()).unwrap_or(1);
        let Some(counting) = &mut self.sheets.counting else { return Vec::new() };
        match action {
            Action::FieldUp => counting.walk_fields(-1),
            Action::FieldDown => counting.walk_fields(1),
            Action::FieldNext => return self.step_field(true),
            Action::FieldBefore => return self.step_field(false),
            Action::TypeField => return self.type_field(),
            Action::FieldsDone => self.fields_done(),
            Action::ToFields => counting.stage = Stage::Fields,
            Action::SwatchLeft => counting.swatches.walk(-1),
            Action::SwatchRight => counting.swatches.walk(1),
            Action::SwatchUp => counting.swatches.walk(-per_row),
            Action::SwatchDown => counting.swatches.walk(per_row),
            Action::Lighter | Action::Darker => self.take_shade(action == Action::Lighter),
            Action::TakeColour => self.take_swatch(),
            Action::LotLeft => counting.tally.walk(-1),
            Action::LotRight => counting.tally.walk(1),
            Action::OtherColour => counting.ask_colour(&self.shelf.stash, &self.shelf.names),
            Action::TakeBack if counting.tally.run().is_empty() => self.say("nothing is counted yet"),
            Action::TakeBack => counting.tally.take_back(),
            Action::Counted => return self.count_done(false),
            Action::LeaveSheet => self.leave_sheet(),
            Action::HelpOnSheet => self.show_help(),
            _ => {}
        }
        Vec::new()
    }

    fn take_shade(&mut self, lighter: bool) {
        let Some(counting) = &mut self.sheets.counting else { return };
        if !counting.swatches.shade(lighter, &self.shelf.names) {
            self.say("no colour with a name is further that way");
        }
    }

    /// How many colours stand in a row.
    #[must_use]
    pub fn swatches_per_row(&self) -> usize {
        usize::from((self.look.columns / SWATCH_WIDTH).max(1))
    }

    /// Takes a key that types a letter to be counted, or the beginning of a colour's name.
    pub(super) fn types_on_sheet(&mut self, key: Key) -> bool {
        if !matches!(self.over, Over::Nothing) {
            return false;
        }
        let Some(counting) = &mut self.sheets.counting else { return false };
        match counting.stage {
            Stage::Fields => false,
            Stage::Colour => counting.swatches.key(key, &self.shelf.names),
            Stage::Letters => match key.typed() {
                Some(c) => {
                    if let Err(error) = counting.tally.add(c.encode_utf8(&mut [0; 4])) {
                        self.complain(error.to_string());
                    }
                    true
                }
                None => false,
            },
        }
    }

    /// Takes a pasted text: letters to be counted, or the beginning of a colour's name.
    pub(super) fn paste_on_sheet(&mut self, text: &str) {
        for c in text.chars().filter(|c| !c.is_control()) {
            self.types_on_sheet(Key::plain(super::key::KeyCode::Char(c)));
        }
    }

    fn step_field(&mut self, forward: bool) -> Vec<Effect> {
        let Some(counting) = &mut self.sheets.counting else { return Vec::new() };
        if counting.step_field(forward) {
            return self.field_changed();
        }
        self.say("this one is typed: enter");
        Vec::new()
    }

    fn type_field(&mut self) -> Vec<Effect> {
        let unit = self.unit();
        let Some(counting) = &mut self.sheets.counting else { return Vec::new() };
        if counting.step_field(true) {
            return self.field_changed();
        }
        let field = counting.field;
        let text = field.spell(&counting.sheet, &self.shelf.names, unit);
        self.type_in(What::OfSheet(field), &text);
        Vec::new()
    }

    /// Takes what was typed for a field of the sheet in hand.
    pub(super) fn take_field(&mut self, field: Field, text: &str) -> Result<Vec<Effect>, String> {
        let unit = self.unit();
        let Some(counting) = &mut self.sheets.counting else { return Ok(Vec::new()) };
        field.read(&mut counting.sheet, text, &self.shelf.names, unit)?;
        if field == Field::Colour && counting.count == Count::New {
            counting.tally.paint(counting.sheet.paint.colours.clone());
        }
        Ok(self.field_changed())
    }

    /// What is told of a sheet that is there is written at once.
    fn field_changed(&mut self) -> Vec<Effect> {
        match &self.sheets.counting {
            Some(counting) if counting.count != Count::New => {
                vec![Effect::SaveSheet(Box::new(counting.sheet.clone()))]
            }
            _ => Vec::new(),
        }
    }

    fn fields_done(&mut self) {
        let Some(counting) = &mut self.sheets.counting else { return };
        match counting.count {
            Count::Told => self.sheets.counting = None,
            Count::New if counting.sheet.size.height <= crate::measure::Length::ZERO => {
                counting.field = Field::Height;
                self.say("how high are its letters? enter, then the height as measured");
            }
            Count::New if counting.tally.run().is_empty() && counting.like.is_none() => {
                counting.stage = Stage::Colour;
            }
            _ => counting.stage = Stage::Letters,
        }
    }

    fn take_swatch(&mut self) {
        let Some(counting) = &mut self.sheets.counting else { return };
        match counting.swatches.tint().cloned() {
            Some(tint) => counting.take_colour(tint),
            None => self.complain("no colour is called so; type another beginning, or #rrggbb"),
        }
    }

    /// Asks for what was counted to be kept.
    pub(super) fn count_done(&mut self, none_left: bool) -> Vec<Effect> {
        let Some(counting) = &self.sheets.counting else { return Vec::new() };
        if counting.count == Count::Anew && counting.tally.run().is_empty() && !none_left {
            self.over = Over::Question(Question::NoneLeft);
            return Vec::new();
        }
        match counting.outcome(&self.shelf.stash, &self.shelf.ledger) {
            Ok(effect) => vec![effect],
            Err(why) => {
                self.complain(why);
                Vec::new()
            }
        }
    }

    /// Lets the sheet in hand go; asks first where letters were counted.
    fn leave_sheet(&mut self) {
        let Some(counting) = &mut self.sheets.counting else { return };
        let counted = !counting.tally.run().is_empty();
        let (is_new, is_first) = (counting.count == Count::New, counting.like.is_none());
        let is_told = is_new && is_first && counting.sheet.size.height > crate::measure::Length::ZERO;
        match counting.stage {
            Stage::Colour if counted => counting.stage = Stage::Letters,
            Stage::Colour if is_new && is_first => counting.stage = Stage::Fields,
            Stage::Fields if counted && counting.count != Count::Told => counting.stage = Stage::Letters,
            // What was typed there stays for the sheet that is begun.
            Stage::Fields if is_new && !is_first => counting.stage = Stage::Colour,
            _ if counted || is_told => self.over = Over::Question(Question::DropCount),
            _ => self.sheets.counting = None,
        }
    }
}
