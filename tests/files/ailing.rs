//! A stash with something wrong in it, what is told of it, and what it is once mended.
//!
//! Must not know what is wrong.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use oddment::files::{Access, Cure, Mended, StashFolder};
use tempfile::TempDir;

pub(super) const DAY: &str = "2031-11-05";

/// A sheet of two letters, its counts and the line `as_of`.
pub(super) fn sheet(a: i32, l: i32, more: &str) -> String {
    format!(
        "# By hand.\nform = \"tile\"\nheight = 20\ncolour = \"teal\"\n{more}\n\n[letters]\nA = {a} # a\nL = {l}\n"
    )
}

/// An entry of the ledger.
pub(super) fn entry(number: u32, rest: &str) -> String {
    format!("[[entry]]\nnumber = {number}\ndate = \"2031-01-02\"\n{rest}\n\n")
}

pub(super) fn stuck(number: u32, chips: &str) -> String {
    entry(number, &format!("kind = \"stuck\"\npage = \"walk\"\nstrip = \"title\"\nchips = {{ {chips} }}"))
}

pub(super) fn added(number: u32, chips: &str) -> String {
    entry(number, &format!("kind = \"added\"\nchips = {{ {chips} }}"))
}

/// A plan whose title has the letters A and L, with a line more.
pub(super) fn plan(more: &str) -> String {
    format!(
        "# The walk.\n[[strip]]\nwording = \"AL\"\n{more}\n[[strip.letter]]\nslot = 1\nchip = \"kelp/A\"\n[[strip.letter]]\nslot = \
         2\nchip = \"kelp/L\"\n"
    )
}

pub(super) struct Stage {
    pub(super) folder: TempDir,
}

impl Stage {
    pub(super) fn of(files: &[(&str, &[u8])]) -> Self {
        let folder = TempDir::new().unwrap();
        for (name, bytes) in files {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
        Self { folder }
    }

    pub(super) fn stash(&self) -> StashFolder {
        StashFolder::at(self.folder.path())
    }

    pub(super) fn text(&self, file: &str) -> String {
        fs::read_to_string(self.folder.path().join(file)).unwrap()
    }

    /// Every file with what it holds, without the lock and what was kept aside.
    pub(super) fn files(&self) -> BTreeMap<String, Vec<u8>> {
        let mut files = BTreeMap::new();
        list(self.folder.path(), self.folder.path(), &mut files);
        files.retain(|name, _| name != ".lock" && !name.starts_with("kept-aside"));
        files
    }

    /// How many of each chip are left.
    pub(super) fn left(&self, chip: &str) -> u16 {
        let stash = self.stash().load().unwrap().stash;
        let ix = stash.find(&oddment::stash::ChipId::parse(chip).unwrap()).unwrap();
        stash.chip(ix).letter.left
    }

    /// What is told; nothing is written.
    pub(super) fn told(&self) -> Vec<String> {
        let before = self.files();
        let ailments = self.stash().ailments(DAY).unwrap();
        assert_eq!(self.files(), before, "nothing is written");
        let cure = |cure: &Cure| match cure {
            Cure::Mending(will) => format!("mending {will}"),
            Cure::ByHand(how) => format!("by hand: {how}"),
        };
        ailments.iter().map(|one| format!("{one} | {}", cure(&one.cure))).collect()
    }

    /// Mends it; afterwards only what is by hand is told, and every file that was changed is kept as it was.
    pub(super) fn mend(&self) -> Mended {
        let told = self.stash().ailments(DAY).unwrap();
        let before = self.files();
        let stash = self.stash();
        let Access::Writer(lock) = stash.ask_to_mend().unwrap() else { unreachable!("nobody else is here") };
        let mended = stash.mend(&lock, DAY).unwrap();
        assert_eq!(mended.found, told);
        drop(lock);
        let after = self.files();
        for (name, old) in &before {
            let is_part = std::path::Path::new(&name).extension().is_some_and(|kind| kind == "part");
            if after.get(name) != Some(old) && !is_part && !after.values().any(|new| new == old) {
                let kept = fs::read(mended.kept.as_ref().unwrap().join(name)).unwrap();
                assert_eq!(&kept, old, "{name}");
            }
        }
        let left: Vec<_> = mended.found.iter().filter(|one| one.is_by_hand()).cloned().collect();
        assert_eq!(stash.ailments(DAY).unwrap(), left, "nothing else is left");
        let Access::Writer(lock) = stash.ask_to_write().unwrap() else { unreachable!("nobody else is here") };
        let whole = stash.load().unwrap();
        assert_eq!(stash.complete(&lock, &whole).unwrap(), Vec::<String>::new(), "nothing is half done");
        assert!(!whole.is_ledger_damaged, "{}", whole.problems);
        mended
    }
}

fn list(root: &Path, folder: &Path, files: &mut BTreeMap<String, Vec<u8>>) {
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        if entry.path().is_dir() {
            list(root, &entry.path(), files);
        } else {
            let name = entry.path().strip_prefix(root).unwrap().to_str().unwrap().to_owned();
            files.insert(name, fs::read(entry.path()).unwrap());
        }
    }
}
