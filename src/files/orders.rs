//! Placement orders in the stash's folder: written, and what an earlier, longer order left of its sheets taken away.
//!
//! Must not know what an order says.

use std::fs;
use std::path::{Path, PathBuf};

use super::error::FilesError;
use super::folder::StashFolder;

/// The folder of the orders.
const ORDERS: &str = "orders";

/// An order that was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SavedOrder {
    /// Its files, in the order of its sheets.
    pub paths: Vec<PathBuf>,
    /// How many sheets of an earlier order of that name were taken away.
    pub removed: usize,
}

impl StashFolder {
    /// Writes the order of the plan called `name` into `orders/NAME.EXTENSION`; one of several `files` into
    /// `orders/NAME-1.EXTENSION` and so on. Sheets of an earlier order of that name that are no longer among them go, so that
    /// nobody mixes them up: of what bears such a name only what `is_sheet` knows as a sheet, and what is no other plan's.
    ///
    /// # Errors
    /// When a file may not be written; or a sheet would take the place of another plan's order.
    pub fn save_order(
        &self,
        name: &str,
        extension: &str,
        files: &[Vec<u8>],
        is_sheet: impl Fn(&str) -> bool,
    ) -> Result<SavedOrder, FilesError> {
        let folder = self.path().join(ORDERS);
        let plans: Vec<String> = self.plan_files()?.iter().map(|file| file.slug().to_string()).collect();
        let others = |stem: &str| stem != name && plans.iter().any(|plan| plan == stem);
        let stems: Vec<String> = match files.len() {
            1 => vec![name.to_owned()],
            count => (1..=count).map(|place| format!("{name}-{place}")).collect(),
        };
        if let Some(taken) = stems.iter().find(|stem| others(stem)) {
            return Err(FilesError::OrderThere(taken.clone()));
        }
        let path = |stem: &str| folder.join(format!("{stem}.{extension}"));
        let paths: Vec<PathBuf> = stems.iter().map(|stem| path(stem)).collect();
        for (path, content) in paths.iter().zip(files) {
            self.disk.replace(path, content)?;
        }
        let mut removed = 0;
        for stem in stems_of(&folder, extension) {
            let is_ours = stem == name || number_of(&stem, name).is_some();
            let file = path(&stem);
            let is_stale = is_ours && !paths.contains(&file) && !others(&stem);
            if is_stale && fs::read_to_string(&file).is_ok_and(|text| is_sheet(&text)) {
                self.disk.remove(&file)?;
                removed += 1;
            }
        }
        Ok(SavedOrder { paths, removed })
    }
}

/// The stems of the files of a folder with that extension; none where it cannot be read.
fn stems_of(folder: &Path, extension: &str) -> Vec<String> {
    let Ok(listing) = fs::read_dir(folder) else { return Vec::new() };
    let names = listing.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
    names.filter_map(|name| name.strip_suffix(&format!(".{extension}")).map(str::to_owned)).collect()
}

/// The number of a sheet of the order called `name`, from 1, by its file's stem.
fn number_of(stem: &str, name: &str) -> Option<u32> {
    let number = stem.strip_prefix(name)?.strip_prefix('-')?;
    let is_plain = number.bytes().all(|byte| byte.is_ascii_digit()) && !number.starts_with('0');
    number.parse().ok().filter(|_| is_plain)
}
