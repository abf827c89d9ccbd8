//! Sheets counted in, counted anew and told anew on the user's word.
//!
//! Must not know keys or screens.

use crate::app::Effect;
use crate::files::{RecordError, StashFolder, StashLock};
use crate::measure::ColourNames;
use crate::stash::{Deed, Kind, Sheet, SheetId};

/// Does what `effect` asks for a sheet; `None` where it asks for something else. Gives back the sheet, and what was done
/// in words.
///
/// # Errors
/// In words: what the stash lacks, or what cannot be read or written.
pub(super) fn keep(
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
