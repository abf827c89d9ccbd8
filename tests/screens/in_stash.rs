//! Pictures of the stash's view.
//!
//! Must not know how it is drawn.

use oddment::app::{Colours, State};

use super::pictures::{LARGE, SMALL, USUAL, picture};
use super::stage::{draw, on, on_sample, press, text};

fn sample(keys: &str) -> State {
    let mut state = on_sample("lantern-walk");
    press(&mut state, "3");
    press(&mut state, keys);
    state
}

/// Pictures by name.
const VIEWS: [(&str, &str); 5] = [
    ("stash", "down down"),
    ("stash-colour", "a 'cor'"),
    ("stash-letters", "a 'cor' enter 'AAEIIO&é3' tab 'tea' enter 'SS'"),
    ("stash-fields", "down enter"),
    ("stash-find", "/ 'Q foil' enter"),
];

#[test]
fn the_stash_at_the_usual_size() {
    for (name, keys) in VIEWS {
        picture(&format!("{name}-80x24"), &mut sample(keys), USUAL, Colours::True);
    }
}

#[test]
fn a_large_screen_and_a_small_one() {
    for (name, keys) in &VIEWS[..4] {
        picture(&format!("{name}-140x45"), &mut sample(keys), LARGE, Colours::True);
        picture(&format!("{name}-60x18"), &mut sample(keys), SMALL, Colours::True);
    }
}

#[test]
fn without_colours_every_colour_has_its_name() {
    for (name, keys) in &VIEWS[..3] {
        picture(&format!("{name}-no-colour"), &mut sample(keys), USUAL, Colours::None);
    }
}

#[test]
fn spent_sheets_and_those_set_aside_come_last_and_say_so() {
    let spent = "form='tile'\nheight='12 mm'\ncolour='tan'\ntag='1'\n[letters]\nA=0\n";
    let aside = "form='tile'\nheight='12 mm'\ncolour='teal'\ntag='2'\naside=true\n[letters]\nA=2\n";
    let full = "form='tile'\nheight='12 mm'\ncolour='coral'\ntag='10'\n[letters]\nA=2\n";
    let mut state = on(&[("a", spent), ("b", aside), ("c", full)], "[[strip]]\nwording = 'A'\n");
    press(&mut state, "3");
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    let row = |what: &str| shown.lines().position(|line| line.contains(what)).unwrap();
    assert!(row("10  coral") < row("aside   2") && row("aside   2") < row("spent"), "{shown}");
}

#[test]
fn lots_of_one_colour_are_told_apart_by_their_marks() {
    let sheet = "form='tile'\nheight='12 mm'\ncolour='teal'\n[letters]\nA=[{left=2},{mark='swash',left=1},{mark='round',left=1}]\n";
    let mut state = on(&[("a", sheet)], "[[strip]]\nwording = 'A'\n");
    press(&mut state, "3 r 'A' right 'A' right 'AA'");
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    for lot in ["teal: A1", "teal (swash): A1", "teal (round): A2", "teal (round): AAAA"] {
        assert!(shown.contains(lot), "{lot}\n{shown}");
    }
}

#[test]
fn many_lots_stay_above_the_keys_with_the_one_in_hand_in_sight() {
    let mut state = sample("a 'cor' enter");
    let colours =
        ["tea", "pin", "gold", "navy", "tan", "plum", "peru", "lime", "snow", "aqua", "oliv", "red"];
    for colour in colours {
        press(&mut state, &format!("'AB' tab '{colour}' enter"));
    }
    press(&mut state, "'C'");
    let shown = text(&draw(&mut state, SMALL, Colours::True));
    let lines: Vec<&str> = shown.lines().collect();
    assert!(shown.contains(" red: C1"), "{shown}");
    let sum = lines.iter().position(|line| line.contains("25 letters")).unwrap();
    assert!(sum < 16, "{shown}");
    assert!(lines[16..].iter().all(|line| !line.contains(": A")), "{shown}");
}

#[test]
fn what_is_told_of_a_sheet_in_hand_is_not_cut_on_a_small_screen() {
    let shown = text(&draw(&mut sample("a 'cor' enter"), SMALL, Colours::True));
    assert!(shown.contains("0.2 mm") && shown.contains("coral on tar"), "{shown}");
}
