//! Wishes added and dropped on the user's word.
//!
//! Must not know keys or screens.

use crate::app::Effect;
use crate::files::{Access, FilesError};
use crate::title::Wish;

use super::desk::Desk;

impl Desk {
    /// Adds a wish, or drops one; the wishes are read anew.
    pub(super) fn keep_wish(&mut self, effect: Effect) {
        if !self.look_before_writing() {
            return;
        }
        let Access::Writer(lock) = &self.access else { return };
        let one_line = |text: &str| text.replace('\n', " | ");
        let (done, told) = match effect {
            Effect::AddWish(wording) => {
                let told = format!("{} is wished for", one_line(wording.text()));
                (self.folder.add_wish(lock, &Wish { wording, note: None }), told)
            }
            Effect::DropWish(wording) => {
                let told = format!("{} is wished for no more", one_line(wording.text()));
                (self.folder.drop_wish(lock, &wording).map(|_| ()), told)
            }
            _ => return,
        };
        if let Err(error) = done.and_then(|()| self.read_wishes_anew(told)) {
            self.state.complain(error.to_string());
        }
    }

    fn read_wishes_anew(&mut self, told: String) -> Result<(), FilesError> {
        let wishes = self.folder.load()?.wishes;
        self.state.take_wishes(wishes, told);
        Ok(())
    }
}
