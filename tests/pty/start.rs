//! Starting the bench on a copy of the sample.
//!
//! Must not know what is then done there.

use std::path::{Path, PathBuf};

use oddment::files::unpack_sample;
use tempfile::TempDir;

use super::screen::Screen;

/// The usual size.
pub(super) const SIZE: (u16, u16) = (80, 24);

/// Keys as a terminal sends them.
pub(super) const DOWN: &str = "\x1b[B";

/// A stash of its own for one test.
pub(super) struct Desk {
    folder: TempDir,
}

impl Desk {
    /// A copy of the sample.
    pub(super) fn new() -> Self {
        let desk = Self { folder: TempDir::new().unwrap() };
        unpack_sample(&desk.stash()).unwrap();
        desk
    }

    /// The folder of the stash.
    pub(super) fn stash(&self) -> PathBuf {
        self.folder.path().join("stash")
    }

    /// A folder beside it.
    pub(super) fn beside(&self) -> &Path {
        self.folder.path()
    }

    /// The plan's file as it is now.
    pub(super) fn plan(&self) -> String {
        std::fs::read_to_string(self.stash().join("pages/lantern-walk.toml")).unwrap()
    }

    /// The trial's file, if there is one.
    pub(super) fn trial(&self) -> Option<String> {
        std::fs::read_to_string(self.stash().join("trials/lantern-walk.toml")).ok()
    }

    /// The ledger; empty where there is none.
    pub(super) fn ledger(&self) -> String {
        std::fs::read_to_string(self.stash().join("ledger.toml")).unwrap_or_default()
    }

    /// Starts the program on the stash with these arguments.
    pub(super) fn start(&self, args: &[&str]) -> Screen {
        let stash = self.stash();
        let mut all = vec!["--stash", stash.to_str().unwrap()];
        all.extend(args);
        Screen::start(&all, &[], SIZE)
    }

    /// The bench on the plan whose title is still to be made; its third slot is the first empty one.
    pub(super) fn bench(&self) -> Screen {
        let mut screen = self.start(&["lantern-walk"]);
        screen.wait_for_text("slot 3 of 11");
        screen
    }

    /// The same with the best letter swapped into the third slot.
    pub(super) fn changed_bench(&self) -> Screen {
        let mut screen = self.bench();
        screen.keys(DOWN);
        screen.wait_for_text("alternate 1 of");
        screen
    }
}

/// Leaves the bench, and what is not saved.
#[track_caller]
pub(super) fn leave(screen: &mut Screen) {
    screen.keys("q");
    screen.wait_for_text("Save it before leaving?");
    screen.keys("n");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.is_restored(), "{}", screen.contents());
}
