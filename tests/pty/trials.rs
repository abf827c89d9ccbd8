//! Trials: kept at ends that nobody chose, offered again, taken or let go for good.
//!
//! Must not know the program's insides.

use super::start::{Desk, leave};

#[test]
fn a_signal_restores_the_screen_and_keeps_the_trial() {
    for (signal, code) in [("TERM", 143), ("HUP", 129), ("INT", 130)] {
        let desk = Desk::new();
        let before = desk.plan();
        let mut screen = desk.changed_bench();
        screen.signal(signal);
        assert_eq!(screen.exit_code(), code, "{signal}");
        assert!(screen.is_restored(), "{signal}: {}", screen.contents());
        assert!(desk.trial().is_some_and(|trial| trial.contains("net-floats/N")), "{signal}");
        assert_eq!(desk.plan(), before, "{signal}");
    }
}

/// A desk whose program was ended by a signal with a letter stood and not saved.
fn ended_by_a_signal() -> Desk {
    let desk = Desk::new();
    let mut screen = desk.changed_bench();
    screen.signal("TERM");
    assert_eq!(screen.exit_code(), 143);
    desk
}

#[test]
fn the_next_start_offers_the_trial_and_takes_it() {
    let desk = ended_by_a_signal();
    // Also without a word of which plan it was.
    let mut screen = desk.start(&[]);
    screen.wait_for_text("Go on with it?");
    screen.keys("y");
    screen.wait_for_text("gone on with the kept trial; it is not saved yet");
    screen.keys("s");
    screen.wait_for_text("saved as lantern-walk");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(desk.plan().contains("chip = \"net-floats/N\""), "{}", desk.plan());
    assert_eq!(desk.trial(), None);
}

#[test]
fn a_trial_can_be_let_go() {
    let desk = ended_by_a_signal();
    let mut screen = desk.start(&["lantern-walk"]);
    screen.wait_for_text("Go on with it?");
    screen.keys("n");
    screen.wait_for(|screen| !screen.contents().contains("Go on with it?"));
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert_eq!(desk.trial(), None);
}

#[test]
fn a_taken_trial_left_unsaved_on_purpose_is_gone() {
    let desk = ended_by_a_signal();
    let mut screen = desk.start(&["lantern-walk"]);
    screen.wait_for_text("Go on with it?");
    screen.keys("y");
    screen.wait_for_text("gone on with the kept trial");
    leave(&mut screen);
    assert_eq!(desk.trial(), None);
}

#[test]
fn a_terminal_gone_keeps_the_trial() {
    let desk = Desk::new();
    let mut screen = desk.changed_bench();
    screen.hang_up();
    assert_eq!(screen.exit_code(), 129);
    assert!(desk.trial().is_some_and(|trial| trial.contains("net-floats/N")));
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
