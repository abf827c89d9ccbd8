//! Sheets counted in, told anew and set aside on the real screen, and what the files hold then.
//!
//! Must not know the program's insides.

use super::screen::Screen;
use super::start::Desk;

fn sheet(desk: &Desk, name: &str) -> String {
    std::fs::read_to_string(desk.stash().join("sheets").join(name)).unwrap()
}

fn on_the_stash(desk: &Desk) -> Screen {
    let mut screen = desk.start(&["quayside-supper"]);
    screen.wait_for_text("QUAYSIDE | SUPPER");
    screen.keys("3");
    screen.wait_for_text("1078 letters left");
    screen
}

#[test]
fn a_new_sheet_is_counted_in_told_anew_and_set_aside() {
    let desk = Desk::new();
    let mut screen = on_the_stash(&desk);
    screen.keys("acornf\r");
    screen.wait_for_text("type the letters as you read them off");
    screen.keys("AAE1");
    screen.keys("\t");
    screen.wait_for_text("type how its name begins");
    screen.keys("teal\rA\r");
    screen.wait_for_text("5 letters; write 53 on the sheet");
    let name = "cornflowerblue-tile-22-mm.toml";
    let text = sheet(&desk, name);
    for line in [
        "tag = \"53\"",
        "form = \"tile\"",
        "A = [{ left = 2 }, { mark = \"teal\", left = 1",
        "1 = 1",
        "as_of = 1",
    ] {
        assert!(text.contains(line), "{line}\n{text}");
    }
    assert!(desk.ledger().contains("kind = \"added\""), "{}", desk.ledger());
    screen.keys("\r");
    screen.wait_for_text("what is told of 53");
    screen.keys("\rRegatta\r");
    screen.wait_for_text("is written down");
    assert!(sheet(&desk, name).contains("name = \"Regatta\""), "{}", sheet(&desk, name));
    screen.keys("\tx");
    screen.wait_for_text("set aside: its letters");
    assert!(sheet(&desk, name).contains("aside = true"), "{}", sheet(&desk, name));
    screen.keys("rAAAA\r");
    screen.wait_for_text("4 letters counted");
    assert!(sheet(&desk, name).contains("1 = 0"), "{}", sheet(&desk, name));
    screen.keys("h");
    screen.wait_for_text("counted anew: ");
    screen.keys("q1q");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn a_sheet_counted_keeps_its_comments_and_the_trial_stays() {
    let desk = Desk::new();
    let path = desk.stash().join("sheets/kelp-caps.toml");
    let text = format!("# The blue tin.\n{}", sheet(&desk, "kelp-caps.toml"));
    std::fs::write(&path, &text).unwrap();
    let mut screen = on_the_stash(&desk);
    screen.keys("1d");
    screen.wait_for_text("not saved");
    screen.keys("3/Kelp\r");
    screen.wait_for_text("1 of 17");
    screen.keys("+!!\r");
    screen.wait_for_text("2 letters counted in");
    let now = sheet(&desk, "kelp-caps.toml");
    let kept = now.lines().filter(|line| text.lines().any(|old| old == *line)).count();
    assert!(now.starts_with("# The blue tin.\n") && kept + 2 >= text.lines().count(), "{now}");
    screen.keys("1");
    screen.wait_for_text("not saved");
    screen.keys("u");
    screen.wait_for_text("taken back; 0 more");
    screen.keys("qn");
    assert_eq!(screen.exit_code(), 0);
}
