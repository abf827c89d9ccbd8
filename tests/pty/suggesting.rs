//! Suggestions on the real terminal: the search runs between keys, is looked through, taken, taken back.
//!
//! Must not know the program's insides: only its screen.

use super::start::{Desk, leave};

#[test]
fn a_suggestion_comes_up_by_itself_and_is_taken_and_taken_back() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    screen.keys("n");
    screen.wait_for_text("is the best there is");
    screen.wait_for_text("as suggested");
    screen.keys("n");
    screen.wait_for_text("suggestion 2 of 5");
    screen.keys("\r");
    screen.wait_for_text("suggestion taken");
    screen.wait_for_text("(not saved)");
    screen.keys("u");
    screen.wait_for_text("taken back; 0 more");
    leave(&mut screen);
}

#[test]
fn why_not_is_answered_and_closing_it_ends_the_work() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    screen.keys("\r");
    screen.wait_for_text("letters that could stand here");
    screen.keys("w");
    screen.wait_for_text("the best mix with it here scores");
    screen.keys("\x1b");
    screen.wait_for_text("checks:");
    screen.keys("m");
    screen.wait_for_text("what one more letter would do");
    screen.wait_for_text("is the best there is");
    screen.keys("\x1b");
    screen.wait_for_text("checks:");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}
