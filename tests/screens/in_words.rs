//! Pictures of the wording's view.
//!
//! Must not know how it is drawn.

use oddment::app::{Colours, State};

use super::pictures::{LARGE, SMALL, USUAL, picture};
use super::stage::{draw, on, on_sample, press, text};

fn sample(keys: &str) -> State {
    let mut state = on_sample("lantern-walk");
    press(&mut state, "4");
    press(&mut state, keys);
    work(&mut state);
    state
}

/// Takes on what is looked for until it is found.
fn work(state: &mut State) {
    while state.is_working() {
        state.work_on(10_000);
    }
}

/// Looks through the whole list of words.
fn look(state: &mut State) {
    state.look_for_ideas(None);
    work(state);
}

/// Pictures by name.
const VIEWS: [(&str, &str); 5] = [
    ("wording", "down down space"),
    ("wording-typed", "w 'MOON OVER THE MOORINGS, OOO'"),
    ("wording-short", "w 'ÊÊ QUIZZING QUIZZES' enter"),
    ("wording-mixed", "down down down down"),
    ("wording-explained", "down down down down down down down x"),
];

#[test]
fn the_wordings_at_the_usual_size() {
    for (name, keys) in VIEWS {
        picture(&format!("{name}-80x24"), &mut sample(keys), USUAL, Colours::True);
    }
}

#[test]
fn a_large_screen_and_a_small_one() {
    for (name, keys) in VIEWS {
        picture(&format!("{name}-140x45"), &mut sample(keys), LARGE, Colours::True);
        picture(&format!("{name}-60x18"), &mut sample(keys), SMALL, Colours::True);
    }
}

#[test]
fn ideas_as_they_are_found() {
    let mut state = sample("g '4-6 with Q scarce 3' enter");
    look(&mut state);
    press(&mut state, "down down");
    picture("wording-ideas-80x24", &mut state, USUAL, Colours::True);
    picture("wording-ideas-140x45", &mut state, LARGE, Colours::None);
}

#[test]
fn where_nothing_is_wished_for_it_says_what_to_do() {
    let sheet = "form='tile'\nheight='12 mm'\ncolour='tan'\n[letters]\nA=1\nT=2\n";
    let mut state = on(&[("a", sheet)], "[[strip]]\nwording = ''\n");
    press(&mut state, "4");
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    for said in ["w: type one", "none yet: a adds the wording above", "g looks for some"] {
        assert!(shown.contains(said), "{said}\n{shown}");
    }
}

#[test]
fn every_key_changes_what_is_said() {
    let mut state = sample("");
    let mut seen = Vec::new();
    for keys in ["w 'Ê'", "'A'", "backspace backspace 'LAMP'"] {
        press(&mut state, keys);
        seen.push(text(&draw(&mut state, USUAL, Colours::None)));
    }
    assert!(
        seen[0].contains("short of Ê") && seen[1].contains("short of Ê") && seen[2].contains(" now, "),
        "{seen:?}"
    );
}
