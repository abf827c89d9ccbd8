//! The bench on a real stash whose files other hands change between two looks.
//!
//! Must not know a terminal, and waits for no clock: a look is made by calling it.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod folder;
mod order;
mod plan;
mod stash;
mod wordings;

use std::fs;
use std::path::PathBuf;

use tempfile::TempDir;

use super::super::desk::Desk;
use super::super::program::{Flow, Program as _};
use crate::app::{Colours, Input, Key, Over, Question};
use crate::files::StashFolder;
use crate::stash::ChipId;

const KELP: &str = "form = 'tile'\nheight = '20 mm'\ncolour = 'kelp'\n[letters]\nA = 2\nB = 1\n";
const TASTE: &str = "[colours]\nkelp = '#35a79c'\n";
const QUAY: &str = "ground = 'kelp'   # as the water\n[[strip]]\nwording = 'AB'\n";

/// A stash with one sheet and one plan, open on that plan.
struct Room {
    temp: TempDir,
    desk: Desk,
}

impl Room {
    fn new() -> Self {
        let temp = TempDir::new().unwrap();
        for (name, text) in [("sheets/kelp.toml", KELP), ("taste.toml", TASTE), ("pages/quay.toml", QUAY)] {
            write(&temp.path().join("stash"), name, text);
        }
        let desk = open(&temp);
        Self { temp, desk }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.temp.path().join("stash").join(name)
    }

    fn write(&self, name: &str, text: &str) {
        write(&self.temp.path().join("stash"), name, text);
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    fn press(&mut self, keys: &str) -> Flow {
        press(&mut self.desk, keys)
    }

    /// Two looks: what has changed is settled by the second.
    fn look(&mut self) -> bool {
        let first = self.desk.look_round();
        self.desk.look_round() || first
    }

    fn said(&self) -> &str {
        said(&self.desk)
    }

    fn left(&self, chip: &str) -> Option<u16> {
        let stash = &self.desk.state.shelf.stash;
        stash.find(&ChipId::parse(chip).unwrap()).map(|chip| stash.chip(chip).letter.left)
    }

    fn wording(&self) -> &str {
        self.desk.state.strip().wording().text()
    }

    fn asks(&self) -> bool {
        matches!(self.desk.state.over, Over::Question(Question::TakeFile(_)))
    }

    fn page(&self) -> String {
        match &self.desk.state.over {
            Over::Page(_, scroll) => scroll.lines.join(" "),
            _ => String::new(),
        }
    }
}

fn write(stash: &std::path::Path, name: &str, text: &str) {
    let path = stash.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

fn open(temp: &TempDir) -> Desk {
    let folder = StashFolder::at(temp.path().join("stash"));
    let mut desk = Desk::open(folder, Some("quay"), Colours::True).unwrap();
    let _ = desk.input(Input::Resize { columns: 80, rows: 24 });
    assert!(!desk.look_round(), "{}", said(&desk));
    desk
}

fn press(desk: &mut Desk, keys: &str) -> Flow {
    for key in keys.split_whitespace() {
        for effect in desk.input(Input::Key(Key::parse(key).unwrap())) {
            if desk.effect(effect) == Flow::End {
                return Flow::End;
            }
        }
    }
    Flow::On
}

fn said(desk: &Desk) -> &str {
    desk.state.notice.as_ref().map_or("", |notice| notice.text.as_str())
}
