//! The bench on a real terminal: keys, saving, a second program, signals, suspension.
//!
//! Must not know the program's insides.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use oddment::files::unpack_sample;
use tempfile::TempDir;

use super::screen::Screen;

/// A copy of the sample in a folder of its own.
fn stash() -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("stash");
    unpack_sample(&path).unwrap();
    (folder, path)
}

fn open(stash: &Path, plan: Option<&str>) -> Screen {
    let mut args: Vec<&OsStr> = vec!["--stash".as_ref(), stash.as_os_str()];
    args.extend(plan.map(OsStr::new));
    Screen::start(&args, &[("COLORTERM", "truecolor".as_ref())], (80, 24))
}

fn plan(stash: &Path) -> String {
    std::fs::read_to_string(stash.join("pages/lantern-walk.toml")).unwrap()
}

const DOWN: &str = "\x1b[B";
const RIGHT: &str = "\x1b[C";

#[test]
fn a_letter_is_stood_nudged_and_saved_and_comments_stay() {
    let (_folder, stash) = stash();
    let before = plan(&stash);
    let mut screen = open(&stash, Some("lantern-walk"));
    screen.wait_for_text("slot 3 of 11");
    screen.keys(DOWN);
    screen.wait_for_text("alternate 1 of");
    screen.keys("..");
    screen.wait_for_text("nudge 1.0 mm");
    screen.keys("s");
    screen.wait_for_text("saved as lantern-walk");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    assert!(screen.is_restored(), "{}", screen.contents());
    let after = plan(&stash);
    assert!(after.contains("slot = 3\n") && after.contains("nudge = \"1 mm\""), "{after}");
    let comments =
        |text: &str| text.lines().filter(|line| line.contains('#')).map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(comments(&before), comments(&after));
}

#[test]
fn the_screen_takes_a_new_size_and_says_when_it_is_too_small() {
    let (_folder, stash) = stash();
    let mut screen = open(&stash, Some("lantern-walk"));
    screen.wait_for_text("slot 3 of 11");
    screen.resize(140, 45);
    screen.wait_for(|screen| {
        screen.contents().lines().count() > 40 && screen.contents().contains("slot 3 of 11")
    });
    screen.resize(30, 8);
    screen.wait_for_text("oddment needs 60 x 18");
    screen.resize(80, 24);
    screen.wait_for_text("slot 3 of 11");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn it_is_suspended_and_comes_back_as_it_was() {
    let (_folder, stash) = stash();
    let script = format!(
        "\"$ODDMENT\" --stash '{}' lantern-walk; echo stopped; read x; fg; echo over",
        stash.display()
    );
    let mut screen = Screen::start_in_shell(&script, &[("COLORTERM", "truecolor".as_ref())], (80, 24));
    screen.wait_for_text("slot 3 of 11");
    screen.keys(DOWN);
    screen.wait_for_text("alternate 1 of");
    screen.keys("\x1a");
    screen.wait_for_text("stopped");
    assert!(screen.is_restored(), "{}", screen.contents());
    screen.keys("\r");
    screen.wait_for_text("alternate 1 of");
    assert!(screen.emulated().alternate_screen());
    screen.keys("u");
    screen.wait_for_text("taken back");
    screen.keys("qn");
    screen.wait_for_text("over");
    assert!(screen.is_restored());
}

#[test]
fn a_second_program_is_read_only_and_says_so() {
    let (_folder, stash) = stash();
    let mut first = open(&stash, Some("lantern-walk"));
    first.wait_for_text("slot 3 of 11");
    let mut second = open(&stash, Some("quayside-supper"));
    second.wait_for_text("read-only");
    second.keys("s");
    second.wait_for_text("another oddment holds this stash");
    second.keys("q");
    assert_eq!(second.exit_code(), 0);
    first.keys("q");
    assert_eq!(first.exit_code(), 0);
}

#[test]
fn a_paste_is_text_and_never_commands() {
    let (_folder, stash) = stash();
    let mut screen = open(&stash, Some("lantern-walk"));
    screen.wait_for_text("slot 3 of 11");
    screen.paste("qqq");
    screen.wait_for_text("a paste is text");
    screen.keys("w");
    screen.wait_for_text("starts a second line");
    screen.keys("\x15");
    screen.paste("KELP\nWALK");
    screen.wait_for_text("KELP|WALK");
    screen.keys("\r");
    screen.wait_for_text("of 8");
    screen.keys(RIGHT);
    screen.keys("q");
    screen.wait_for_text("Save it before leaving?");
    screen.keys("n");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn a_terminal_that_can_do_nothing_is_refused() {
    let (_folder, stash) = stash();
    let args = ["--stash".as_ref(), stash.as_os_str()];
    let mut screen = Screen::start(&args, &[("TERM", "dumb".as_ref())], (80, 24));
    assert_eq!(screen.exit_code(), 2);
    assert!(screen.contents().starts_with("oddment: "), "{}", screen.contents());
}

#[test]
fn the_sample_is_a_scratch_copy_and_says_where_it_is() {
    let mut screen = Screen::start(&["--sample"], &[("COLORTERM", "truecolor".as_ref())], (80, 24));
    screen.wait_for_text("LANTERN WALK");
    screen.keys("q");
    assert_eq!(screen.exit_code(), 0);
    let contents = screen.contents().replace('\n', "");
    let place = contents.split("The sample is in ").nth(1).unwrap().trim();
    assert!(Path::new(place).join("pages/lantern-walk.toml").exists(), "{place}");
    std::fs::remove_dir_all(place).unwrap();
}
