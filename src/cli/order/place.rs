//! Where an order may be written: into a folder that is there, over nothing but a file that is nobody's source.
//!
//! Must not know what an order holds.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, is_separator};

use anyhow::Result;

use crate::files::{ORDERS, behind_links, escaped};

use super::super::opened::Opened;
use super::super::say::Fault;

/// Whether an order may be written to `file`. What only the disk can tell is left to the writing.
pub(super) fn is_fit(file: &Path, opened: &Opened) -> Result<()> {
    match unfit(file, opened) {
        Some(why) => Err(Fault::Input(why).into()),
        None => Ok(()),
    }
}

fn unfit(file: &Path, opened: &Opened) -> Option<String> {
    let called = escaped(&file.display().to_string());
    // Also where a link leads to that is not there yet.
    let file = &behind_links(file).ok()?;
    let there = fs::metadata(file);
    if there.as_ref().is_ok_and(fs::Metadata::is_dir)
        || called.ends_with(is_separator)
        || file.file_name().is_none()
    {
        return Some(format!("{called} is a folder; name a file in it"));
    }
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let shown = escaped(&folder.display().to_string());
    let stash = fs::canonicalize(opened.folder.path()).ok()?;
    match fs::metadata(folder) {
        Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => {
            // The stash's own folder for orders comes with the first of them.
            let above =
                folder.parent().filter(|above| !above.as_os_str().is_empty()).unwrap_or(Path::new("."));
            let comes = folder.ends_with(ORDERS) && fs::canonicalize(above).is_ok_and(|above| above == stash);
            return (!comes).then(|| format!("there is no folder {shown}; make it first"));
        }
        Ok(told) if !told.is_dir() => return Some(format!("{shown} is a file, not a folder")),
        _ => {}
    }
    if there.as_ref().is_ok_and(|there| !there.is_file()) {
        return Some(format!("{called} is no file that can be replaced; leave -o out to print the order"));
    }
    let real = fs::canonicalize(file)
        .ok()
        .or_else(|| Some(fs::canonicalize(folder).ok()?.join(file.file_name()?)))?;
    if fs::canonicalize(opened.file.path()).is_ok_and(|plan| plan == real) {
        return Some(format!("{called} is the page plan itself; name another file"));
    }
    if real.starts_with(&stash) && !real.starts_with(stash.join(ORDERS)) {
        return Some(format!(
            "{called} is among the stash's own files; write to its folder {ORDERS}, or elsewhere"
        ));
    }
    None
}
