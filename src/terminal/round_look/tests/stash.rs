//! Sheets, taste, ledger and keys, changed by another hand.
//!
//! Must not know the open plan's file.

use super::{KELP, QUAY, Room};
use crate::app::Over;
use crate::terminal::program::Program as _;

#[test]
fn where_nothing_changed_nothing_is_drawn_or_said() {
    let mut room = Room::new();
    assert!(!room.look() && !room.look());
    assert_eq!(room.said(), "");
}

#[test]
fn what_the_program_writes_itself_is_nobody_elses() {
    let mut room = Room::new();
    room.press("home down s");
    assert_eq!(room.said(), "saved as quay");
    assert!(room.text("pages/quay.toml").contains("kelp/A"));
    assert!(!room.look(), "{}", room.said());
    room.press("end down");
    assert!(room.desk.keep_trial().is_some());
    assert!(!room.look(), "{}", room.said());
    room.press("s o k y");
    assert!(room.said().starts_with("stuck down: title 2"), "{}", room.said());
    assert!(!room.look(), "{}", room.said());
    assert_eq!(room.left("kelp/A"), Some(1));
    room.press("o l y");
    assert!(room.said().starts_with("lifted: title 2"), "{}", room.said());
    assert!(!room.look(), "{}", room.said());
    assert_eq!(room.left("kelp/A"), Some(2));
}

#[test]
fn a_sheet_changed_outside_is_taken_in_and_trial_and_history_stay() {
    let mut room = Room::new();
    room.press("home down");
    room.write("sheets/kelp.toml", &KELP.replace("A = 2", "A = 7"));
    room.write("sheets/rope.toml", KELP);
    assert!(!room.desk.look_round(), "a file may be half written at the first look");
    assert!(room.desk.look_round());
    assert_eq!(room.said(), "the stash's files were changed outside: kelp, rope (new); taken in");
    assert_eq!((room.left("kelp/A"), room.left("rope/B")), (Some(7), Some(1)));
    assert!(room.desk.state.strip().letter(0).is_some());
    room.press("u");
    assert!(room.desk.state.strip().letter(0).is_none(), "its history is still there");
    assert!(!room.look());
}

#[test]
fn a_change_that_goes_on_is_let_settle_first() {
    let mut room = Room::new();
    for count in ["3", "4", "5"] {
        room.write("sheets/kelp.toml", &KELP.replace("A = 2", &format!("A = {count}")));
        assert!(!room.desk.look_round());
        assert_eq!(room.left("kelp/A"), Some(2));
    }
    assert!(room.desk.look_round());
    assert_eq!(room.left("kelp/A"), Some(5));
}

#[test]
fn a_file_that_is_only_touched_is_not_told() {
    let mut room = Room::new();
    room.write("sheets/kelp.toml", KELP);
    room.write("pages/quay.toml", QUAY);
    assert!(!room.look(), "{}", room.said());
}

#[test]
fn errors_are_shown_once_for_each_state_of_the_file() {
    let mut room = Room::new();
    room.write("sheets/kelp.toml", &KELP.replace("20 mm", "tall"));
    assert!(room.look());
    assert!(room.page().contains("sheets/kelp.toml:2:10: height"), "{}", room.page());
    assert!(room.said().contains("kelp (has errors)"), "{}", room.said());
    room.press("esc");
    assert!(!room.look());
    assert_eq!(room.page(), "");
    room.write("sheets/kelp.toml", &KELP.replace("20 mm", "high"));
    assert!(room.look());
    assert!(room.page().contains("\"high\""), "{}", room.page());
    room.press("esc");
    room.write("sheets/kelp.toml", KELP);
    assert!(room.look());
    assert_eq!((room.page().as_str(), room.left("kelp/A")), ("", Some(2)));
}

#[test]
fn nothing_comes_between_a_line_that_is_typed_and_its_end() {
    let mut room = Room::new();
    room.press("w");
    room.write("sheets/kelp.toml", "form = 'tile\n");
    assert!(!room.look());
    assert!(matches!(room.desk.state.over, Over::Typing(_)));
    room.press("esc");
    assert!(room.look());
    assert!(room.page().contains("sheets/kelp.toml"), "{}", room.page());
}

#[test]
fn counts_by_hand_are_taken_as_the_ledger_has_it() {
    let mut room = Room::new();
    room.press("home down right down s o k y");
    assert_eq!(room.left("kelp/A"), Some(1), "{}", room.said());
    let sheet = room.text("sheets/kelp.toml");
    assert!(sheet.contains("as_of = 1"), "{sheet}");
    room.write("sheets/kelp.toml", &sheet.replace("A = 1", "A = 6"));
    assert!(room.look());
    assert_eq!(room.left("kelp/A"), Some(6), "the entry is one that the count includes");
    let own: String = sheet.lines().filter(|line| !line.starts_with("as_of")).collect::<Vec<_>>().join("\n");
    room.write("sheets/kelp.toml", &own.replace("A = 1", "A = 9"));
    assert!(room.look());
    assert_eq!(room.left("kelp/A"), Some(9), "without a number the counts are the owner's own");
}

#[test]
fn the_ledger_is_taken_in() {
    let mut room = Room::new();
    room.press("home down right down s o k y");
    let ledger = room.text("ledger.toml");
    // Another hand writes no word of what there was before.
    let bare: Vec<&str> = ledger.lines().filter(|line| !line.starts_with("had")).collect();
    let second = bare.join("\n").replace("number = 1", "number = 2");
    assert_ne!(ledger, second, "{ledger}");
    room.write("ledger.toml", &format!("{ledger}\n{second}"));
    assert!(room.look());
    assert!(room.said().contains("ledger"), "{}", room.said());
    assert_eq!(room.left("kelp/A"), Some(0));
}

#[test]
fn taste_changed_outside_changes_the_colours_of_the_plan_with_it() {
    for changed in [false, true] {
        let mut room = Room::new();
        if changed {
            room.press("home down");
        }
        room.write("taste.toml", "[colours]\nkelp = '#102030'\n");
        assert!(room.look());
        assert_eq!(room.said(), "the stash's files were changed outside: taste; taken in");
        let ground = room.desk.state.trial.plan().page.ground.clone().unwrap();
        assert_eq!(ground.colour.hex(), "#102030");
        assert_eq!(room.desk.state.is_unsaved(), changed);
        room.press("s");
        assert!(room.text("pages/quay.toml").starts_with("ground = 'kelp'   # as the water\n"));
    }
}

#[test]
fn what_is_wrong_with_sheets_on_sale_is_told_when_their_file_changes() {
    let mut room = Room::new();
    room.write(
        "on-sale.toml",
        "[[sheet]]\nform = 'tile'\nheight = '9 mm'\ncolour = 'kelp'\n[sheet.letters]\nA = 4\n",
    );
    assert!(room.look());
    assert_eq!(room.said(), "the stash's files were changed outside: on-sale (new); taken in");
    room.write("on-sale.toml", "[[sheet]]\n");
    assert!(room.look());
    assert!(room.said().contains("on-sale (has errors)"), "{}", room.said());
    assert!(room.page().contains("on-sale.toml:1:1: sheet.form: it is missing"), "{}", room.page());
}

#[test]
fn keys_changed_outside_are_told_to_work_later() {
    let mut room = Room::new();
    room.press("home down");
    room.write("keys.toml", "save = 'f2'\n");
    assert!(room.look());
    assert_eq!(room.said(), "keys.toml was changed: its keys work from the next start");
}

#[test]
fn names_from_the_disk_cannot_command_the_terminal() {
    let mut room = Room::new();
    room.write("sheets/\u{1b}[2J.toml", KELP);
    assert!(room.look());
    assert!(!room.said().contains('\u{1b}') && !room.page().contains('\u{1b}'), "{}", room.said());
}

#[test]
fn of_many_files_a_few_are_named() {
    let mut room = Room::new();
    for number in 0..7 {
        room.write(&format!("sheets/s{number}.toml"), KELP);
    }
    assert!(room.look());
    assert_eq!(
        room.said(),
        "the stash's files were changed outside: s0 (new), s1 (new), s2 (new), s3 (new), 3 more; taken in"
    );
}

#[test]
fn nothing_comes_over_letters_that_are_being_counted() {
    let mut room = Room::new();
    room.press("home down");
    room.press("3 r A A");
    room.write("pages/quay.toml", &QUAY.replace("AB", "BA"));
    room.write("sheets/rope.toml", "form = 'til'\n");
    room.look();
    assert!(matches!(room.desk.state.over, Over::Nothing), "{:?}", room.desk.state.over);
    room.press("ctrl-e down enter tab");
    let counted = |room: &Room| room.desk.state.sheets.counting.as_ref().map(|one| one.tally.run().len());
    assert_eq!(counted(&room), Some(2), "a field changed midway lets no letter go: {}", room.said());
    room.press("B enter");
    assert_eq!((counted(&room), room.left("kelp/B")), (None, Some(1)), "{}", room.said());
    room.look();
    assert!(!matches!(room.desk.state.over, Over::Nothing), "then it is shown");
}

#[test]
fn a_single_letter_that_came_off_goes_back_or_is_spent() {
    for (answer, left, said) in [("y", 2, "lifted: title 1"), ("n", 1, "came off torn, and spent: title 1")] {
        let mut room = Room::new();
        room.press("home down end down s o k y 1 home l");
        assert_eq!(room.left("kelp/A"), Some(1), "{}", room.said());
        room.press(answer);
        assert_eq!((room.left("kelp/A"), room.said()), (Some(left), said));
        let (strip, slot) = (room.desk.state.strip(), room.desk.state.bench.slot);
        assert!(strip.letter(0).is_none() && strip.is_down(1), "only that one came off");
        assert_eq!(slot, 0);
    }
}

#[test]
fn why_nothing_was_counted_is_said_and_the_letters_stay() {
    let mut room = Room::new();
    room.press("3 + A A");
    std::fs::rename(room.path(""), room.temp.path().join("away")).unwrap();
    room.press("enter");
    assert!(room.said().contains("is gone") || room.said().contains("not there"), "{}", room.said());
    let counted = room.desk.state.sheets.counting.as_ref().map(|one| one.tally.run().len());
    assert_eq!(counted, Some(2));
}

#[test]
fn letters_that_were_recorded_before_a_crash_are_not_counted_again() {
    for keys in ["3 + A", "3 r A", "3 - A", "3 a t e a enter A A"] {
        let mut room = Room::new();
        room.press(keys);
        assert!(room.desk.keep_trial().is_some(), "{keys}");
        let kept = room.text("trials/counting.sheet");
        room.press("enter");
        assert!(room.text("ledger.toml").contains("number = 1\n"), "{keys}: {}", room.said());
        assert!(!room.path("trials/counting.sheet").exists(), "{keys}");
        // As if the program had ended right before that was taken away.
        room.write("trials/counting.sheet", &kept);
        let Room { temp, desk } = room;
        drop(desk);
        let folder = crate::files::StashFolder::at(temp.path().join("stash"));
        let desk =
            crate::terminal::desk::Desk::open(folder, Some("quay"), crate::app::Colours::True).unwrap();
        let room = Room { temp, desk };
        assert!(
            room.page().contains("recorded") && room.page().contains("entry 1"),
            "{keys}: {}",
            room.page()
        );
        assert_eq!(room.text("trials/counting.sheet.aside"), kept);
    }
}
