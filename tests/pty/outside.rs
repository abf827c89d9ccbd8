//! Files of the stash that another hand changes while the program is open.
//!
//! Must not know the program's insides.

use super::start::Desk;

#[test]
fn an_idle_program_sees_a_sheet_that_an_editor_changed() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    let sheet = desk.stash().join("sheets/net-floats.toml");
    let text = std::fs::read_to_string(&sheet).unwrap();
    std::fs::write(&sheet, text.replace("C = 2", "C = 5")).unwrap();
    screen.wait_for_text("the stash's files were changed outside: net-floats; taken in");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn a_plan_changed_on_both_sides_is_asked_about_before_it_is_saved() {
    let desk = Desk::new();
    let mut screen = desk.changed_bench();
    let path = desk.stash().join("pages/lantern-walk.toml");
    let theirs = desk.plan().replace("\"6 mm\"", "\"8 mm\"");
    std::fs::write(&path, &theirs).unwrap();
    screen.keys("s");
    screen.wait_for_text("The plan's file was changed outside");
    screen.wait_for_text("unknown keys stay.");
    assert_eq!(desk.plan(), theirs);
    screen.keys("y");
    screen.wait_for_text("yours is set aside as trials/lantern-walk.toml.aside");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert_eq!(desk.plan(), theirs);
    let aside = std::fs::read_to_string(desk.stash().join("trials/lantern-walk.toml.aside")).unwrap();
    assert!(aside.contains("net-floats/N"), "{aside}");
}

#[test]
fn what_changes_while_the_program_is_suspended_is_seen_when_it_goes_on() {
    let desk = Desk::new();
    let mut screen = desk.bench();
    screen.signal("STOP");
    let sheet = desk.stash().join("sheets/net-floats.toml");
    std::fs::write(&sheet, "form = 'tile\n").unwrap();
    screen.signal("CONT");
    screen.wait_for_text("sheets/net-floats.toml");
    screen.keys("qq");
    assert_eq!(screen.exit_code(), 0);
}
