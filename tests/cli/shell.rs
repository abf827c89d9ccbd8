//! A copy of the sample stash, and commands run on it.
//!
//! Must not know any command.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use oddment::files::unpack_sample;
use tempfile::TempDir;

/// A stash of its own for one test.
pub(super) struct Stash {
    folder: TempDir,
}

/// How a command ended.
#[derive(Debug)]
pub(super) struct Told {
    pub(super) code: i32,
    pub(super) out: String,
    pub(super) err: String,
}

impl Stash {
    /// A copy of the sample.
    pub(super) fn sample() -> Self {
        let folder = TempDir::new().unwrap();
        unpack_sample(&folder.path().join("stash")).unwrap();
        Self { folder }
    }

    /// A folder that is not there yet.
    pub(super) fn nowhere() -> Self {
        Self { folder: TempDir::new().unwrap() }
    }

    /// Where the stash is.
    pub(super) fn path(&self) -> PathBuf {
        self.folder.path().join("stash")
    }

    /// Runs `oddment ARGS --stash THIS`.
    pub(super) fn run(&self, args: &[&str]) -> Told {
        let mut command = oddment(args);
        command.arg("--stash").arg(self.path());
        told(command)
    }

    /// The text of a file of the stash.
    pub(super) fn read(&self, file: &str) -> String {
        std::fs::read_to_string(self.path().join(file)).unwrap()
    }

    /// Writes a file of the stash.
    pub(super) fn write(&self, file: &str, text: impl AsRef<[u8]>) {
        std::fs::write(self.path().join(file), text).unwrap();
    }
}

/// The program with these arguments and the plainest environment.
pub(super) fn oddment<A: AsRef<OsStr>>(args: &[A]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_oddment"));
    command.args(args).env_clear().current_dir(std::env::temp_dir());
    command
}

/// Runs a command to its end.
pub(super) fn told(mut command: Command) -> Told {
    let Output { status, stdout, stderr } = command.output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    Told { code: status.code().unwrap(), out: text(stdout), err: text(stderr) }
}

/// A file of the repository.
pub(super) fn of_repository(path: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap()
}
