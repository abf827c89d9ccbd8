//! The page's view on the real terminal: the search for resting places runs between keys, strips are carried and put back.
//!
//! Must not know the program's insides: only its screen.

use super::start::{Desk, leave};

#[test]
fn a_strip_is_sent_to_rest_carried_and_taken_back() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    screen.keys("2");
    screen.wait_for_text("checks of the place");
    screen.keys("n");
    screen.wait_for_text("resting place 1 of");
    screen.keys("n");
    screen.wait_for_text("resting place 2 of");
    // Shift and an arrow, as most terminals report them; and the key for those that do not.
    screen.keys("\x1b[1;2C");
    screen.wait_for_text("the title's feet:");
    screen.keys("J");
    screen.wait_for_text("(not saved)");
    screen.keys("uuu");
    screen.wait_for_text("taken back; 0 more");
    leave(&mut screen);
}

#[test]
fn a_photo_is_added_and_saved_with_the_plan() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    screen.keys("2a");
    screen.wait_for_text("Add: what, size, colours");
    screen.keys("photo 60 x 40 coral called ferry\r");
    screen.wait_for_text("ferry: ");
    screen.keys("s");
    screen.wait_for_text("saved as");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(desk.plan().contains("name = \"ferry\"\nkind = \"photo\"\n"), "{}", desk.plan());
}
