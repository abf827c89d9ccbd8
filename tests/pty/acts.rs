//! Acts on the real screen that leave something behind: a click, the sample taken.
//!
//! Must not know the program's insides: only its screen and its files.

use std::ffi::OsStr;

use super::screen::Screen;
use super::start::{Desk, SIZE, leave};

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
fn an_empty_stash_offers_the_sample() {
    let desk = Desk::new();
    let empty = desk.beside().join("empty");
    let args = [OsStr::new("--stash"), empty.as_os_str()];
    let mut screen = Screen::start(&args, &[("TMPDIR", desk.beside().as_os_str())], SIZE);
    screen.wait_for_text("try the program on a sample stash");
    screen.keys("y");
    screen.wait_for_text("slot 3 of 11");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.contents().starts_with("The sample is in "), "{}", screen.contents());
}

#[test]
fn a_stash_named_by_the_environment_does_not_keep_from_the_sample() {
    let desk = Desk::new();
    let env: [(&str, &OsStr); 2] =
        [("TMPDIR", desk.beside().as_os_str()), ("ODDMENT_STASH", OsStr::new("/nowhere"))];
    let mut screen = Screen::start(&["--sample"], &env, SIZE);
    screen.wait_for_text("slot 3 of 11");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}
