//! The mouse: click a chip to stand it, a slot to choose it, a finding to go to it; the wheel scrolls.
//!
//! Must not know how the panes are drawn, only where they lie.

use super::bench::Pane;
use super::grid::{GridRow, cell_width};
use super::input::{Mouse, MouseAct};
use super::over::Over;
use super::panes::Area;
use super::state::State;
use super::strip_map::StripMap;
use super::view::View;

impl State {
    pub(super) fn mouse(&mut self, mouse: Mouse) {
        if self.mouse_on_head(mouse) {
            return;
        }
        if self.look.view == View::Page && matches!(self.over, Over::Nothing) {
            return self.mouse_on_page(mouse);
        }
        if self.look.view == View::Stash && matches!(self.over, Over::Nothing) {
            return self.mouse_on_sheets(mouse);
        }
        if self.look.view == View::Order && matches!(self.over, Over::Nothing) {
            return self.mouse_on_order(mouse);
        }
        if self.look.view == View::Wording && matches!(self.over, Over::Nothing) {
            return self.mouse_on_wordings(mouse);
        }
        match mouse.what {
            MouseAct::WheelUp => self.wheel(mouse, -3),
            MouseAct::WheelDown => self.wheel(mouse, 3),
            MouseAct::Press if matches!(self.over, Over::Nothing) => self.press(mouse),
            MouseAct::Press | MouseAct::Drag | MouseAct::Release => {}
        }
    }

    fn wheel(&mut self, mouse: Mouse, by: isize) {
        let panes = self.panes();
        let holds = |area: Area| area.holds(mouse.column, mouse.row);
        match &mut self.over {
            Over::Page(_, scroll) | Over::Help(scroll, _) => {
                scroll.walk(by, panes.page_rows());
            }
            Over::Alternates(list) => {
                list.chosen = super::lists::step(list.chosen, by.signum(), list.alternates.len());
            }
            Over::Plans(list) => {
                list.chosen = super::lists::step(list.chosen, by.signum(), list.slugs.len());
            }
            Over::Suggestions(_) => self.walk_suggestion(by.signum()),
            Over::Nothing if holds(panes.checks) => {
                let count = self.trial.verdict().findings.len();
                self.bench.finding = super::lists::step(self.bench.finding, by.signum(), count);
            }
            Over::Nothing if holds(panes.strip) => {
                let slot = self.bench.slot.saturating_add_signed(by.signum());
                self.choose_slot(slot);
            }
            Over::Nothing => {
                let per_row = self.chips_per_row();
                self.bench.grid.walk_rows(by.signum(), per_row);
                self.scroll_grid();
            }
            _ => {}
        }
    }

    fn press(&mut self, mouse: Mouse) {
        let panes = self.panes();
        if panes.grid.holds(mouse.column, mouse.row) {
            self.bench.pane = Pane::Grid;
            if let Some(place) = self.chip_at(panes.grid, mouse) {
                self.bench.grid.choose(place);
                if let Some(chip) = self.bench.grid.chosen_chip() {
                    self.stand_chip(chip);
                }
            }
        } else if panes.checks.holds(mouse.column, mouse.row) {
            self.bench.pane = Pane::Checks;
            let line = usize::from(mouse.row.saturating_sub(panes.checks.y + 1));
            if let Some(finding) = self.finding_at(line) {
                self.bench.finding = finding;
            }
        } else if panes.strip.holds(mouse.column, mouse.row) {
            self.bench.pane = Pane::Strip;
            let map = StripMap::of(self);
            if let Some(slot) = map.slot_at(mouse.column, mouse.row) {
                self.choose_slot(slot);
            }
        }
    }

    /// The place of the chip drawn at a cell of the grid.
    fn chip_at(&self, area: Area, mouse: Mouse) -> Option<usize> {
        let row = usize::from(mouse.row.checked_sub(area.y + 1)?) + self.bench.grid.top();
        match self.bench.grid.rows(self.chips_per_row()).get(row)? {
            GridRow::Chips(chips) => {
                let place =
                    chips.start + usize::from((mouse.column - area.x) / cell_width(self.look.colours));
                (place < chips.end).then_some(place)
            }
            GridRow::Heading(_) => None,
        }
    }
}
