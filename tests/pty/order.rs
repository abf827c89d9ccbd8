//! A printed order on a terminal: text is shown, what a terminal cannot show is refused.
//!
//! Must not know the program's insides.

use super::screen::Screen;
use super::start::{Desk, SIZE};

/// How `order quayside-supper --form FORM` ends on a terminal, and what it shows.
fn order(form: &str) -> (u32, String) {
    let desk = Desk::new();
    let stash = desk.stash();
    let args = ["order", "quayside-supper", "--form", form, "--stash", stash.to_str().unwrap()];
    let mut screen = Screen::start(&args, &[], SIZE);
    (screen.exit_code(), screen.contents())
}

#[test]
fn a_terminal_gets_no_pdf_but_a_hint() {
    let why = "oddment: a terminal shows no PDF; write it to a file: -o quayside-supper.pdf";
    assert_eq!(order("pdf"), (2, why.to_owned()));
}

#[test]
fn a_terminal_gets_text() {
    let (code, shown) = order("text");
    assert_eq!(code, 0);
    assert!(shown.contains("---"), "{shown}");
}
