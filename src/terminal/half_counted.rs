//! Keeping a sheet while its letters are counted, and offering it back at the next start.
//!
//! Must not know keys or screens.

use std::path::PathBuf;

use crate::app::Over;

use super::desk::Desk;

impl Desk {
    /// Offers the sheet that was being counted when the program ended, if there is one. One that cannot be gone on with is
    /// put aside, which is told.
    pub(super) fn offer_count(&mut self) {
        if !self.access.may_write() {
            return;
        }
        let why = match self.folder.half_counted(&self.state.shelf.names) {
            Ok(None) => return,
            Ok(Some(half)) => match half.recorded(&self.state.shelf.ledger) {
                Some(entry) => {
                    format!("they are recorded, or the sheet was counted since (entry {entry} of the ledger)")
                }
                None if self.state.offer_count(&half) => return,
                None => format!("the stash has no sheet {} any more", half.sheet.id),
            },
            Err(error) => error.to_string(),
        };
        let aside = match self.folder.set_count_aside() {
            Ok(aside) => format!("It is kept aside as {}.", aside.display().to_string().escape_debug()),
            Err(error) => error.to_string(),
        };
        // A question that waits is not hidden: whoever answers it unseen may lose a trial.
        if matches!(self.state.over, Over::Question(_)) {
            self.state.complain(format!(
                "the letters that were being counted cannot be gone on with: {why}. {aside}"
            ));
        } else {
            self.state.show_page(
                "the letters that were being counted cannot be gone on with",
                &format!("{why}\n{aside}"),
            );
        }
    }

    /// Whether what is kept of a sheet being counted is not what there is of it, and can be kept.
    pub(super) fn is_count_unkept(&self) -> bool {
        self.access.may_write() && !self.is_homeless() && self.state.is_count_unkept()
    }

    /// Keeps what there is of a sheet being counted, and says where; what was kept of one that is no longer in hand is taken
    /// away.
    pub(super) fn keep_count(&mut self) -> Option<PathBuf> {
        if !self.is_count_unkept() {
            return None;
        }
        let kept = match self.state.half_counted() {
            Some(half) => self.folder.keep_count(&half, &self.state.shelf.names).map(Some),
            None => self.folder.drop_count().map(|()| None),
        };
        match kept {
            Ok(path) => {
                self.state.count_was_kept();
                path
            }
            Err(error) => {
                self.state.complain(format!("what is counted could not be kept: {error}"));
                None
            }
        }
    }

    /// Puts what was kept of a sheet being counted aside, on the user's word.
    pub(super) fn put_count_aside(&mut self) {
        match self.folder.set_count_aside() {
            Ok(aside) => {
                let aside = aside.display().to_string();
                self.state.say(format!("what was counted is put aside as {}", aside.escape_debug()));
            }
            Err(error) => self.state.complain(error.to_string()),
        }
    }
}
