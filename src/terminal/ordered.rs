//! The placement order of the plan on the desk: shown, and written beside the plans.
//!
//! Must not know keys or screens, nor how an order is set on paper.

use std::path::Path;

use crate::files::{FilesError, SavedOrder};
use crate::order::{Form, Order};
use crate::page::PaperError;
use crate::print::{About, Head, Sheet, is_sheet_of_order, order_text, pdf, sheets, svg};

use super::desk::Desk;
use super::pictured::pictures;

impl Desk {
    /// Shows the order anew where it is looked at and no longer what the plan and the stash say; whether that was so.
    pub(super) fn show_order_if_due(&mut self) -> bool {
        let due = self.state.is_order_due();
        if due {
            self.show_order();
        }
        due
    }

    /// Shows the order in the form and on the paper that are chosen.
    pub(super) fn show_order(&mut self) {
        let (order, head) = self.order();
        let words = order_text(&order, &head, self.state.unit());
        let sheets = match self.state.order.form {
            Form::Text => Ok(Vec::new()),
            Form::Svg | Form::Pdf => {
                self.sheets(&order, &head).map(|sheets| pictures(&sheets)).map_err(|error| error.to_string())
            }
        };
        self.state.show_order(&words, sheets);
    }

    /// Writes the order into the stash's folder for orders, in the form and on the paper that are chosen; says where it is.
    pub(super) fn write_order(&mut self) {
        if self.is_homeless() || !self.folder.path().is_dir() {
            let gone = FilesError::Gone(self.folder.path().to_owned());
            return self.state.complain(gone.to_string());
        }
        let files = match self.order_files() {
            Ok(files) => files,
            Err(error) => return self.state.complain(format!("nothing is written: {error}")),
        };
        let name = self.state.file.slug.clone().unwrap_or_else(|| self.file.slug().to_string());
        let extension = match self.state.order.form {
            Form::Text => "txt",
            Form::Svg => "svg",
            Form::Pdf => "pdf",
        };
        let file = self.folder.order_file(&name, extension);
        match self.folder.save_order(&file, &files, is_sheet_of_order) {
            Ok(saved) => self.state.say(told(&saved)),
            Err(error) => self.state.complain(error.to_string()),
        }
    }

    /// The order as files: one, but for drawings, of which each sheet has its own.
    fn order_files(&self) -> Result<Vec<Vec<u8>>, PaperError> {
        let (order, head) = self.order();
        let about = About::of(&order, &head);
        Ok(match self.state.order.form {
            Form::Text => vec![order_text(&order, &head, self.state.unit()).into_bytes()],
            Form::Pdf => vec![pdf(&self.sheets(&order, &head)?, &about)],
            Form::Svg => {
                let sheets = self.sheets(&order, &head)?;
                sheets.iter().map(|sheet| svg(sheet, &about).into_bytes()).collect()
            }
        })
    }

    fn order(&self) -> (Order, Head) {
        let order = Order::of(self.state.trial.plan(), &self.state.shelf.stash);
        (order, Head { date: None, file: self.state.file.slug.clone() })
    }

    fn sheets(&self, order: &Order, head: &Head) -> Result<Vec<Sheet>, PaperError> {
        sheets(order, head, self.state.order_paper(), self.state.unit())
    }
}

/// Where an order was written; what became of an earlier one comes first, for the way there may be long.
fn told(saved: &SavedOrder) -> String {
    let shown = |path: &Path| path.display().to_string().escape_debug().to_string();
    let gone = match saved.removed.len() {
        0 => String::new(),
        1 => ", a sheet of an earlier order is taken away".to_owned(),
        more => format!(", {more} sheets of an earlier order are taken away"),
    };
    match saved.paths.as_slice() {
        [] => "there is nothing to write".to_owned(),
        [one] if saved.over_earlier => format!("written over the earlier one{gone}: {}", shown(one)),
        [one] => format!("written to {}{gone}", shown(one)),
        [first, .., last] => {
            let last = last.file_name().unwrap_or_default().to_string_lossy();
            format!("{} sheets written{gone}: {} to {}", saved.paths.len(), shown(first), last.escape_debug())
        }
    }
}
