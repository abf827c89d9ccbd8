//! Working on the bench: swap, nudge, save, size, suspension, paste, two programs at once.
//!
//! Must not know the program's insides: only its screen and its files.

use std::ffi::OsStr;

use super::screen::Screen;
use super::start::{DOWN, Desk, RIGHT, SIZE, leave};

/// Whether every line of `old` stands in `new`, in the same order.
fn keeps_every_line(old: &str, new: &str) -> bool {
    let mut lines = new.lines();
    old.lines().all(|line| lines.any(|other| other == line))
}

#[test]
fn a_letter_is_swapped_nudged_and_saved_and_comments_stay() {
    let desk = Desk::new();
    let before = desk.plan();
    let mut screen = desk.changed_bench();
    assert!(screen.emulated().alternate_screen() && screen.emulated().bracketed_paste());
    screen.wait_for_text("lantern-walk (not saved)");
    screen.keys("..");
    screen.wait_for_text("nudge 1.0 mm");
    screen.keys("s");
    screen.wait_for_text("saved as lantern-walk");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.is_restored(), "{}", screen.contents());
    let after = desk.plan();
    assert!(keeps_every_line(&before, &after), "{after}");
    let fresh: Vec<&str> = after.lines().filter(|line| !before.lines().any(|old| old == *line)).collect();
    assert_eq!(fresh, ["slot = 3", "for = \"N\"", "chip = \"net-floats/N\"", "nudge = \"1 mm\""]);
    assert_eq!(desk.trial(), None);
}

#[test]
fn another_size_is_drawn_and_nothing_is_lost() {
    let desk = Desk::new();
    let mut screen = desk.changed_bench();
    screen.resize(59, 17);
    screen.wait_for_text("this is 59 x 17.");
    screen.resize(140, 45);
    screen.wait_for_text("slot 3 of 11");
    screen.wait_for(|screen| screen.rows(0, 140).nth(44).is_some_and(|row| row.contains("q quit")));
    screen.keys(RIGHT);
    screen.wait_for_text("slot 4 of 11");
    screen.wait_for_text("(not saved)");
    leave(&mut screen);
}

#[test]
fn suspended_it_gives_the_screen_back_and_keeps_the_trial() {
    let desk = Desk::new();
    let stash = desk.stash();
    let script = "\"$ODDMENT\" --stash \"$STASH\" lantern-walk; echo stopped $?; read x; fg; echo done $?";
    let mut screen = Screen::start_in_shell(script, &[("STASH", stash.as_os_str())], SIZE);
    screen.wait_for_text("slot 3 of 11");
    screen.keys(DOWN);
    screen.wait_for_text("alternate 1 of");
    screen.keys("\x1a");
    screen.wait_for_text("stopped");
    assert!(screen.is_restored());
    assert!(desk.trial().is_some_and(|trial| trial.contains("net-floats/N")), "{:?}", desk.trial());
    screen.keys("\r");
    screen.wait_for_text("slot 3 of 11");
    screen.wait_for(vt100::Screen::alternate_screen);
    screen.keys("q");
    screen.wait_for_text("Save it before leaving?");
    screen.keys("n");
    screen.wait_for_text("done 0");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.is_restored());
}

#[test]
fn what_is_left_unsaved_on_purpose_is_not_offered_again() {
    let desk = Desk::new();
    let before = desk.plan();
    let mut screen = desk.changed_bench();
    leave(&mut screen);
    assert_eq!(desk.trial(), None);
    assert_eq!(desk.plan(), before);
}

#[test]
fn a_paste_is_text() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    screen.paste("dq");
    screen.wait_for_text("a paste is text");
    screen.keys("w\x15");
    screen.wait_for_text("Wording (|");
    screen.paste("QUAY\rLAMPS\r");
    screen.wait_for_text("QUAY|LAMPS");
    screen.keys("\r");
    screen.wait_for_text("QUAY | LAMPS   slot");
    leave(&mut screen);
}

#[test]
fn a_click_stands_a_chip() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    // The chip in brackets is the first N; it is pressed with the mouse's main button (xterm's mode 1006).
    let contents = screen.contents();
    let row = contents.lines().position(|line| line.starts_with("[N]")).unwrap();
    screen.keys(&format!("\x1b[<0;2;{}M\x1b[<0;2;{}m", row + 1, row + 1));
    screen.wait_for_text("(not saved)");
    screen.wait_for_text("slot 5 of 11");
    leave(&mut screen);
}

#[test]
fn a_second_program_on_the_stash_only_reads_and_says_so() {
    let desk = Desk::new();
    let before = desk.plan();
    let mut first = desk.bench();
    let mut second = desk.start(&["lantern-walk"]);
    second.wait_for_text("(read-only: another oddment holds the stash)");
    second.keys(DOWN);
    second.wait_for_text("alternate 1 of");
    second.keys("s");
    second.wait_for_text("here it is read-only");
    second.keys("q");
    assert_eq!(second.exit_code(), 0);
    assert_eq!((desk.plan(), desk.trial()), (before, None));
    first.keys("q");
    assert_eq!(first.exit_code(), 0);
    let mut third = desk.bench();
    assert!(!third.contents().contains("read-only"), "{}", third.contents());
    third.keys("q");
    assert_eq!(third.exit_code(), 0);
}

#[test]
fn the_order_is_shown_and_written() {
    let desk = Desk::new();
    let mut screen = desk.start(&["quayside-supper"]);
    screen.wait_for_text("QUAYSIDE | SUPPER");
    screen.keys("o");
    screen.wait_for_text("Placement order for Quayside supper");
    screen.keys("s");
    screen.wait_for_text("written to");
    let written = std::fs::read_to_string(desk.stash().join("orders/quayside-supper.txt")).unwrap();
    assert!(written.starts_with("Placement order for Quayside supper\n"), "{written}");
    screen.keys("qq");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn the_sample_is_scratch_and_its_place_is_told() {
    let desk = Desk::new();
    let env: [(&str, &OsStr); 2] =
        [("TMPDIR", desk.beside().as_os_str()), ("ODDMENT_STASH", OsStr::new("/nowhere"))];
    let mut screen = Screen::start(&["--sample"], &env, SIZE);
    screen.wait_for_text("slot 3 of 11");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.contents().starts_with("The sample is in "), "{}", screen.contents());
}

#[test]
fn an_empty_stash_offers_the_sample() {
    let desk = Desk::new();
    let empty = desk.beside().join("empty");
    let args = [OsStr::new("--stash"), empty.as_os_str()];
    let mut screen = Screen::start(&args, &[("TMPDIR", desk.beside().as_os_str())], SIZE);
    screen.wait_for_text("Try the program on a sample stash?");
    screen.keys("y");
    screen.wait_for_text("slot 3 of 11");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.contents().starts_with("The sample is in "), "{}", screen.contents());
}

#[test]
fn a_dumb_terminal_is_refused() {
    let mut screen = Screen::start(&["--sample"], &[("TERM", OsStr::new("dumb"))], SIZE);
    assert_eq!(screen.exit_code(), 2);
    assert!(screen.contents().contains("this terminal calls itself \"dumb\""), "{}", screen.contents());
    assert!(screen.is_restored());
}
