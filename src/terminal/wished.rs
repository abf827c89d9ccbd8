//! What is read and written for the wording's view: wishes added and dropped, words of the user's own, sheets on sale.
//!
//! Must not know keys or screens.

use crate::app::Effect;
use crate::files::{Access, FilesError};

use super::desk::Desk;

impl Desk {
    /// Does what is asked for among wordings.
    pub(super) fn for_wordings(&mut self, effect: Effect) {
        match effect {
            Effect::LookAhead => {
                let (on_sale, problems) = self.folder.on_sale(&self.state.shelf.names);
                self.state.look_ahead(on_sale);
                if problems.has_errors() {
                    self.state.complain("on-sale.toml has errors; oddment mend tells them");
                }
            }
            Effect::LookForIdeas => match self.folder.own_words() {
                Ok(own) => self.state.look_for_ideas(own),
                Err(error) => {
                    self.state.look_for_ideas(None);
                    self.state.complain(format!("{error}; only the English words are looked through"));
                }
            },
            wish => self.keep_wish(wish),
        }
    }

    /// Adds a wish, or drops one; the wishes are read anew.
    fn keep_wish(&mut self, effect: Effect) {
        if !self.look_before_writing() {
            return;
        }
        let Access::Writer(lock) = &self.access else { return };
        let one_line = |text: &str| text.replace('\n', " | ");
        let (done, told) = match effect {
            Effect::AddWish(wish) => {
                let told = format!("{} is wished for", one_line(wish.wording.text()));
                (self.folder.add_wish(lock, &wish), told)
            }
            Effect::DropWish(wording) => {
                let told =
                    format!("{} is wished for no more; a wishes for it again", one_line(wording.text()));
                (self.folder.drop_wish(lock, &wording).map(|wish| self.state.hold_dropped(wish)), told)
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
