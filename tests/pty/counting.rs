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
    screen.wait_for_text("not offered; x uses it again");
    screen.wait_for_text("set aside: its letters");
    assert!(sheet(&desk, name).contains("aside = true"), "{}", sheet(&desk, name));
    screen.keys("r");
    screen.wait_for_text("there until now: cornflowerblue: A2 E1");
    screen.keys("AAAA\r");
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

/// A desk whose program was ended by a signal with a sheet half counted.
fn half_counted(keys: &str, run: &str, signal: &str) -> Desk {
    let desk = Desk::new();
    let mut screen = on_the_stash(&desk);
    screen.keys(keys);
    screen.wait_for_text(run);
    screen.signal(signal);
    assert_ne!(screen.exit_code(), 0, "{signal}");
    assert!(screen.is_restored(), "{signal}: {}", screen.contents());
    desk
}

fn kept(desk: &Desk, name: &str) -> Option<String> {
    std::fs::read_to_string(desk.stash().join("trials").join(name)).ok()
}

#[test]
fn a_sheet_half_counted_outlives_a_signal_and_is_gone_on_with() {
    for signal in ["HUP", "TERM", "INT"] {
        let desk = half_counted("acornf\rAAE1\tteal\rA", "AAE1A", signal);
        let text = kept(&desk, "counting.sheet").unwrap();
        assert!(text.contains("counting = \"new\"") && text.contains("E = 1"), "{signal}: {text}");
        let mut screen = desk.start(&[]);
        screen.wait_for_text("5 letters of 53");
        screen.keys("\x1b");
        screen.wait_for_text("answer y to go on counting");
        screen.keys("\r");
        screen.wait_for_text("gone on where the counting ended");
        screen.keys("K\r");
        screen.wait_for_text("6 letters; write 53 on the sheet");
        assert_eq!(kept(&desk, "counting.sheet"), None, "it is not counted twice");
        let text = sheet(&desk, "cornflowerblue-tile-22-mm.toml");
        assert!(text.contains("A = [{ left = 2 }, { mark = \"teal\", left = 1"), "{text}");
        assert!(text.contains("K = ") && text.contains("E = 1") && text.contains("tag = \"53\""), "{text}");
        screen.keys("1q");
        assert_eq!(screen.exit_code(), 0);
    }
}

#[test]
fn a_terminal_gone_keeps_what_was_counted_of_a_sheet_that_is_there() {
    let desk = Desk::new();
    let mut screen = on_the_stash(&desk);
    screen.keys("/Kelp\r");
    screen.wait_for_text("1 of 17");
    screen.keys("-!A");
    screen.wait_for_text("!A");
    screen.hang_up();
    assert_eq!(screen.exit_code(), 129);
    let text = kept(&desk, "counting.sheet").unwrap();
    assert!(text.contains("counting = \"fewer\"\nsheet = \"kelp-caps\"\n"), "{text}");
    let mut screen = desk.start(&["lantern-walk"]);
    screen.wait_for_text("Go on counting?");
    screen.keys("y\r");
    screen.wait_for_text("2 letters counted out");
    assert_eq!(kept(&desk, "counting.sheet"), None);
}

#[test]
fn a_sheet_half_counted_can_be_let_go_and_is_put_aside() {
    let desk = half_counted("acornf\rAAE", "AAE", "HUP");
    let text = kept(&desk, "counting.sheet").unwrap();
    let mut screen = desk.start(&["lantern-walk"]);
    screen.wait_for_text("Go on counting?");
    screen.keys("n");
    screen.wait_for_text("put aside as");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert_eq!((kept(&desk, "counting.sheet"), kept(&desk, "counting.sheet.aside")), (None, Some(text)));
    let mut screen = desk.start(&["lantern-walk"]);
    screen.wait_for_text("slot 3 of 11");
    assert!(!screen.contents().contains("Go on counting?"));
}

#[test]
fn a_trial_and_a_sheet_half_counted_are_both_offered() {
    let desk = Desk::new();
    let mut screen = desk.changed_bench();
    screen.keys("3acornf\rAAE");
    screen.wait_for_text("AAE");
    screen.signal("HUP");
    assert_eq!(screen.exit_code(), 129);
    assert!(desk.trial().is_some() && kept(&desk, "counting.sheet").is_some());
    let mut screen = desk.start(&[]);
    screen.wait_for_text("Go on with it?");
    screen.keys("y");
    screen.wait_for_text("Go on counting?");
    screen.keys("y");
    screen.wait_for_text("gone on where the counting ended");
    screen.keys("\x1b");
    screen.wait_for_text("Let go of this sheet");
    screen.keys("y");
    screen.wait_for(|screen| !screen.contents().contains("Let go of this sheet"));
    screen.keys("1qn");
    assert_eq!(screen.exit_code(), 0);
    assert_eq!((desk.trial(), kept(&desk, "counting.sheet")), (None, None), "both were let go on purpose");
}
