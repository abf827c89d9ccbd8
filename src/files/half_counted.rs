//! Keeps a sheet whose letters are being counted beside the trials, and reads it again.
//!
//! Its file is in the form of a sheet, with what is done with it above. Its name does not end as a trial's does, so it is no
//! plan's. Must not know how letters are counted.

use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::measure::ColourNames;
use crate::stash::{HalfCounted, Record, Sheet, SheetId, Way};

use super::error::FilesError;
use super::folder::{StashFolder, read_bytes};
use super::ledger::HIGHEST;
use super::pen::text;
use super::problem::Problems;
use super::reader::Keys;
use super::save_sheet::new_sheet_text;
use super::sheet::read_sheet;
use super::source::Source;

const NAME: &str = "counting.sheet";

const HEAD: &str = "# A sheet whose letters were being counted; the next start offers to go on with it.\n";

impl StashFolder {
    /// Keeps a sheet that is being counted, in place of one that was kept before.
    ///
    /// # Errors
    /// When it cannot be written. [`FilesError::Gone`] where the stash's folder is not there.
    pub fn keep_count(&self, half: &HalfCounted, colours: &ColourNames) -> Result<PathBuf, FilesError> {
        let path = self.count_path();
        if !self.path().is_dir() {
            return Err(FilesError::Gone(self.path().to_owned()));
        }
        self.disk.replace(&path, written(half, colours).as_bytes())?;
        Ok(path)
    }

    /// The sheet that was being counted when the program ended; `None` where there was none.
    ///
    /// # Errors
    /// When there is one that cannot be read.
    pub fn half_counted(&self, colours: &ColourNames) -> Result<Option<HalfCounted>, FilesError> {
        let path = self.count_path();
        let called = self.called(&path);
        let bytes = match fs::read(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            read => read_bytes(read, &called),
        };
        let text = bytes.map_err(|problem| FilesError::BadSheet(Problems::from(problem)))?;
        read(&called, &text, colours).map(Some).map_err(FilesError::BadSheet)
    }

    /// Lets go of it: its letters were counted to the end, or let go by hand. Nothing happens where there is none.
    ///
    /// # Errors
    /// When it cannot be taken away.
    pub fn drop_count(&self) -> Result<(), FilesError> {
        self.disk.remove(&self.count_path())
    }

    /// Renames it, so that nothing writes over it, and says to what.
    ///
    /// # Errors
    /// When it cannot be renamed.
    pub fn set_count_aside(&self) -> Result<PathBuf, FilesError> {
        self.set_aside(&self.count_path())
    }

    fn count_path(&self) -> PathBuf {
        self.path().join("trials").join(NAME)
    }

    /// Gives a file the first free name with `aside` behind its own, and says which.
    pub(super) fn set_aside(&self, path: &Path) -> Result<PathBuf, FilesError> {
        let own = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let numbered = (2..).map(|number: u32| format!("{own}.aside-{number}"));
        let mut names = std::iter::once(format!("{own}.aside")).chain(numbered);
        let aside = names.find_map(|name| Some(path.with_file_name(name)).filter(|aside| !aside.exists()));
        let aside = aside.unwrap_or_else(|| path.with_file_name(format!("{own}.aside")));
        self.disk.rename(path, &aside)?;
        Ok(aside)
    }
}

fn written(half: &HalfCounted, colours: &ColourNames) -> String {
    let mut written = format!("{HEAD}counting = {}\n", quoted(half.way.as_str()));
    if half.way != Way::New {
        let _ = writeln!(written, "sheet = {}", quoted(half.sheet.id.as_str()));
    }
    if let Some(like) = &half.like {
        let _ = writeln!(written, "like = {}", quoted(like));
    }
    let _ = writeln!(written, "after = {}", half.after);
    // What the counts of a sheet include is of no use to letters that are counted beside them.
    let sheet = Sheet { record: Record::default(), ..half.sheet.clone() };
    written + &new_sheet_text(&sheet, colours)
}

fn quoted(word: &str) -> String {
    text(word).to_string().trim().to_owned()
}

fn read(called: &str, text: &str, colours: &ColourNames) -> Result<HalfCounted, Problems> {
    let source = Source::new(called, text, colours);
    let told = source.tree().and_then(|tree| {
        let keys = Keys::new(&source, tree.get_ref());
        keys.require("counting", "counting = \"new\" or another");
        let way = keys.word("counting", Way::ALL, Way::as_str)?;
        if way != Way::New {
            keys.require("sheet", "sheet = \"the name of its file\"");
        }
        let id = keys.read("sheet", |found| SheetId::new(found.text()?).map_err(|error| error.to_string()));
        // Without it nothing was recorded since.
        let after = keys.count("after", 0..=HIGHEST).unwrap_or(HIGHEST);
        Some((way, id.unwrap_or_else(SheetId::unnamed), keys.text("like").map(str::to_owned), after))
    });
    let Some((way, id, like, after)) = told.filter(|_| !source.has_errors()) else {
        return Err(source.into_problems());
    };
    let (sheet, problems) = read_sheet(called, &id, text, colours);
    sheet.map(|sheet| HalfCounted { way, sheet, like, after }).ok_or(problems)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_is_read_again() {
        let colours = ColourNames::default();
        let text = "form = \"die-cut\"\nheight = \"20 mm\"\ncolour = \"teal\"\ntag = \"7\"\n[letters]\nA = 2\n\"'\" = 1\n\
                    S = [{ left = 1 }, { mark = \"coral\", left = 3, colour = \"coral\" }]\n";
        let sheet = |id| read_sheet("", &SheetId::new(id).unwrap(), text, &colours).0.unwrap();
        for half in [
            HalfCounted { way: Way::New, sheet: sheet("sheet"), like: Some("37, \"quay\"".into()), after: 0 },
            HalfCounted { way: Way::Fewer, sheet: sheet("kelp-caps"), like: None, after: 41 },
        ] {
            let text = written(&half, &colours);
            assert_eq!(read("", &text, &colours).unwrap(), half, "{text}");
        }
        for wrong in
            ["counting = \"old\"\n", "counting = \"anew\"\n", "", "counting = \"anew\"\nsheet = \"A b\"\n"]
        {
            assert!(read("", &format!("{wrong}{text}"), &colours).is_err(), "{wrong}");
        }
    }
}
