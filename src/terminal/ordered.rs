//! The placement order of the plan on the desk: shown, and written beside the plans.
//!
//! Must not know keys or screens.

use crate::files::{FilesError, replace_file};
use crate::order::Order;
use crate::print::{Head, order_text};

use super::desk::Desk;

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
        let words = self.order_text();
        self.state.show_order(&words, Ok(Vec::new()));
    }

    /// The order as text.
    fn order_text(&self) -> String {
        let order = Order::of(self.state.trial.plan(), &self.state.shelf.stash);
        order_text(&order, &Head { date: None, file: self.state.file.slug.clone() }, self.state.unit())
    }

    /// Writes the order into the stash's folder for orders.
    pub(super) fn write_order(&mut self) {
        if self.is_homeless() || !self.folder.path().is_dir() {
            let gone = FilesError::Gone(self.folder.path().to_owned());
            return self.state.complain(gone.to_string());
        }
        let name = self.state.file.slug.clone().unwrap_or_else(|| self.file.slug().to_string());
        let path = self.folder.path().join("orders").join(format!("{name}.txt"));
        match replace_file(&path, self.order_text().as_bytes()) {
            Ok(()) => self.state.say(format!("written to {}", path.display().to_string().escape_debug())),
            Err(error) => self.state.complain(error.to_string()),
        }
    }
}
