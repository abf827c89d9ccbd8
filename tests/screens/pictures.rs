//! Pictures of every view, to be looked at when they change.
//!
//! Must not know how a pane is drawn.

use oddment::app::{Colours, State};
use ratatui::style::Color;

use super::stage::{draw, on, on_sample, press, text};

pub(super) const USUAL: (u16, u16) = (80, 24);
pub(super) const LARGE: (u16, u16) = (140, 45);
pub(super) const SMALL: (u16, u16) = (60, 18);
const TOO_SMALL: (u16, u16) = (59, 17);

#[track_caller]
pub(super) fn picture(name: &str, state: &mut State, size: (u16, u16), colours: Colours) {
    let text = text(&draw(state, size, colours));
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!(name, text);
    });
}

/// A view of the sample: its name, the plan, the keys that lead to it.
const VIEWS: [(&str, &str, &str); 9] = [
    ("bench", "lantern-walk", ""),
    ("chips-by-sheet", "lantern-walk", "tab g down right"),
    ("checks", "lantern-walk", "shift-tab end down"),
    ("alternates", "lantern-walk", "enter down"),
    ("help", "lantern-walk", "?"),
    ("compare", "lantern-walk", "k down right right down c"),
    ("typing", "lantern-walk", "w ' AT DUSK'"),
    ("question", "lantern-walk", "down q"),
    ("two-lines", "quayside-supper", "right right x right"),
];

fn view(plan: &str, keys: &str) -> State {
    let mut state = on_sample(plan);
    press(&mut state, keys);
    state
}

/// A strip of eighty letters, the chosen one far within.
fn long() -> State {
    let letters = "form='die-cut'\nheight='30 mm'\nheight_of='capital'\ncolour='teal'\n[letters]\nA=99\n";
    let wording = "A".repeat(80);
    let plan = format!("[[strip]]\nwording = '{wording}'\n[[strip.letter]]\nslot = 40\nchip = 'tall/A'\n");
    let mut state = on(&[("tall", letters)], &plan);
    press(&mut state, &"right ".repeat(39));
    state
}

#[test]
fn every_view_at_the_usual_size() {
    for (name, plan, keys) in VIEWS {
        picture(&format!("{name}-80x24"), &mut view(plan, keys), USUAL, Colours::True);
    }
    picture("long-strip-80x24", &mut long(), USUAL, Colours::True);
}

#[test]
fn a_large_screen_shows_more() {
    for (name, plan, keys) in VIEWS.into_iter().filter(|(name, ..)| !["typing", "question"].contains(name)) {
        picture(&format!("{name}-140x45"), &mut view(plan, keys), LARGE, Colours::True);
    }
}

#[test]
fn without_colours_each_is_named() {
    for (name, plan, keys) in &VIEWS[..4] {
        picture(&format!("{name}-no-colour"), &mut view(plan, keys), USUAL, Colours::None);
    }
}

#[test]
fn the_smallest_screen_serves_and_a_smaller_one_says_what_is_needed() {
    picture("bench-60x18", &mut view("lantern-walk", ""), SMALL, Colours::True);
    picture("question-60x18", &mut view("lantern-walk", "down q"), SMALL, Colours::True);
    picture("bench-59x17", &mut view("lantern-walk", ""), TOO_SMALL, Colours::True);
}

#[test]
fn an_empty_stash_offers_the_sample() {
    picture("empty-80x24", &mut on(&[], "[[strip]]\nwording = ''\n"), USUAL, Colours::True);
}

#[test]
fn before_the_first_title_it_is_told_how_to_get_at_the_stash() {
    let sheet = "form='die-cut'\nheight='30 mm'\nheight_of='capital'\ncolour='teal'\n[letters]\nA=9\n";
    for (name, size) in [("first-80x24", USUAL), ("first-60x18", SMALL)] {
        let mut state = on(&[("tall", sheet)], "[[strip]]\nwording = ''\n");
        state.begin_wording();
        picture(name, &mut state, size, Colours::True);
    }
    let mut state = on(&[("tall", sheet)], "[[strip]]\nwording = ''\n");
    state.begin_wording();
    press(&mut state, "esc 3");
    assert!(
        text(&draw(&mut state, USUAL, Colours::True)).contains("teal die-cut 30 mm"),
        "the keys that are told work"
    );
}

#[test]
fn two_strips_are_told_apart() {
    let mut state = view("quayside-supper", "t right right");
    picture("subtitle-80x24", &mut state, USUAL, Colours::True);
}

#[test]
fn no_frame_is_broken_at_any_size() {
    let sizes = [USUAL, LARGE, SMALL, TOO_SMALL, (61, 19), (200, 60), (80, 18), (60, 45), (1, 1), (0, 0)];
    for size in sizes {
        for colours in [Colours::True, Colours::None] {
            for (_, plan, keys) in VIEWS {
                text(&draw(&mut view(plan, keys), size, colours));
            }
            text(&draw(&mut long(), size, colours));
        }
    }
}

#[test]
fn as_many_colours_are_used_as_there_are() {
    for (_, plan, keys) in VIEWS {
        for colours in [Colours::None, Colours::Sixteen, Colours::Palette, Colours::True] {
            let buffer = draw(&mut view(plan, keys), USUAL, colours);
            let used = buffer.content.iter().flat_map(|cell| [cell.fg, cell.bg]);
            let odd = used.filter(|colour| match colours {
                Colours::None => *colour != Color::Reset,
                Colours::Sixteen => !matches!(colour, Color::Reset | Color::Indexed(0..16)),
                Colours::Palette => !matches!(colour, Color::Reset | Color::Indexed(_)),
                Colours::True => !matches!(colour, Color::Reset | Color::Rgb(..)),
            });
            assert_eq!(odd.collect::<Vec<_>>(), [], "{keys} {colours:?}");
        }
    }
}

#[test]
fn a_swatch_can_be_read() {
    let buffer = draw(&mut view("lantern-walk", ""), USUAL, Colours::True);
    let inked = buffer.content.iter().filter(|cell| cell.symbol().chars().all(char::is_alphanumeric));
    let mut seen = 0;
    for cell in inked {
        if let (Color::Rgb(r, g, b), Color::Rgb(x, y, z)) = (cell.fg, cell.bg) {
            let (ink, patch) =
                (oddment::measure::Colour { r, g, b }, oddment::measure::Colour { r: x, g: y, b: z });
            // WCAG 2.2, success criterion 1.4.3: text has a contrast of at least 4.5 to 1.
            assert!(ink.contrast(patch).get() >= 450, "{cell:?}");
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen} swatches");
}
