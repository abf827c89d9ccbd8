//! Pictures of the page's view, and that no name and no place on the page breaks a frame.
//!
//! Must not know how it is drawn.

use oddment::app::{Colours, State};
use ratatui::style::Color;

use super::pictures::{LARGE, SMALL, USUAL, picture};
use super::stage::{draw, on, on_sample, press, text};

fn sample(keys: &str) -> State {
    let mut state = on_sample("lantern-walk");
    press(&mut state, "2");
    press(&mut state, keys);
    state
}

/// Pictures by name.
const VIEWS: [(&str, &str); 7] = [
    ("page", ""),
    ("page-near", "z"),
    ("page-thing", "tab tab tab tab tab"),
    ("page-thing-near", "tab tab z"),
    ("page-turned", "] ] ] shift-down"),
    ("page-rest", "n @work"),
    ("page-size", "P"),
];

const SHEETS: [(&str, &str); 1] =
    [("kelp", "form='die-cut'\nheight='23 mm'\nheight_of='capital'\ncolour='teal'\n[letters]\nA=2\nN=1\n")];

fn small(page: &str) -> State {
    let strip = "[[strip]]\nwording = 'AN'\n[[strip.letter]]\nslot = 1\nchip = 'kelp/A'\n";
    let mut state = on(&SHEETS, &format!("{page}{strip}"));
    press(&mut state, "2");
    state
}

#[test]
fn the_page_at_the_usual_size() {
    for (name, keys) in VIEWS {
        picture(&format!("{name}-80x24"), &mut sample(keys), USUAL, Colours::True);
    }
}

#[test]
fn a_large_screen_shows_the_letters_and_a_small_one_serves() {
    for (name, keys) in &VIEWS[..3] {
        picture(&format!("{name}-140x45"), &mut sample(keys), LARGE, Colours::True);
    }
    picture("page-60x18", &mut sample(""), SMALL, Colours::True);
}

#[test]
fn without_colours_things_are_told_apart_by_lines_textures_and_names() {
    for (name, keys) in &VIEWS[..4] {
        picture(&format!("{name}-no-colour"), &mut sample(keys), USUAL, Colours::None);
    }
}

#[test]
fn where_there_is_no_page_yet_it_says_what_to_do() {
    picture("page-none-80x24", &mut small(""), USUAL, Colours::True);
    picture("page-bare-80x24", &mut small("size = 'A5'\n"), USUAL, Colours::True);
}

#[test]
fn photo_and_journaling_look_different_in_every_number_of_colours() {
    let page = "size = 'A5'\nground = 'white'\n\
        [[element]]\nkind = 'photo'\nat = [10, 20]\nsize = [120, 60]\ncolours = ['tan']\n\
        [[element]]\nkind = 'journaling'\nat = [10, 110]\nsize = [120, 60]\ncolours = ['tan']\n";
    for colours in [Colours::None, Colours::Sixteen, Colours::Palette, Colours::True] {
        let shown = text(&draw(&mut small(page), USUAL, colours));
        let rows = |texture: &str| {
            let with = shown.lines().enumerate().filter(|(_, line)| line.contains(&texture.repeat(4)));
            with.map(|(row, _)| row).collect::<Vec<_>>()
        };
        let (photo, block) = (rows("░"), rows("_"));
        assert!(photo.len() > 2 && block.len() > 1 && photo.last() < block.first(), "{colours:?}\n{shown}");
    }
}

#[test]
fn trapped_paper_is_hatched_and_only_that() {
    let hatched = |keys: &str, colours: Colours| {
        let shown = text(&draw(&mut sample(keys), USUAL, colours));
        shown.chars().filter(|c| *c == '╱').count()
    };
    for colours in [Colours::None, Colours::True] {
        assert!(hatched("", colours) > 0);
        assert!(hatched("z", colours) > hatched("", colours), "more cells from near");
        assert_eq!(hatched("d", colours), 0, "nothing is on the page");
    }
}

#[test]
fn what_is_chosen_is_marked_and_its_name_still_read() {
    for place in 2..10 {
        let mut state = sample(&"tab ".repeat(place));
        let name = state.element().unwrap().1.called().to_owned();
        let shown = text(&draw(&mut state, LARGE, Colours::True));
        let marks = shown.chars().filter(|c| "┏┓┗┛━┃◆".contains(*c)).count();
        assert!(marks > 2, "{name}\n{shown}");
        assert!(shown.matches(&name[..4]).count() >= 2, "{name}: in the list and below\n{shown}");
    }
}

#[test]
fn no_frame_is_broken_at_any_size() {
    let sizes = [USUAL, LARGE, SMALL, (59, 17), (61, 19), (200, 60), (80, 18), (60, 45), (1, 1), (0, 0)];
    for (_, keys) in VIEWS {
        let mut state = sample(keys);
        for size in sizes {
            for colours in [Colours::True, Colours::None] {
                text(&draw(&mut state, size, colours));
            }
        }
    }
}

#[test]
fn odd_names_and_odd_places_keep_the_frame() {
    let element = |name: &str, rest: &str| format!("[[element]]\nkind = 'photo'\nname = '{name}'\n{rest}\n");
    let page = [
        "size = '300 x 20 mm'\n".to_owned(),
        element("漢字漢字漢字", "at = [10, 2]\nsize = [37, 15]\nturn = 30"),
        element("e\u{301}x\u{323} שלום 🏮\u{301}", "at = [100, 4]\nsize = [90, 12]\nshape = 'round'"),
        element("漢", "at = [-4000, 4000]\nsize = [1, 1]"),
        element("speck", "at = [250, 4]\nsize = [0.1, 0.1]"),
        element("all", "at = [-500, -500]\nsize = [1000, 1000]\nturn = 45"),
    ]
    .concat();
    for size in ["size = '300 x 20 mm'", "size = '20 x 900 mm'", "# none"] {
        let mut state = small(&page.replace("size = '300 x 20 mm'", size));
        for keys in ["", "tab", "z", "tab", "tab", "tab", "tab", "z", "right", "] ] ]"] {
            press(&mut state, keys);
            for (columns, rows) in [USUAL, LARGE, SMALL] {
                for colours in [Colours::True, Colours::None] {
                    text(&draw(&mut state, (columns, rows), colours));
                }
            }
        }
    }
}

#[test]
fn as_many_colours_are_used_as_there_are() {
    for (_, keys) in VIEWS {
        for colours in [Colours::None, Colours::Sixteen, Colours::Palette, Colours::True] {
            let buffer = draw(&mut sample(keys), USUAL, colours);
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
fn the_readme_shows_the_views_as_they_are() {
    let made = "down right right down right down right down right right down right down";
    for keys in ["tab tab", "2", "3 down down", "4 down down down down down down down"] {
        let mut state = on_sample("lantern-walk");
        press(&mut state, &format!("{made} {keys}"));
        while state.is_working() {
            state.work_on(10_000);
        }
        let shown = text(&draw(&mut state, USUAL, Colours::None));
        let is_shown = include_str!("../../README.md").contains(&format!("```text\n{shown}```\n"));
        assert!(is_shown, "put it in the README:\n{shown}");
    }
}
