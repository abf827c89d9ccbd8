//! What can be done in the stash's view with the sheet that is chosen.
//!
//! Must not know which key asked, nor how a sheet in hand is counted.

use std::fmt::Write;

use crate::stash::{Entry, Kind, Sheet, SheetId};

use super::action::Action;
use super::counting::{Count, Counting, Stage};
use super::effect::Effect;
use super::focus::Focus;
use super::input::{Mouse, MouseAct};
use super::state::State;
use super::typing::What;

impl State {
    /// Where keys go in the stash's view.
    pub(super) fn focus_on_sheets(&self) -> Focus {
        match self.sheets.counting.as_ref().map(|counting| counting.stage) {
            None => Focus::Sheets,
            Some(Stage::Fields) => Focus::Fields,
            Some(Stage::Colour) => Focus::Swatches,
            Some(Stage::Letters) => Focus::Letters,
        }
    }

    /// Whether letters are counted that nothing keeps yet.
    #[must_use]
    pub fn holds_letters(&self) -> bool {
        self.sheets.counting.as_ref().is_some_and(|counting| !counting.tally.run().is_empty())
    }

    /// The chosen sheet.
    #[must_use]
    pub fn sheet(&self) -> Option<&Sheet> {
        self.shelf.stash.sheets().get(self.sheets.place()?)
    }

    /// Lists the sheets anew.
    pub(super) fn list_sheets(&mut self) {
        let kept = self.sheet().map(|sheet| sheet.id.clone());
        self.sheets.list(&self.shelf.stash, kept.as_ref());
        self.scroll_sheets();
        self.tell_as_it_is();
    }

    /// What is told of a sheet in hand that is no new one is what the stash has.
    fn tell_as_it_is(&mut self) {
        let there = self.sheets.counting.as_mut().filter(|counting| counting.count != Count::New);
        if let Some(counting) = there
            && let Some(sheet) = self.shelf.stash.sheet(&counting.sheet.id)
        {
            counting.sheet = sheet.clone();
            counting.tally.paint(sheet.paint.colours.clone());
        }
    }

    /// How many sheets are seen at once.
    #[must_use]
    pub fn sheet_rows(&self) -> usize {
        usize::from(self.look.rows.saturating_sub(4)).max(1)
    }

    pub(super) fn scroll_sheets(&mut self) {
        let rows = self.sheet_rows();
        self.sheets.scroll(rows);
    }

    pub(super) fn act_on_sheets(&mut self, action: Action) -> Vec<Effect> {
        if self.sheets.counting.is_some() {
            return self.act_on_counting(action);
        }
        let page = isize::try_from(self.sheet_rows()).unwrap_or(20);
        match action {
            Action::SheetUp => self.sheets.walk(-1),
            Action::SheetDown => self.sheets.walk(1),
            Action::SheetPageUp => self.sheets.walk(-page),
            Action::SheetPageDown => self.sheets.walk(page),
            Action::SheetFirst => self.sheets.walk(isize::MIN / 2),
            Action::SheetLast => self.sheets.walk(isize::MAX / 2),
            Action::CountIn => self.count_in(),
            Action::CountAnew => self.take_up(Count::Anew),
            Action::CountMore => self.take_up(Count::More),
            Action::CountOut => self.take_up(Count::Fewer),
            Action::TellSheet => self.take_up(Count::Told),
            Action::SetAside => return self.set_aside(),
            Action::History => self.show_history(),
            Action::FindSheet => {
                let text = self.sheets.find.clone();
                self.type_in(What::FindSheet, &text);
            }
            Action::FindAll => {
                self.sheets.find.clear();
                self.list_sheets();
            }
            _ => {}
        }
        self.scroll_sheets();
        Vec::new()
    }

    /// Begins to count in a new sheet, like the chosen one.
    pub(super) fn count_in(&mut self) {
        if self.may_keep() {
            let counting = Counting::new_sheet(self.sheet(), &self.shelf.stash, &self.shelf.names);
            self.sheets.counting = Some(Box::new(counting));
        }
    }

    fn take_up(&mut self, count: Count) {
        if !self.may_keep() {
            return;
        }
        match self.sheet() {
            Some(sheet) => {
                let counting = Counting::of(count, sheet, &self.shelf.stash, &self.shelf.names);
                self.sheets.counting = Some(Box::new(counting));
            }
            None => self.say("no sheet is shown; a counts in a new one"),
        }
    }

    /// Whether the stash takes changes; where it does not, that is told.
    pub(super) fn may_keep(&mut self) -> bool {
        if let Some(why) = self.file.read_only {
            self.complain(why.told());
        }
        self.file.read_only.is_none()
    }

    /// A click chooses a sheet; the wheel walks.
    pub(super) fn mouse_on_sheets(&mut self, mouse: Mouse) {
        if self.sheets.counting.is_some() {
            return;
        }
        match mouse.what {
            MouseAct::WheelUp => self.sheets.walk(-1),
            MouseAct::WheelDown => self.sheets.walk(1),
            MouseAct::Press if mouse.row >= 2 => {
                let row = self.sheets.top + usize::from(mouse.row - 2);
                if usize::from(mouse.row - 2) < self.sheet_rows() && row < self.sheets.places.len() {
                    self.sheets.chosen = row;
                }
            }
            _ => {}
        }
        self.scroll_sheets();
    }

    fn set_aside(&mut self) -> Vec<Effect> {
        let Some(mut sheet) = self.sheet().cloned().filter(|_| self.file.read_only.is_none()) else {
            self.may_keep();
            return Vec::new();
        };
        sheet.label.aside ^= true;
        vec![Effect::SaveSheet(Box::new(sheet))]
    }

    pub(super) fn take_find(&mut self, text: &str) -> Result<(), String> {
        let kept = self.sheet().map(|sheet| sheet.id.clone());
        text.trim().clone_into(&mut self.sheets.find);
        self.sheets.list(&self.shelf.stash, kept.as_ref());
        if self.sheets.places.is_empty() && !self.shelf.stash.sheets().is_empty() {
            self.list_sheets();
            return Err("no sheet has all of that".into());
        }
        self.scroll_sheets();
        Ok(())
    }

    /// Shows what happened to the chosen sheet.
    fn show_history(&mut self) {
        let Some(sheet) = self.sheet() else { return };
        let lines: Vec<String> = self.shelf.ledger.history(sheet).map(|entry| told(entry, sheet)).collect();
        let text = if lines.is_empty() {
            "Nothing was recorded yet: the counts are those of the sheet's file.".into()
        } else {
            lines.join("\n")
        };
        let heading = format!("history of {}", sheet.told());
        self.show_page(&heading, &text);
    }

    /// A sheet was counted in or counted: it is chosen, and no longer in hand.
    pub fn was_counted(&mut self, sheet: &SheetId, told: impl Into<String>) {
        self.sheets.counting = None;
        self.was_told(sheet, told);
    }

    /// What is told of a sheet was written: it is chosen; a sheet in hand stays there with its letters.
    pub fn was_told(&mut self, sheet: &SheetId, told: impl Into<String>) {
        self.sheets.list(&self.shelf.stash, Some(sheet));
        if self.sheet().is_none_or(|shown| shown.id != *sheet) {
            self.sheets.find.clear();
            self.sheets.list(&self.shelf.stash, Some(sheet));
        }
        self.scroll_sheets();
        self.say(told);
    }

    /// A sheet was set aside, or is used again: it is chosen, and what that means is said.
    pub fn was_set_aside(&mut self, sheet: &SheetId) {
        let key = self.look.keys.told(Action::SetAside).map_or_else(String::new, |key| key.to_string());
        let known = self.shelf.stash.sheet(sheet);
        let name = known.map_or_else(String::new, Sheet::told);
        let told = if known.is_some_and(|known| known.label.aside) {
            format!("{name} is set aside: its letters are kept, and not offered; {key} uses it again")
        } else {
            format!("{name} is used again: its letters are offered")
        };
        self.was_told(sheet, told);
    }

    /// What was asked for a sheet could not be done: what was counted stays in hand, and what is told of a sheet is as it was.
    pub fn was_not_counted(&mut self, why: impl Into<String>) {
        self.tell_as_it_is();
        self.complain(why);
    }
}

/// `2031-11-05  stuck down on lantern-walk, title: A 2, E 1`.
#[must_use]
pub fn told(entry: &Entry, sheet: &Sheet) -> String {
    let counts: Vec<i32> = entry.deed.chips_of(sheet).map(|(_, count)| count).collect();
    let out = counts.iter().filter(|count| **count < 0).count();
    let is_both = out > 0 && out < counts.len();
    let done = match out {
        0 => verb(entry.deed.kind),
        _ if is_both => "counted in and out",
        _ => "counted out",
    };
    let mut text = format!("{}  {done}", entry.date);
    if let Some(of) = &entry.deed.of {
        let _ = write!(text, " {} {}, {}", preposition(entry.deed.kind), of.page, of.role);
    }
    let letters = entry.deed.chips_of(sheet).map(|(chip, count)| {
        let mark = chip.mark.as_ref().map_or_else(String::new, |mark| format!(":{}", mark.as_str()));
        format!("{}{mark} {}", chip.character, if is_both { count } else { count.abs() })
    });
    text + ": " + &letters.collect::<Vec<_>>().join(", ")
}

const fn verb(kind: Kind) -> &'static str {
    match kind {
        Kind::Stuck => "stuck down",
        Kind::Lifted => "lifted",
        Kind::Torn => "torn",
        Kind::Added => "counted in",
        Kind::Counted => "counted anew",
    }
}

const fn preposition(kind: Kind) -> &'static str {
    match kind {
        Kind::Lifted | Kind::Torn => "off",
        _ => "on",
    }
}
