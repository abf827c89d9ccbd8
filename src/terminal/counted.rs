//! Sheets counted in, counted anew and told anew on the user's word.
//!
//! Must not know keys or screens.

use crate::app::Effect;
use crate::files::{Access, RecordError, StashFolder, StashLock};
use crate::measure::ColourNames;
use crate::stash::{Deed, Kind, Sheet, SheetId};

use super::desk::Desk;

impl Desk {
    /// Does what is asked for a sheet; the stash is read anew, and the trial stays. Where another hand has changed the sheet
    /// since it was read, that is told and nothing is written.
    pub(super) fn keep_sheet(&mut self, effect: &Effect) {
        let asked = |desk: &Self| {
            let stash = &desk.state.shelf.stash;
            sheet_of(effect).and_then(|sheet| stash.sheet(&sheet.id)).cloned()
        };
        let known = asked(self);
        if !self.look_before_writing() {
            // The look has said why.
            let why = self.state.notice.take().map(|notice| notice.text);
            let why = why.unwrap_or_else(|| "nothing is written: the stash takes no changes now".into());
            return self.state.was_not_counted(why);
        }
        if asked(self) != known {
            let told = "another hand has changed this sheet meanwhile; look at it, and do it again";
            return self.state.was_not_counted(told);
        }
        let is_turned = known.as_ref().zip(sheet_of(effect)).is_some_and(|(known, sheet)| {
            matches!(effect, Effect::SaveSheet(_)) && known.label.aside != sheet.label.aside
        });
        let done = match &self.access {
            Access::Writer(lock) => keep(&self.folder, lock, effect, &self.state.shelf.names),
            _ => None,
        };
        let told = done.unwrap_or_else(|| Err("this stash is only looked at".into()));
        // What is counted for good must not be offered to be counted again.
        if told.is_ok()
            && !matches!(effect, Effect::SaveSheet(_))
            && let Err(error) = self.folder.drop_count()
        {
            self.state.complain(error.to_string());
        }
        if let Err(error) = self.read_anew() {
            self.state.complain(error.to_string());
        }
        match told {
            Ok((sheet, _)) if is_turned => self.state.was_set_aside(&sheet),
            Ok((sheet, told)) if matches!(effect, Effect::SaveSheet(_)) => self.state.was_told(&sheet, told),
            Ok((sheet, told)) => self.state.was_counted(&sheet, told),
            Err(error) => self.state.was_not_counted(error),
        }
        self.keep_count();
    }
}

/// The sheet that is to be written.
const fn sheet_of(effect: &Effect) -> Option<&Sheet> {
    match effect {
        Effect::SaveSheet(sheet) | Effect::Count(sheet, _) => Some(sheet),
        _ => None,
    }
}

/// Does what `effect` asks for a sheet; `None` where it asks for something else. Gives back the sheet, and what was done
/// in words.
///
/// # Errors
/// In words: what the stash lacks, or what cannot be read or written.
fn keep(
    folder: &StashFolder,
    lock: &StashLock,
    effect: &Effect,
    names: &ColourNames,
) -> Option<Result<(SheetId, String), String>> {
    let done = match effect {
        Effect::TakeIn(sheet) => take_in(folder, lock, sheet),
        Effect::Count(sheet, deed) => count(folder, lock, (sheet, deed), names),
        Effect::SaveSheet(sheet) => folder
            .save_sheet(lock, sheet, names)
            .map(|()| (sheet.id.clone(), format!("{} is written down", sheet.told())))
            .map_err(RecordError::from),
        _ => return None,
    };
    Some(done.map_err(|error| error.to_string()))
}

fn take_in(folder: &StashFolder, lock: &StashLock, sheet: &Sheet) -> Result<(SheetId, String), RecordError> {
    let none = Deed { kind: Kind::Added, of: None, chips: std::collections::BTreeMap::new() };
    folder.take_in(lock, std::slice::from_ref(sheet), none, &today())?;
    let tag = sheet.label.tag.as_ref().map_or_else(String::new, |tag| format!("; write {tag} on the sheet"));
    Ok((sheet.id.clone(), format!("{} counted in: {}{tag}", sheet.told(), letters(sheet.left()))))
}

fn count(
    folder: &StashFolder,
    lock: &StashLock,
    (sheet, deed): (&Sheet, &Deed),
    names: &ColourNames,
) -> Result<(SheetId, String), RecordError> {
    folder.save_sheet(lock, sheet, names)?;
    folder.record(lock, deed.clone(), &today())?;
    let sum: i32 = deed.chips.values().sum();
    let told = match deed.kind {
        Kind::Counted => "counted",
        _ if sum < 0 => "counted out",
        _ => "counted in",
    };
    Ok((sheet.id.clone(), format!("{}: {} {told}", sheet.told(), letters(sum.unsigned_abs()))))
}

fn letters(count: u32) -> String {
    if count == 1 { "1 letter".into() } else { format!("{count} letters") }
}

/// The day here, as `2031-11-05`.
pub(super) fn today() -> String {
    jiff::Zoned::now().date().to_string()
}
