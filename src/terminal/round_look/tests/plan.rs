//! The open plan's file, changed or taken away by another hand.
//!
//! Must not know other files.

use std::fs;

use super::{QUAY, Room};
use crate::app::{Colours, Over, Question, Then};
use crate::files::StashFolder;
use crate::terminal::desk::Desk;
use crate::terminal::program::{Flow, Program as _};

#[test]
fn the_plans_file_is_opened_anew_where_the_trial_has_nothing_of_its_own() {
    let mut room = Room::new();
    room.press("right");
    room.write("pages/quay.toml", &QUAY.replace("AB", "BA AB"));
    assert!(room.look());
    assert_eq!(room.said(), "the plan was changed outside; it is opened anew");
    assert_eq!((room.wording(), room.desk.state.bench.slot), ("BA AB", 1));
    assert!(!room.desk.state.is_unsaved() && !room.look());
    // At once where it is about to be saved.
    room.write("pages/quay.toml", QUAY);
    room.press("s");
    assert_eq!(room.said(), "the plan was changed outside; it is opened anew");
    assert_eq!(room.text("pages/quay.toml"), QUAY);
    room.press("s");
    assert_eq!(room.said(), "saved as quay");
}

#[test]
fn comments_written_into_the_plan_outside_are_no_matter_and_stay() {
    let mut room = Room::new();
    room.press("home down");
    room.write("pages/quay.toml", &format!("# seen by the harbour master\n{QUAY}"));
    assert!(!room.desk.look_round());
    room.desk.look_round();
    assert!(!room.asks());
    room.press("s");
    assert_eq!(room.said(), "saved as quay");
    let text = room.text("pages/quay.toml");
    assert!(text.starts_with("# seen by the harbour master\n") && text.contains("kelp/A"), "{text}");
}

#[test]
fn where_both_changed_it_is_asked_and_the_files_can_be_taken() {
    let mut room = Room::new();
    room.press("home down");
    room.write("pages/quay.toml", &QUAY.replace("AB", "BBB"));
    assert!(room.look());
    assert!(room.asks());
    assert_eq!(room.wording(), "AB");
    room.press("y");
    assert_eq!(room.wording(), "BBB");
    assert_eq!(room.said(), "the file's plan is opened; yours is set aside as trials/quay.toml.aside");
    assert!(room.text("trials/quay.toml.aside").contains("kelp/A"));
    assert_eq!(room.text("pages/quay.toml"), QUAY.replace("AB", "BBB"));
    assert!(!room.look() && !room.desk.state.is_unsaved());
}

#[test]
fn where_both_changed_mine_can_be_kept_and_is_then_saved_over() {
    let mut room = Room::new();
    room.press("home down");
    let theirs = format!("# theirs\n{}", QUAY.replace("AB", "BBB"));
    room.write("pages/quay.toml", &theirs);
    room.look();
    room.press("n");
    assert_eq!(room.said(), "this trial goes on; saving it writes over what its file says now");
    assert_eq!(room.text("pages/quay.toml"), theirs);
    assert!(!room.look() && !room.asks());
    room.press("s");
    assert_eq!(room.said(), "saved as quay");
    let text = room.text("pages/quay.toml");
    assert!(text.starts_with("# theirs\n") && text.contains("AB") && !text.contains("BBB"), "{text}");
}

#[test]
fn turned_away_it_is_asked_again_at_every_saving() {
    let mut room = Room::new();
    room.press("home down");
    let theirs = QUAY.replace("AB", "BBB");
    room.write("pages/quay.toml", &theirs);
    room.look();
    room.press("esc");
    assert!(!room.look() && !room.asks(), "not again by itself");
    for keys in ["s", "ctrl-s"] {
        room.press(keys);
        assert!(room.asks());
        room.press("esc");
        assert_eq!(room.text("pages/quay.toml"), theirs);
    }
    room.press("s n");
    assert_eq!(room.said(), "saved as quay");
    assert!(room.text("pages/quay.toml").contains("kelp/A"));
}

#[test]
fn a_change_that_was_not_seen_before_saving_is_asked_about_then() {
    let mut room = Room::new();
    room.press("home down");
    let theirs = QUAY.replace("AB", "BBB");
    room.write("pages/quay.toml", &theirs);
    assert_eq!(room.press("q y"), Flow::On);
    assert!(matches!(&room.desk.state.over, Over::Question(Question::TakeFile(Some(Then::Leave)))));
    assert_eq!(room.text("pages/quay.toml"), theirs);
    assert_eq!(room.press("n"), Flow::End, "kept, saved and left");
    assert!(room.text("pages/quay.toml").contains("kelp/A"));
}

#[test]
fn nothing_is_stuck_down_that_was_not_seen() {
    let mut room = Room::new();
    room.press("home down right down s");
    let saved = room.text("pages/quay.toml");
    room.press("o k");
    room.write("pages/quay.toml", &saved.replace("kelp/B", "kelp/A"));
    room.press("y");
    assert_eq!(room.said(), "the plan was changed outside; it is opened anew");
    assert!(!room.path("ledger.toml").exists());
}

#[test]
fn nothing_is_stuck_down_where_both_changed_until_that_is_answered() {
    let mut room = Room::new();
    room.press("home down right down");
    let theirs = QUAY.replace("AB", "BBB");
    room.write("pages/quay.toml", &theirs);
    room.press("o k y");
    assert!(room.asks());
    assert_eq!((room.text("pages/quay.toml"), room.path("ledger.toml").exists()), (theirs, false));
    room.press("n o k y");
    assert!(room.said().starts_with("stuck down: title 2"), "{}", room.said());
}

#[test]
fn the_same_change_on_both_sides_is_as_good_as_saved() {
    let mut room = Room::new();
    room.press("home down");
    let mut other = Room::new();
    other.press("home down s");
    room.write("pages/quay.toml", &other.text("pages/quay.toml"));
    room.look();
    assert!(!room.asks() && !room.desk.state.is_unsaved());
}

#[test]
fn a_plan_file_with_errors_is_told_and_never_written_over() {
    let mut room = Room::new();
    room.press("home down");
    let theirs = format!("{QUAY}tall = 'x'\n");
    room.write("pages/quay.toml", &theirs);
    assert!(room.look());
    assert!(room.page().contains("pages/quay.toml:4"), "{}", room.page());
    assert_eq!(room.said(), "the plan's file has errors now; this trial goes on without it");
    room.press("esc s");
    assert!(room.said().contains("tall"), "{}", room.said());
    assert_eq!(room.text("pages/quay.toml"), theirs);
    room.write("pages/quay.toml", QUAY);
    room.look();
    room.press("s");
    assert_eq!(room.said(), "saved as quay");
}

#[test]
fn a_plan_file_that_is_gone_is_told_and_then_written_anew() {
    for look in [false, true] {
        let mut room = Room::new();
        fs::remove_file(room.path("pages/quay.toml")).unwrap();
        if look {
            assert!(room.look());
        } else {
            room.press("s");
        }
        assert_eq!(room.said(), "the file of quay is gone; saving (s) writes it anew");
        assert!(!room.path("pages/quay.toml").exists());
        assert!(room.desk.is_unkept(), "the trial is the only copy");
        assert!(!room.look());
        room.press("s");
        assert_eq!(room.said(), "saved as quay");
        assert!(room.text("pages/quay.toml").contains("AB"));
        assert!(!room.look() && !room.desk.is_unkept());
    }
}

#[test]
fn a_plan_file_that_comes_back_is_as_if_it_had_not_been_gone() {
    let mut room = Room::new();
    fs::remove_file(room.path("pages/quay.toml")).unwrap();
    room.look();
    room.write("pages/quay.toml", QUAY);
    room.look();
    assert!(!room.asks() && !room.desk.state.is_unsaved());
}

#[test]
fn a_plan_that_lies_elsewhere_is_looked_at_too() {
    let room = Room::new();
    let path = room.temp.path().join("beside.toml");
    fs::write(&path, QUAY).unwrap();
    let folder = StashFolder::at(room.path(""));
    drop(room.desk);
    let mut desk = Desk::open(folder, path.to_str(), Colours::True).unwrap();
    assert!(!desk.look_round() && !desk.look_round());
    fs::write(&path, QUAY.replace("AB", "BAB")).unwrap();
    desk.look_round();
    assert!(desk.look_round());
    assert_eq!(desk.state.strip().wording().text(), "BAB");
    fs::write(&path, "[[strip]]\nwording = 3\n").unwrap();
    desk.look_round();
    assert!(desk.look_round());
    assert!(
        matches!(&desk.state.over, Over::Page(_, scroll) if scroll.lines.join(" ").contains("beside.toml:2"))
    );
}
