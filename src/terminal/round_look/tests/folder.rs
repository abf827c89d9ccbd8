//! The whole folder gone, back, or another; and a second program on the same one.
//!
//! Must not know what changes in its files.

use std::fs;

use super::{KELP, QUAY, Room, TASTE, open, press, said};
use crate::app::ReadOnly;
use crate::stash::ChipId;
use crate::terminal::program::{Flow, Program as _};

#[test]
fn with_the_whole_folder_gone_nothing_is_lost_and_nothing_made_anew() {
    let mut room = Room::new();
    room.press("home down");
    assert!(room.desk.keep_trial().is_some());
    let (stash, away) = (room.path(""), room.temp.path().join("away"));
    fs::rename(&stash, &away).unwrap();
    assert!(room.desk.look_round());
    assert!(room.said().contains("is gone, or empty; put it back where it was"), "{}", room.said());
    assert_eq!(room.left("kelp/A"), Some(2), "the stash stays in mind");
    assert!(!room.look(), "told once");
    assert!(room.desk.is_unkept());
    let refuge = room.desk.keep_trial().unwrap();
    assert!(room.said().contains(&refuge.display().to_string()), "{}", room.said());
    assert!(fs::read_to_string(&refuge).unwrap().contains("kelp/A"));
    room.press("s");
    assert!(room.said().starts_with("nothing is saved: "), "{}", room.said());
    room.press("o s esc");
    assert_eq!(room.press("q y"), Flow::On);
    assert!(!stash.exists(), "no half folder");
    fs::rename(&away, &stash).unwrap();
    assert!(room.look());
    assert_eq!(room.said(), "the stash's folder can be read again");
    assert!(room.desk.keep_trial().is_some_and(|kept| kept.starts_with(&stash)));
    assert!(!refuge.exists());
    room.press("s");
    assert_eq!(room.said(), "saved as quay");
    assert!(room.text("pages/quay.toml").contains("kelp/A"));
}

#[test]
fn a_folder_gone_since_the_last_look_takes_no_trial_either() {
    let mut room = Room::new();
    room.press("home down");
    fs::remove_dir_all(room.path("")).unwrap();
    let refuge = room.desk.keep_trial().unwrap();
    assert!(!refuge.starts_with(room.temp.path()) && !room.path("").exists());
    fs::create_dir_all(room.path("")).unwrap();
    assert!(room.look(), "an empty folder, as of a disk that is not there, is told");
    assert!(room.said().contains("is gone, or empty"), "{}", room.said());
    room.press("d q n");
    assert!(!refuge.exists(), "let go on purpose");
}

#[test]
fn another_folder_in_the_place_of_the_first_is_locked_anew() {
    let mut room = Room::new();
    let (stash, away) = (room.path(""), room.temp.path().join("away"));
    fs::rename(&stash, &away).unwrap();
    for (name, text) in [("sheets/kelp.toml", KELP), ("taste.toml", TASTE), ("pages/quay.toml", QUAY)] {
        room.write(name, text);
    }
    let other = open(&room.temp);
    assert!(other.state.file.read_only.is_none(), "nobody holds the new folder yet");
    room.look();
    assert_eq!(room.desk.state.file.read_only, Some(ReadOnly::Held));
    assert_eq!(room.said(), ReadOnly::Held.told());
}

#[test]
fn a_second_program_that_only_looks_sees_what_the_first_counts() {
    let mut room = Room::new();
    let mut second = open(&room.temp);
    assert_eq!(second.state.file.read_only, Some(ReadOnly::Held));
    room.press("home down right down s o k y");
    second.look_round();
    assert!(second.look_round());
    assert!(said(&second).contains("kelp") && said(&second).contains("ledger (new)"), "{}", said(&second));
    let stash = &second.state.shelf.stash;
    let chip = stash.find(&ChipId::parse("kelp/A").unwrap()).unwrap();
    assert_eq!(stash.chip(chip).letter.left, 1);
    assert_eq!(second.state.strip().stuck, Some(1), "and the plan as it is now");
    assert!(!second.look_round());
}

#[test]
fn a_second_program_with_a_trial_of_its_own_goes_on_with_it() {
    let mut room = Room::new();
    let mut second = open(&room.temp);
    press(&mut second, "end down");
    room.press("home down s");
    second.look_round();
    second.look_round();
    assert!(said(&second).contains("this trial goes on from what it was before"), "{}", said(&second));
    assert!(second.state.strip().letter(1).is_some());
}
