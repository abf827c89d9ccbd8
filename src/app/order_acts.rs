//! What each action of the order's view does.
//!
//! Must not know which key asked, nor how an order is made.

use crate::checks::tell_length;
use crate::measure::Length;
use crate::order::Form;
use crate::page::Paper;

use super::action::Action;
use super::effect::Effect;
use super::input::{Mouse, MouseAct};
use super::order_panes::{OrderPanes, order_panes};
use super::order_view::{MadeFrom, OrderSide, OrderView, SheetPicture};
use super::page_map::PageMap;
use super::panes::Area;
use super::state::State;
use super::update::after;
use super::view::View;

impl State {
    pub(super) fn act_on_order(&mut self, action: Action) -> Vec<Effect> {
        let seen = match self.order.side {
            OrderSide::Words | OrderSide::Sheets => self.order_rows(),
            OrderSide::Near => usize::from(self.order_panes().picture.height.saturating_sub(2)),
        };
        // The last line is seen once more, so that one finds on.
        let page = isize::try_from(seen.saturating_sub(1).max(1)).unwrap_or(20);
        match action {
            Action::OrderUp => self.walk_order(-1),
            Action::OrderDown => self.walk_order(1),
            Action::OrderPageUp => self.walk_order(-page),
            Action::OrderPageDown => self.walk_order(page),
            Action::OrderFirst => self.walk_order(isize::MIN / 2),
            Action::OrderLast => self.walk_order(isize::MAX / 2),
            Action::PaperBefore => self.turn_to_paper(-1),
            Action::PaperNext => self.turn_to_paper(1),
            Action::PaperNear => self.look_at_paper_near(),
            Action::OtherSide => {
                self.order.side = match self.order.side {
                    OrderSide::Words => OrderSide::Sheets,
                    OrderSide::Sheets | OrderSide::Near => OrderSide::Words,
                };
            }
            Action::NextForm => self.next_form(),
            Action::NextPaper => self.next_paper(),
            Action::WriteOrder => return vec![Effect::WriteOrder],
            Action::StickDown => self.ask_to_stick(),
            Action::LiftAll => self.ask_to_lift(),
            Action::LeaveOrder => self.go_to(self.order.came_from),
            _ => {}
        }
        Vec::new()
    }

    /// Goes to the next form; of text there is nothing to see but the words.
    fn next_form(&mut self) {
        self.order.form = after(Form::ALL, self.order.form);
        if self.order.form == Form::Text {
            self.order.side = OrderSide::Words;
        }
    }

    /// Goes through the words; on the sheets, from one sheet to another.
    fn walk_order(&mut self, by: isize) {
        let rows = self.order_rows();
        match self.order.side {
            OrderSide::Words => self.order.words.walk(by, rows),
            // A page of sheets is one sheet.
            OrderSide::Sheets if by.unsigned_abs() <= rows => self.turn_paper(by.signum()),
            OrderSide::Sheets => self.turn_paper(by),
            OrderSide::Near => self.walk_down_paper(by),
        }
    }

    /// Goes `by` sheets of paper on, or back; says so where there are none.
    fn turn_paper(&mut self, by: isize) {
        if !self.says_why_no_sheet() {
            self.order.walk_sheets(by);
        }
    }

    /// The same; says which sheet it is where it is not seen.
    fn turn_to_paper(&mut self, by: isize) {
        self.turn_paper(by);
        if self.order_panes().heading.width == 0
            && let Some(told) = self.order.sheet().map(|sheet| self.sheet_told(sheet))
        {
            let key = self.key_told(Action::OtherSide);
            self.say(format!("{told}; {key} shows it"));
        }
    }

    fn next_paper(&mut self) {
        if self.order.form == Form::Text {
            return self.say_text_has_no_sheets();
        }
        self.order.paper = Some(after(Paper::ALL, self.order_paper()));
    }

    /// Says why there is no sheet of paper to look at, where there is none; whether that is so.
    pub(super) fn says_why_no_sheet(&mut self) -> bool {
        match &self.order.sheets {
            _ if self.order.form == Form::Text => self.say_text_has_no_sheets(),
            Err(problem) => self.complain(format!("no sheets: {problem}")),
            Ok(sheets) => return sheets.is_empty(),
        }
        true
    }

    fn say_text_has_no_sheets(&mut self) {
        let key = self.key_told(Action::NextForm);
        self.say(format!("text has no sheets of paper; {key} goes on to the next form"));
    }

    /// The paper that the order is printed on: the usual one until another is chosen.
    #[must_use]
    pub fn order_paper(&self) -> Paper {
        self.order.paper.unwrap_or_else(|| Paper::usual(self.unit()))
    }

    /// Goes to the order from another view.
    pub(super) fn come_to_order(&mut self) {
        if self.look.view != View::Order {
            self.order.came_from = self.look.view;
            self.order.paper = Some(self.order_paper());
        }
    }

    /// Whether the order is looked at and is not what the plan and the stash say now.
    #[must_use]
    pub fn is_order_due(&self) -> bool {
        self.look.view == View::Order && self.order.made_from.as_ref() != Some(&self.order_is_from())
    }

    fn order_is_from(&self) -> MadeFrom {
        MadeFrom {
            trial: self.trial.version(),
            slug: self.file.slug.clone(),
            unit: self.unit(),
            form: self.order.form,
            paper: self.order_paper(),
        }
    }

    /// Asks for the order where it is due: once for each change.
    pub(super) fn ask_for_order(&mut self) -> Option<Effect> {
        let due = self.is_order_due();
        if due {
            self.order.made_from = Some(self.order_is_from());
        }
        due.then_some(Effect::ShowOrder)
    }

    /// Shows the placement order: in words, and its sheets of paper, or why there can be none. What was looked at stays as
    /// far as it is still there.
    pub fn show_order(&mut self, words: &str, sheets: Result<Vec<SheetPicture>, String>) {
        self.order.made_from = Some(self.order_is_from());
        self.order.words.lines = words.lines().map(str::to_owned).collect();
        self.order.sheets = sheets;
        self.order.walk_sheets(0);
        self.scroll_order();
    }

    /// Goes on printing orders as in `order`, for another plan: it is shown from its beginning.
    pub fn take_order(&mut self, order: &OrderView) {
        let &OrderView { form, side, paper, came_from, .. } = order;
        self.order = OrderView { form, side, paper, came_from, ..OrderView::default() };
    }

    /// Keeps the words within what there is of them.
    pub(super) fn scroll_order(&mut self) {
        let rows = self.order_rows();
        self.order.words.walk(0, rows);
    }

    /// How many lines of the words are seen at once.
    #[must_use]
    pub fn order_rows(&self) -> usize {
        usize::from(self.look.rows.saturating_sub(4)).max(1)
    }

    /// Where the panes of the view lie.
    #[must_use]
    pub fn order_panes(&self) -> OrderPanes {
        let size = self.order.sheet().map(|sheet| (sheet.width, sheet.height));
        let place = (self.order.chosen, self.order.count());
        order_panes((self.look.columns, self.look.rows), self.order.side, size, place)
    }

    /// How the chosen sheet of paper lies in its pane.
    #[must_use]
    pub fn order_map(&self) -> Option<PageMap> {
        let sheet = self.order.sheet()?;
        let panes = self.order_panes();
        let picture = panes.picture;
        let (width, height) =
            (picture.width.saturating_sub(2).max(1), picture.height.saturating_sub(2).max(1));
        let area = Area { x: picture.x + 1, y: picture.y + 1, width, height };
        let scale = (sheet.width / f64::from(width), sheet.height / f64::from(panes.sheet_rows.max(height)));
        let down = self.order.down.min(panes.sheet_rows.saturating_sub(height));
        Some(PageMap { area, scale, corner: (0.0, f64::from(down) * scale.1) })
    }

    /// `pdf on a4, 4 sheets`.
    #[must_use]
    pub fn order_told(&self) -> String {
        let form = self.order.form;
        if form == Form::Text {
            return "text in 80 columns".into();
        }
        let sheets = match self.order.count() {
            0 => "no sheets".to_owned(),
            1 => "1 sheet".into(),
            more => format!("{more} sheets"),
        };
        format!("{form} on {}, {sheets}", self.order_paper())
    }

    /// `sheet 2 of 4: template of the title, 297 x 210 mm`.
    #[must_use]
    pub fn sheet_told(&self, sheet: &SheetPicture) -> String {
        let (place, count) = (self.order.chosen + 1, self.order.count());
        let size = self.two_told(sheet.width, "x", sheet.height);
        format!("sheet {place} of {count}: {}, {size}", sheet.told)
    }

    /// Two lengths in mm with a word between them, and the unit once: `297 x 210 mm`.
    pub(super) fn two_told(&self, first: f64, between: &str, second: f64) -> String {
        let told = |mm: f64| tell_length(Length::from_mm_f64(mm), self.unit());
        let first = told(first);
        let number = first.rsplit_once(' ').map_or(first.as_str(), |(number, _)| number);
        format!("{number} {between} {}", told(second))
    }

    /// A click chooses a look, or a sheet of the list; the wheel goes through what it is over.
    pub(super) fn mouse_on_order(&mut self, mouse: Mouse) {
        let panes = self.order_panes();
        let holds = |area: Area| area.holds(mouse.column, mouse.row);
        let on_words = holds(panes.words);
        match mouse.what {
            MouseAct::WheelUp | MouseAct::WheelDown => {
                let by = if mouse.what == MouseAct::WheelUp { -1 } else { 1 };
                let rows = self.order_rows();
                if on_words {
                    self.order.words.walk(by * 3, rows);
                } else if self.order.side == OrderSide::Near {
                    self.walk_down_paper(by * 3);
                } else {
                    self.order.walk_sheets(by);
                }
            }
            MouseAct::Press if holds(panes.list) => {
                self.order.side = OrderSide::Sheets;
                let row = usize::from(mouse.row - panes.list.y) + panes.first_listed;
                if row < self.order.count() {
                    self.order.choose(row);
                }
            }
            // Where only one look is seen its heading leads to the other, as it says.
            MouseAct::Press if panes.is_narrow() && mouse.row == panes.words.y.max(panes.heading.y) => {
                let is_near = self.order.side == OrderSide::Near && self.order.sheet().is_some();
                self.act_on_order(if is_near { Action::PaperNear } else { Action::OtherSide });
            }
            MouseAct::Press if on_words => self.order.side = OrderSide::Words,
            MouseAct::Press if !panes.is_narrow() => self.order.side = OrderSide::Sheets,
            MouseAct::Press | MouseAct::Drag | MouseAct::Release => {}
        }
    }
}
