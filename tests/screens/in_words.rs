//! Pictures of the wording's view.
//!
//! Must not know how it is drawn.

use oddment::app::{ACTIONS, Action, Colours, Key, State};
use oddment::title::{Wish, Wording};

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
    for said in ["w: type one", "none yet: a adds the wording above", "g finds some"] {
        assert!(shown.contains(said), "{said}\n{shown}");
    }
    state.shelf.are_wishes_amiss = true;
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    assert!(shown.contains("has errors: oddment mend") && !shown.contains("none yet"), "{shown}");
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

#[test]
fn the_keys_that_are_told_are_the_users_own() {
    let sheet = "form='tile'\nheight='12 mm'\ncolour='tan'\n[letters]\nA=1\nT=2\n";
    let mut state = on(&[("a", sheet)], "[[strip]]\nwording = ''\n");
    let own = [(Action::Wording, "f5"), (Action::AddWish, "f6"), (Action::FindIdeas, "f7")];
    let own = own.map(|(action, key)| {
        let place = ACTIONS.iter().position(|row| row.action == action).unwrap();
        (place, vec![Key::parse(key).unwrap()])
    });
    state.look.keys.rebind(own.to_vec()).unwrap();
    press(&mut state, "4");
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    for said in ["f5: type one", "none yet: f6 adds the wording above", "f7 finds some"] {
        assert!(shown.contains(said), "{said}\n{shown}");
    }
    press(&mut state, "f6");
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    assert!(shown.contains("type a wording first (f5)"), "{shown}");
}

#[test]
fn no_key_is_told_that_does_nothing() {
    let sheet = "form='tile'\nheight='12 mm'\ncolour='tan'\n[letters]\nA=1\nT=2\n";
    let mut state = on(&[("a", sheet)], "[[strip]]\nwording = ''\n");
    press(&mut state, "4");
    let shown = text(&draw(&mut state, LARGE, Colours::True));
    for key in ["space must", "enter use", "a wish", "x explain", "↑↓ go"] {
        assert!(!shown.contains(key), "{key}\n{shown}");
    }
    let shown = text(&draw(&mut sample("down"), LARGE, Colours::True));
    for key in ["space must", "enter use", "a wish", "x explain", "↑↓ go"] {
        assert!(shown.contains(key), "{key}\n{shown}");
    }
}

#[test]
fn how_many_wishes_can_be_made_together_is_told_at_every_width() {
    let mut state = sample("");
    let wish = |place: u32| Wish { wording: Wording::new(&format!("PIER {place}")).unwrap(), note: None };
    state.take_wishes((100..600).map(wish).collect(), "");
    for size in [SMALL, USUAL, LARGE] {
        let shown = text(&draw(&mut state, size, Colours::True));
        assert!(shown.contains(" together: +") || shown.contains(" so far: +"), "{shown}");
    }
}

#[test]
fn a_long_search_says_how_it_is_stopped() {
    let mut state = on_sample("lantern-walk");
    press(&mut state, "4 g enter");
    state.look_for_ideas(None);
    press(&mut state, "@slice @long");
    let shown = text(&draw(&mut state, USUAL, Colours::True));
    assert!(shown.contains("looking for ideas (esc stops)"), "{shown}");
    press(&mut state, "esc esc");
    assert!(!state.is_working());
}

#[test]
fn a_smaller_screen_keeps_what_is_chosen_in_sight_and_cuts_no_number_short() {
    let mut state = sample("g enter");
    state.look_for_ideas(None);
    press(&mut state, "@slice @slice");
    for _ in 0..3_000 {
        state.work_on(1);
    }
    for size in [LARGE, USUAL, SMALL] {
        let shown = text(&draw(&mut state, size, Colours::True));
        let found = state.ideas().len();
        assert!(shown.contains(&format!(" {found} so far")), "{found}\n{shown}");
        assert!(!shown.contains("so far, of") || shown.contains(" words"), "{shown}");
    }
    work(&mut state);
    draw(&mut state, LARGE, Colours::True);
    press(&mut state, "end");
    for size in [LARGE, SMALL, LARGE] {
        let shown = text(&draw(&mut state, size, Colours::True));
        assert_eq!(shown.matches("ZYMOTIC").count(), 2, "the line and the list: {shown}");
        assert!(shown.contains(&format!(" {} found", state.ideas().len())), "{shown}");
    }
}
