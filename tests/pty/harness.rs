//! The pseudo-terminal itself, tried with a shell: a test on it must be able to see, and to miss, what it looks for.
//!
//! Must not start the program under test.

use super::screen::Screen;

/// A shell on a screen of 80 x 24.
fn shell(script: &str) -> Screen {
    Screen::start_in_shell(script, &[], (80, 24))
}

#[test]
fn keys_go_in_and_the_screen_and_the_code_come_out() {
    let mut screen = shell("echo lantern; read word; echo \"said $word\"; exit 7");
    screen.wait_for_text("lantern");
    screen.keys("walk\r");
    screen.wait_for_text("said walk");
    assert_eq!(screen.exit_code(), 7);
    assert_eq!(screen.contents(), "lantern\nwalk\nsaid walk");
}

#[test]
fn a_size_reaches_the_terminal() {
    let mut screen = shell("stty size; read word; stty size");
    screen.wait_for_text("24 80");
    screen.resize(140, 45);
    screen.keys("\r");
    screen.wait_for_text("45 140");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn a_signal_reaches_the_program() {
    let mut screen =
        Screen::start_program("sh", &["-c", "trap 'exit 9' TERM; echo ready; read word"], &[], (80, 24));
    screen.wait_for_text("ready");
    screen.signal("TERM");
    // A shell that is reading may look at its signal only after the line.
    screen.keys("\r");
    assert_eq!(screen.exit_code(), 9);
}

#[test]
fn modes_left_on_are_seen() {
    for mode in ["1049h", "25l", "2004h", "1002h"] {
        let mut screen = shell(&format!("printf '\\033[?{mode}on'; read word"));
        screen.wait_for(|emulated| emulated.contents().contains("on"));
        assert!(!screen.is_restored(), "{mode}");
        screen.paste("x");
        screen.keys("\r");
        assert_eq!(screen.exit_code(), 0);
    }
    let mut screen = shell("echo on");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.is_restored());
    assert!(!screen.emulated().hide_cursor());
}

#[test]
#[should_panic(expected = "before the screen was as asked")]
fn what_never_shows_is_missed() {
    shell("echo lantern").wait_for_text("harbour");
}
