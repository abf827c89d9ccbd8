//! Which sheet a row means: one of the stash by its id, an earlier id or its name, or a new one.
//!
//! Must not know the other cells of the row.

use std::collections::HashMap;

use crate::stash::{Sheet, SheetId};

use super::super::load::Loaded;

/// The sheet that a row is about.
#[derive(Debug, Clone)]
pub(super) enum Meant<'s> {
    /// One that the stash has.
    Known(&'s Sheet),
    /// One that it lacks, with its name where the row says one that is no id.
    New(SheetId, Option<String>),
}

/// Finds the sheets of rows, one after the other.
#[derive(Debug)]
pub(super) struct SheetNames<'s> {
    loaded: &'s Loaded,
    /// What each text was found to mean.
    found: HashMap<String, Result<Meant<'s>, String>>,
    /// Each new sheet with the text that it came from, and that text's line.
    new: HashMap<SheetId, (String, usize)>,
}

impl<'s> SheetNames<'s> {
    pub(super) fn new(loaded: &'s Loaded) -> Self {
        Self { loaded, found: HashMap::new(), new: HashMap::new() }
    }

    /// The sheet that `text` on `line` means.
    pub(super) fn find(&mut self, text: &str, line: usize) -> Result<Meant<'s>, String> {
        if let Some(found) = self.found.get(text) {
            return found.clone();
        }
        let found = self.look_up(text, line);
        self.found.insert(text.to_owned(), found.clone());
        found
    }

    fn look_up(&mut self, text: &str, line: usize) -> Result<Meant<'s>, String> {
        let own = SheetId::new(text).ok();
        if let Some(sheet) = own.as_ref().and_then(|id| self.loaded.stash.sheet(id)) {
            return Ok(Meant::Known(sheet));
        }
        if let Some(sheet) = self.called(text)? {
            return Ok(Meant::Known(sheet));
        }
        let name = own.is_none().then(|| text.to_owned());
        let id = own.or_else(|| SheetId::from_name(text));
        let id =
            id.ok_or_else(|| format!("{text:?} makes no id; write a name with a letter a-z or a figure"))?;
        if let Some(sheet) = self.loaded.stash.sheet(&id) {
            let other = sheet.name();
            return Err(format!(
                "{text:?} makes the id {id}, which is the sheet {other:?}; write {id} if it is meant"
            ));
        }
        let file = format!("sheets/{id}.toml");
        if self.loaded.problems.errors().any(|problem| problem.file == file) {
            return Err(format!("{file} has errors and cannot be used; mend it first"));
        }
        if self.loaded.ledger.speaks_of(&id) {
            return Err(format!(
                "the ledger speaks of a sheet {id} whose file is gone; put the file back, or write another name"
            ));
        }
        if let Some((other, first)) = self.new.get(&id) {
            return Err(format!(
                "{text:?} makes the id {id}, as does {other:?} on line {first}; write one of them otherwise"
            ));
        }
        self.new.insert(id.clone(), (text.to_owned(), line));
        Ok(Meant::New(id, name))
    }

    /// The one sheet of the stash that has this name.
    fn called(&self, text: &str) -> Result<Option<&'s Sheet>, String> {
        let mut all =
            self.loaded.stash.sheets().iter().filter(|sheet| sheet.label.name.as_deref() == Some(text));
        match (all.next(), all.next()) {
            (Some(one), Some(other)) => {
                Err(format!("two sheets are called {text:?}; write an id: {} or {}", one.id, other.id))
            }
            (one, _) => Ok(one),
        }
    }
}
