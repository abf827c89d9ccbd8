//! The order's view on the real terminal: looked through, saved in each form, letters stuck down and lifted from it.
//!
//! Must not know the program's insides: only its screen and its files.

use std::fs;
use std::path::PathBuf;

use super::screen::Screen;
use super::start::Desk;

/// The order of the plan whose strips are done.
fn on_the_order(desk: &Desk) -> Screen {
    let mut screen = desk.start(&["quayside-supper"]);
    screen.wait_for_text("QUAYSIDE | SUPPER");
    screen.keys("5");
    screen.wait_for_text("2. Pull from the sheets");
    screen
}

/// What lies among the saved orders, by name.
fn saved(desk: &Desk) -> Vec<String> {
    let names = fs::read_dir(desk.stash().join("orders")).unwrap();
    let mut names: Vec<String> = names.map(|one| one.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn file(desk: &Desk, name: &str) -> PathBuf {
    desk.stash().join("orders").join(name)
}

#[test]
fn an_order_is_looked_through_and_saved_for_paper_and_as_text() {
    let desk = Desk::new();
    let mut screen = on_the_order(&desk);
    screen.keys("\t\x1b[C");
    screen.wait_for_text("sheet 2 of");
    screen.keys("s");
    screen.wait_for_text("written to");
    let written = fs::read(file(&desk, "quayside-supper.pdf")).unwrap();
    assert!(written.starts_with(b"%PDF-"));
    screen.keys("p");
    screen.wait_for_text("pdf on letter");
    screen.keys("s");
    screen.wait_for_text("written over the earlier one");
    assert!(fs::read(file(&desk, "quayside-supper.pdf")).unwrap() != written, "for other paper");
    screen.keys("f");
    screen.wait_for_text("PLACEMENT ORDER");
    screen.keys("s");
    screen.wait_for_text("written to");
    let text = fs::read_to_string(file(&desk, "quayside-supper.txt")).unwrap();
    assert!(text.contains("date ______\nQuayside supper, "), "{text}");
    assert_eq!(saved(&desk), ["quayside-supper.pdf", "quayside-supper.txt"]);
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn drawings_are_a_file_a_sheet_and_those_of_a_longer_order_go() {
    let desk = Desk::new();
    let mut screen = on_the_order(&desk);
    screen.keys("ff");
    screen.wait_for_text("svg on a4");
    screen.keys("s");
    screen.wait_for_text("sheets written");
    let first = saved(&desk);
    assert!(first.len() > 3 && first[0] == "quayside-supper-1.svg", "{first:?}");
    let sheet = fs::read_to_string(file(&desk, "quayside-supper-1.svg")).unwrap();
    fs::write(file(&desk, "quayside-supper-40.svg"), sheet).unwrap();
    fs::write(file(&desk, "quayside-supper-41.svg"), "<svg/>").unwrap();
    screen.keys("\t");
    screen.wait_for_text("sheet 1 of");
    screen.keys("s");
    screen.wait_for_text("a sheet of an earlier order is taken away");
    let mut kept = first;
    kept.push("quayside-supper-41.svg".into());
    kept.sort();
    assert_eq!(saved(&desk), kept);
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn letters_are_stuck_down_and_lifted_and_the_order_is_shown_anew() {
    let desk = Desk::new();
    let mut screen = on_the_order(&desk);
    screen.keys("k");
    screen.wait_for_text("Are the letters stuck down?");
    screen.keys("y");
    screen.wait_for_text("stuck down: title 14, subtitle 13");
    screen.wait_for(|screen| !screen.contents().contains("1 x P"));
    assert!(screen.contents().contains(" 5 order "), "{}", screen.contents());
    screen.keys("l");
    screen.wait_for_text("Did all the letters come off whole?");
    screen.keys("y");
    screen.wait_for_text("lifted: title 14, subtitle 13");
    screen.wait_for_text("1 x P");
    screen.keys("\x1b");
    screen.wait_for_text("QUAYSIDE | SUPPER");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}
