//! Placement orders as files: how the sheets of one are named and written, and what an earlier, longer order left of its sheets
//! taken away.
//!
//! Must not know what an order says.

use std::fs;
use std::path::{Path, PathBuf};

use super::error::FilesError;
use super::folder::StashFolder;

/// The folder of a stash for its orders.
pub const ORDERS: &str = "orders";

/// An order that was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SavedOrder {
    /// Its files, in the order of its sheets.
    pub paths: Vec<PathBuf>,
    /// Whether one of them took the place of an earlier order's.
    pub over_earlier: bool,
    /// Sheets of an earlier order of that name that were taken away, by their names.
    pub removed: Vec<PathBuf>,
}

/// The files of an order of `count` sheets: `file` itself for one, `quay-1.svg`, `quay-2.svg` and so on of several for
/// `quay.svg`.
#[must_use]
pub fn order_files(file: &Path, count: usize) -> Vec<PathBuf> {
    if count == 1 {
        return vec![file.to_owned()];
    }
    let stem = file.file_stem().unwrap_or_default();
    let numbered = |number: usize| {
        let mut name = stem.to_owned();
        name.push(format!("-{number}"));
        if let Some(ending) = file.extension() {
            name.push(".");
            name.push(ending);
        }
        file.with_file_name(name)
    };
    (1..=count).map(numbered).collect()
}

impl StashFolder {
    /// Where the order of the plan called `name` is saved: `orders/NAME.EXTENSION`.
    #[must_use]
    pub fn order_file(&self, name: &str, extension: &str) -> PathBuf {
        self.path().join(ORDERS).join(format!("{name}.{extension}"))
    }

    /// Writes an order, each of its `contents` into its own of [`order_files`]. What else bears the name of `file`, with a
    /// number or without, goes, so that nobody mixes up the sheets of two orders: but only what `is_sheet` knows as a sheet,
    /// and within the folder of the stash's orders what bears no other plan's name.
    ///
    /// # Errors
    /// When a file may not be written; or one of several would be written over what is no sheet, or over another plan's
    /// order: nothing is written then.
    pub fn save_order(
        &self,
        file: &Path,
        contents: &[Vec<u8>],
        is_sheet: impl Fn(&str) -> bool,
    ) -> Result<SavedOrder, FilesError> {
        let is_sheet = |path: &Path| fs::read_to_string(path).is_ok_and(|text| is_sheet(&text));
        let others = self.names_of_others(file)?;
        let is_others = |path: &Path| stem(path).is_some_and(|stem| others.iter().any(|other| other == stem));
        let paths = order_files(file, contents.len());
        for path in paths.iter().filter(|path| *path != file) {
            if is_others(path) {
                return Err(FilesError::OrderThere(stem(path).unwrap_or_default().to_owned()));
            }
            if path.exists() && !(path.is_file() && is_sheet(path)) {
                return Err(FilesError::NoSheetThere(path.clone()));
            }
        }
        let over_earlier = paths.iter().any(|path| path.exists());
        for (path, content) in paths.iter().zip(contents) {
            self.disk.replace(path, content)?;
        }
        let mut removed = Vec::new();
        for path in alike(file).into_iter().filter(|path| !paths.contains(path)) {
            // Where a link leads to is somebody else's.
            let is_file = fs::symlink_metadata(&path).is_ok_and(|told| told.is_file());
            if is_file && !is_others(&path) && is_sheet(&path) {
                self.disk.remove(&path)?;
                removed.push(path);
            }
        }
        Ok(SavedOrder { paths, over_earlier, removed })
    }

    /// The names of all plans but the one that `file` is named after; none where `file` is not among the stash's orders.
    fn names_of_others(&self, file: &Path) -> Result<Vec<String>, FilesError> {
        let (folder, orders) = (folder(file), self.path().join(ORDERS));
        let real = |path: &Path| fs::canonicalize(path).ok();
        if folder != orders && (real(folder).is_none() || real(folder) != real(&orders)) {
            return Ok(Vec::new());
        }
        let plans = self.plan_files()?.into_iter().map(|plan| plan.slug().to_string());
        Ok(plans.filter(|plan| stem(file) != Some(plan)).collect())
    }
}

fn stem(file: &Path) -> Option<&str> {
    file.file_stem()?.to_str()
}

fn folder(file: &Path) -> &Path {
    file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// The files that bear the name of `file`, with a number or without, in the order of their numbers; none where its folder
/// cannot be read.
fn alike(file: &Path) -> Vec<PathBuf> {
    let (Some(name), Ok(listing)) = (stem(file), fs::read_dir(folder(file))) else { return Vec::new() };
    let names = listing.filter_map(|entry| Some(file.with_file_name(entry.ok()?.file_name())));
    let alike = names.filter(|other| other.extension() == file.extension());
    let mut numbered: Vec<(u32, PathBuf)> =
        alike.filter_map(|other| Some((number(stem(&other)?.strip_prefix(name)?)?, other))).collect();
    numbered.sort();
    numbered.into_iter().map(|(_, other)| other).collect()
}

/// The number of a sheet, from 1, by what its file's stem has behind the order's; 0 where that is nothing.
fn number(behind: &str) -> Option<u32> {
    if behind.is_empty() {
        return Some(0);
    }
    let number = behind.strip_prefix('-')?;
    let is_plain = number.bytes().all(|byte| byte.is_ascii_digit()) && !number.starts_with('0');
    number.parse().ok().filter(|_| is_plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_sheet_has_a_file_of_its_own() {
        let told = |file: &str| order_files(Path::new(file), 2)[1].display().to_string();
        assert_eq!(told("out/quay.svg"), "out/quay-2.svg");
        assert_eq!(told("quay.title.SVG"), "quay.title-2.SVG");
        assert_eq!(told("quay"), "quay-2");
        assert_eq!(order_files(Path::new("quay.svg"), 1), [Path::new("quay.svg")]);
    }

    #[test]
    fn numbers_are_read_as_they_are_written() {
        assert_eq!(["", "-1", "-12"].map(number), [Some(0), Some(1), Some(12)]);
        assert!(
            ["-0", "-01", "-", "1", "-x", "-+1", "-99999999999"].iter().all(|text| number(text).is_none())
        );
    }
}
