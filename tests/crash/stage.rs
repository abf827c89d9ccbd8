//! A small stash on the disk, someone who stops the program after so many steps, and what the stash holds.
//!
//! Must not know what is tried.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use oddment::files::{Access, Loaded, Onlooker, StashFolder, StashLock, Step};
use oddment::plan::Plan;
use oddment::stash::{ChipId, Deed, Kind};
use tempfile::TempDir;

/// Lets so many steps pass and forbids all that follow, as if the program was killed or the disk was full.
#[derive(Debug)]
pub(super) struct Stopper {
    left: AtomicU32,
    kind: io::ErrorKind,
}

impl Stopper {
    pub(super) fn after(steps: u32, kind: io::ErrorKind) -> Arc<Self> {
        Arc::new(Self { left: AtomicU32::new(steps), kind })
    }

    /// Whether it stopped anything.
    pub(super) fn has_stopped(&self) -> bool {
        self.left.load(Ordering::SeqCst) == 0
    }
}

impl Onlooker for Stopper {
    fn before(&self, _: Step, _: &Path) -> io::Result<()> {
        let spent = self.left.fetch_update(Ordering::SeqCst, Ordering::SeqCst, |left| left.checked_sub(1));
        spent.map(|_| ()).map_err(|_| self.kind.into())
    }
}

/// What the ledger holds at first. It once had four entries, of which a sheet's counts still speak.
pub(super) const LEDGER: &str = "# Begun anew.\n";

/// Two sheets, one of them with a number in its counts, a page and a ledger.
const FILES: [(&str, &str); 4] = [
    ("ledger.toml", LEDGER),
    (
        "sheets/kelp.toml",
        "# By hand.\nform = \"die-cut\"\nheight = \"20 mm\"\ncolour = \"teal\"\n\n[letters]\nA = 3 # three\nL = 2\n",
    ),
    (
        "sheets/oars.toml",
        "form = \"tile\"\nheight = \"20 mm\"\ncolour = \"tan\"\nas_of = 4\n\n[letters]\nN = [{ left = 2 }, { mark = \"red\", left = 1, colour = \"red\" }]\n",
    ),
    (
        "pages/walk.toml",
        "# The walk.\n[[strip]]\nwording = \"LANA\"\n\n[[strip.letter]]\nslot = 1\nchip = \"kelp/L\"\n[[strip.letter]]\nslot = 2\nchip \
         = \"kelp/A\"\n[[strip.letter]]\nslot = 3\nchip = \"oars/N:red\"\n[[strip.letter]]\nslot = 4\nchip = \"kelp/A\"\n",
    ),
];

/// The day of every deed here.
pub(super) const DAY: &str = "2031-11-05";

/// A stash in a folder of its own.
pub(super) struct Stage {
    folder: TempDir,
}

impl Stage {
    pub(super) fn new() -> Self {
        let folder = TempDir::new().unwrap();
        for (name, text) in FILES {
            let path = folder.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }
        Self { folder }
    }

    pub(super) fn path(&self) -> &Path {
        self.folder.path()
    }

    pub(super) fn stash(&self) -> StashFolder {
        StashFolder::at(self.path())
    }

    /// The right to write. Nobody else wants it; but a test beside that starts a program has a copy of every open file,
    /// until that program begins.
    pub(super) fn lock(&self) -> StashLock {
        let by = Instant::now() + Duration::from_secs(30);
        loop {
            match self.stash().ask_to_write().unwrap() {
                Access::Writer(lock) => return lock,
                _ => assert!(Instant::now() < by, "someone else writes here"),
            }
            std::thread::yield_now();
        }
    }

    /// As the next start has it: what was half done is finished.
    pub(super) fn start(&self) -> (StashLock, Loaded) {
        let (stash, lock) = (self.stash(), self.lock());
        let loaded = stash.load().unwrap();
        stash.complete(&lock, &loaded).unwrap();
        let loaded = stash.load().unwrap();
        assert!(loaded.problems.is_empty(), "{}", loaded.problems);
        assert!(loaded.behind.is_empty(), "{:?}", loaded.behind);
        (lock, loaded)
    }

    /// All that is told of the stash after a start: counts, and the plan.
    pub(super) fn seen(&self) -> Seen {
        let (lock, loaded) = self.start();
        let counts = loaded.stash.chips().map(|ix| {
            let chip = loaded.stash.chip(ix);
            (chip.id().to_string(), chip.letter.left)
        });
        let plan = loaded.plans.iter().find(|one| one.file.slug().as_str() == "walk");
        let again = self.stash();
        let twice = again.load().unwrap();
        assert_eq!(again.complete(&lock, &twice).unwrap(), Vec::<String>::new(), "finished once and for all");
        Seen {
            counts: counts.collect(),
            plan: plan.and_then(|one| one.plan.clone()),
            wishes: std::fs::read_to_string(self.path().join("wishes.toml")).ok(),
            files: self.files(),
        }
    }

    /// The names of all files, hidden ones left out.
    fn files(&self) -> Vec<String> {
        let mut names = Vec::new();
        for within in ["", "sheets", "pages", "trials"] {
            let listing = std::fs::read_dir(self.path().join(within)).into_iter().flatten().flatten();
            let files = listing.filter(|entry| entry.file_type().unwrap().is_file());
            names.extend(files.map(|entry| format!("{within}/{}", entry.file_name().into_string().unwrap())));
        }
        names.retain(|name| !name.contains("/."));
        names.sort();
        names
    }
}

/// What a start shows.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Seen {
    pub(super) counts: BTreeMap<String, u16>,
    pub(super) plan: Option<Plan>,
    /// The text of the file.
    pub(super) wishes: Option<String>,
    pub(super) files: Vec<String>,
}

/// A deed without a strip.
pub(super) fn deed(kind: Kind, chips: &[(&str, i32)]) -> Deed {
    let chips = chips.iter().map(|(id, count)| (ChipId::parse(id).unwrap(), *count)).collect();
    Deed { kind, of: None, chips }
}
