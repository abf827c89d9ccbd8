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
