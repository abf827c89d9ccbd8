//! What a program that was killed left lying about: files half written, new sheets that still wait.
//!
//! Must not know how they came to be, only their names.

use std::fs;

use crate::files::disk::is_half_written;
use crate::files::error::FilesError;
use crate::files::folder::StashFolder;
use crate::files::recover::comes_with;

use super::kept_aside::KEPT_ASIDE;
use super::{Ailment, Change, Look, Outlook, named};

impl StashFolder {
    /// New sheets that wait for their entry: with it they are taken in, without it they never were.
    pub(super) fn mend_waiting(&self, outlook: &Outlook, look: &mut Look) -> Result<(), FilesError> {
        for (path, id, number) in self.waiting() {
            let file = self.called(&path);
            let has_entry = comes_with(&outlook.mended, &id, number);
            let to = self.sheet_path(&id);
            let (what, will, change) = if has_entry && !to.exists() {
                let what = format!("the new sheet {id} of entry {number} was not taken in yet");
                (what, format!("takes it in as {}", self.called(&to)), Change::Rename(path, to))
            } else if has_entry {
                let what = format!(
                    "it is the new sheet {id} as it was counted in; {} was made otherwise meanwhile",
                    self.called(&to)
                );
                (what, "keeps a copy aside and takes it away".into(), Change::Remove(path))
            } else {
                let what =
                    format!("it was left by a program that was stopped before it took the new sheet {id} in");
                (what, "keeps a copy aside and takes it away".into(), Change::Remove(path))
            };
            look.ailments.push(Ailment::mended(&file, &what, &will));
            look.changes.push(change);
        }
        // A name that tells no entry and no sheet.
        let known: Vec<_> = self.waiting().into_iter().map(|(path, ..)| path).collect();
        for path in named(&self.path().join("sheets"), |name| name.starts_with(".waiting-"))? {
            if !known.contains(&path) && path.is_file() {
                let what = "its name tells neither an entry nor a sheet, and nothing waits for it";
                let will = "keeps a copy aside and takes it away";
                look.ailments.push(Ailment::mended(&self.called(&path), what, will));
                look.changes.push(Change::Remove(path));
            }
        }
        Ok(())
    }

    /// Files half written, in every folder that is written to.
    pub(super) fn mend_leftovers(&self, look: &mut Look) -> Result<(), FilesError> {
        let mut folders: Vec<_> =
            ["", "sheets", "pages", "trials", "orders"].iter().map(|name| self.path().join(name)).collect();
        let kept = self.path().join(KEPT_ASIDE);
        for folder in fs::read_dir(&kept).into_iter().flatten().flatten() {
            folders.extend(["", "sheets", "pages"].iter().map(|name| folder.path().join(name)));
        }
        for folder in folders.iter().filter(|folder| folder.is_dir()) {
            for path in named(folder, is_half_written)? {
                let what = "it was left by a program that was stopped while it wrote";
                look.ailments.push(Ailment::mended(
                    &self.called(&path),
                    what,
                    "takes it away: it was never whole",
                ));
                look.changes.push(Change::Sweep(path));
            }
        }
        Ok(())
    }
}
