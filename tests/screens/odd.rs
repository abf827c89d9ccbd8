//! Wide, combining and right-to-left characters, marks alone and control characters: the frame holds.
//!
//! Must not know how a pane is drawn.

use oddment::app::{Colours, State};
use oddment::stash::Stash;

use super::stage::{draw, on, press, text};

const SHEETS: [(&str, &str); 2] = [
    (
        "wide",
        "name = '漢字シート'\ntag = '港'\nform = 'tile'\nheight = '22 mm'\ncolour = 'teal'\n\
         [letters]\n'漢' = 2\n'字' = 1\n'é' = 1\n'🏮' = 120\n",
    ),
    (
        "right",
        "name = 'אותיות'\nform = 'die-cut'\nheight = '20 mm'\nheight_of = 'capital'\ncolour = 'coral'\n\
         [letters]\n'ש' = 1\n'ל' = 3\n'x\u{323}' = 1\n",
    ),
];

const WORDING: &str = "漢字 e\u{301}x\u{323} שלום 🏮\u{301}";

/// Keys that lead to each view.
const VIEWS: [&str; 9] =
    ["", "down right down", "enter", "tab g down", "shift-tab", "?", "k down c", "w", "t '漢ש'"];

const SIZES: [(u16, u16); 5] = [(80, 24), (60, 18), (61, 19), (140, 45), (83, 25)];

fn odd(wording: &str) -> State {
    on(&SHEETS, &format!("name = '漢字'\n[[strip]]\nwording = '{wording}'\n"))
}

#[test]
fn odd_characters_keep_the_frame() {
    for keys in VIEWS {
        for size in SIZES {
            for colours in [Colours::True, Colours::None] {
                let mut state = odd(WORDING);
                press(&mut state, keys);
                text(&draw(&mut state, size, colours));
            }
        }
    }
}

#[test]
fn odd_characters_are_seen() {
    let mut state = odd(WORDING);
    press(&mut state, "down right");
    let shown = text(&draw(&mut state, (80, 24), Colours::True));
    for character in ["漢", "字", "é", "x\u{323}", "ש", "🏮"] {
        assert!(shown.contains(character), "{character}\n{shown}");
    }
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("odd-characters-80x24", shown);
    });
}

#[test]
fn many_wide_letters_in_a_row_keep_the_frame() {
    for count in 1..60 {
        let mut state = odd(&"字".repeat(count));
        for keys in ["", "end", "down"] {
            press(&mut state, keys);
            text(&draw(&mut state, (80, 24), Colours::None));
        }
    }
}

#[test]
fn a_line_typed_past_the_edge_is_shown_around_the_cursor() {
    let mut state = odd("漢");
    press(&mut state, &format!("w '{}'", "漢é".repeat(60)));
    let shown = text(&draw(&mut state, (80, 24), Colours::True));
    assert!(shown.contains("漢é漢é"), "{shown}");
}

#[test]
fn control_characters_never_reach_the_screen() {
    let mut state = odd(WORDING);
    let mut sheets = state.shelf.stash.sheets().to_vec();
    for sheet in &mut sheets {
        sheet.label.name = Some("evil\u{1b}[31m\u{7}\n\u{9b}sheet".into());
        sheet.label.tag = Some("\u{0}".into());
    }
    state.shelf.stash = Stash::new(sheets);
    for keys in VIEWS {
        press(&mut state, keys);
        text(&draw(&mut state, (80, 24), Colours::None));
        press(&mut state, "esc");
    }
    state.show_page("a\u{1b}]0;b\u{7}", "line\u{1b}[2J\nnext\r");
    text(&draw(&mut state, (80, 24), Colours::None));
    state.complain("gone \u{1b}[1m");
    press(&mut state, "esc");
    state.complain("gone \u{1b}[1m");
    text(&draw(&mut state, (80, 24), Colours::None));
}
