//! The sheet that an argument means: by its id, now or earlier, or by its tag.
//!
//! Must not know what is asked of the sheet.

use anyhow::Result;

use crate::files::{FilesError, Loaded, Problems, escaped};
use crate::stash::{Sheet, SheetId};
use crate::words::nearest;

use super::say::Fault;

/// The sheet called `name`: by its id, now or earlier; else the one sheet that has it as its tag.
///
/// # Errors
/// When there is none, several have that tag, or the file of that name has errors.
pub(super) fn sheet_called<'l>(loaded: &'l Loaded, name: &str) -> Result<&'l Sheet> {
    let stash = &loaded.stash;
    let found = SheetId::new(name).ok().and_then(|id| stash.sheet(&id));
    if let Some(sheet) = found {
        return Ok(sheet);
    }
    // A sheet with errors in its file is there all the same.
    let mut own = Problems::new();
    let file = format!("sheets/{name}.toml");
    loaded.problems.errors().filter(|one| one.file == file).for_each(|one| own.push(one.clone()));
    if !own.is_empty() {
        return Err(FilesError::BadSheet(own).into());
    }
    let tagged = |sheet: &&Sheet| sheet.label.tag.as_deref().is_some_and(|tag| tag.trim() == name.trim());
    let tagged: Vec<&Sheet> = stash.sheets().iter().filter(tagged).collect();
    let name = escaped(name);
    match tagged.as_slice() {
        [sheet] => Ok(sheet),
        [] => {
            let near = nearest(&name, stash.sheets().iter().map(|sheet| sheet.id.as_str()));
            let hint = near.map_or_else(String::new, |near| format!("did you mean {near}? "));
            let text =
                format!("there is no sheet \"{name}\"; {hint}`oddment stash` lists all with their tags");
            Err(Fault::Input(text).into())
        }
        several => {
            let ids: Vec<&str> = several.iter().map(|sheet| sheet.id.as_str()).collect();
            let text =
                format!("several sheets have the tag \"{name}\"; name one of them: {}", ids.join(", "));
            Err(Fault::Input(text).into())
        }
    }
}
