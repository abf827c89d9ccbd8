//! Pictures of suggestions and of what else a search can tell.
//!
//! Must not know how they are drawn.

use oddment::app::{Colours, State};

use super::pictures::{LARGE, SMALL, USUAL, picture};
use super::stage::{draw, on, on_sample, press, text};

fn sample(keys: &str) -> State {
    let mut state = on_sample("lantern-walk");
    press(&mut state, keys);
    state
}

/// Four kinds of letters; the blocks have no Z left.
fn few(keys: &str) -> State {
    let blocks = "form='tile'\nheight='22 mm'\ncolour='gold'\ntile_colour='black'\nplain_tile=true\nname='Gallery blocks'\n[letters]\nA=1\nN=1\nR=1\nZ=0\n";
    let kelp = "form='die-cut'\nheight='23 mm'\nheight_of='capital'\ncolour='teal'\nname='Kelp'\n[letters]\nA=2\nE=1\nN=1\n";
    let oars = "form='die-cut'\nheight='9 mm'\nheight_of='small'\ncolour='coral'\nname='Oars'\n[letters]\na=1\nz=1\n";
    let plan = "colours = ['teal', 'gold']\n[[strip]]\nwording = 'ZENQA'\n[[strip.letter]]\nslot = 5\nchip = 'oars/a'\npinned = true\n";
    let mut state = on(&[("blocks", blocks), ("kelp", kelp), ("oars", oars)], plan);
    press(&mut state, keys);
    state
}

/// Pictures by name, in the order in which they are easiest understood.
const VIEWS: [(&str, &str); 8] = [
    ("suggestion-of-few", "n @work"),
    ("suggestion-unserved", "n @work end up"),
    ("suggestion-stopped", "n esc"),
    ("looking", "n @long right right"),
    ("looking-on", "n @long K"),
    ("keys-at-a-suggestion", "n @work ?"),
    ("one-more", "home m @work"),
    ("why-not", "home right enter end w @work"),
];

#[test]
fn suggestions_and_what_else_a_search_tells() {
    for (name, keys) in VIEWS {
        picture(&format!("{name}-80x24"), &mut few(keys), USUAL, Colours::True);
    }
}

#[test]
fn a_suggestion_of_the_sample_at_both_sizes_and_without_colours() {
    let mut state = sample("n @work n down");
    picture("suggestion-80x24", &mut state, USUAL, Colours::True);
    picture("suggestion-140x45", &mut state, LARGE, Colours::True);
    picture("suggestion-60x18", &mut state, SMALL, Colours::True);
    picture("suggestion-no-colour", &mut state, USUAL, Colours::None);
}

#[test]
fn no_frame_is_broken_at_any_size() {
    let sizes = [USUAL, LARGE, SMALL, (59, 17), (61, 19), (200, 60), (80, 18), (60, 45), (1, 1), (0, 0)];
    for (_, keys) in VIEWS {
        let mut state = few(keys);
        for size in sizes {
            for colours in [Colours::True, Colours::None] {
                text(&draw(&mut state, size, colours));
            }
        }
    }
}
