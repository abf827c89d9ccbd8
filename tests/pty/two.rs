//! Two programs on one stash: one writes, all others look on and say so.
//!
//! Must not know the program's insides.

use std::process::Command;

use super::screen::{ODDMENT, Screen};
use super::start::Desk;

/// What the second program says to whoever would change something.
const HELD: &str = "another oddment holds this stash";

/// The bench on the plan whose strips are done.
fn supper(desk: &Desk) -> Screen {
    let mut screen = desk.start(&["quayside-supper"]);
    screen.wait_for_text("QUAYSIDE | SUPPER");
    screen
}

fn sheet(desk: &Desk, name: &str) -> String {
    std::fs::read_to_string(desk.stash().join("sheets").join(name)).unwrap()
}

#[test]
fn the_first_sticks_down_and_the_second_only_looks_on() {
    let desk = Desk::new();
    let mut first = supper(&desk);
    let mut second = supper(&desk);
    assert!(!first.contents().contains("read-only"), "{}", first.contents());
    let head = |screen: &Screen| screen.contents().lines().next().unwrap_or_default().to_owned();
    assert!(head(&second).contains("quayside-supper (read-only)"), "{}", second.contents());
    first.keys("o");
    first.wait_for_text("2. Pull from the sheets");
    first.keys("k");
    first.wait_for_text("Are the letters stuck down?");
    first.keys("y");
    first.wait_for_text("stuck down: title 14, subtitle 13");
    assert!(sheet(&desk, "kelp-caps.toml").contains("S = [{ left = 0 }, { mark = \"coral\", left = 0,"));
    let files = [sheet(&desk, "kelp-caps.toml"), desk.ledger()];
    second.keys("s");
    second.wait_for_text(HELD);
    // The notice goes with the next key.
    second.keys("o");
    second.wait_for(|screen| !screen.contents().contains(HELD));
    for key in ["k", "l"] {
        second.keys(key);
        second.wait_for_text(HELD);
        assert!(!second.contents().contains("Are the letters"), "{}", second.contents());
        second.keys("j");
        second.wait_for(|screen| !screen.contents().contains(HELD));
    }
    second.keys("q");
    assert_eq!(second.exit_code(), 0);
    assert_eq!([sheet(&desk, "kelp-caps.toml"), desk.ledger()], files);
    first.keys("q");
    assert_eq!(first.exit_code(), 0);
}

#[test]
fn a_command_beside_an_open_bench_is_told_who_holds_the_stash() {
    let desk = Desk::new();
    let mut screen = supper(&desk);
    let before = sheet(&desk, "kelp-caps.toml");
    let count = || {
        let mut command = Command::new(ODDMENT);
        command.args(["count", "kelp-caps", "A", "--stash"]).arg(desk.stash()).env_clear();
        command.output().unwrap()
    };
    let told = count();
    assert_eq!(told.status.code(), Some(3));
    assert_eq!(
        (String::from_utf8(told.stdout).unwrap().as_str(), String::from_utf8(told.stderr).unwrap().as_str()),
        ("", "oddment: another oddment holds this stash; leave it there, then try again\n")
    );
    assert_eq!((sheet(&desk, "kelp-caps.toml"), desk.ledger()), (before, String::new()));
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert_eq!(count().status.code(), Some(0));
}
