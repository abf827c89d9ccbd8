//! Pictures of the order's view.
//!
//! Must not know how it is drawn.

use oddment::app::{Colours, SheetPicture, State, Writing};
use oddment::measure::{Length, Polygon};
use oddment::order::{Form, Order};
use oddment::page::Paper;
use oddment::print::{Head, order_text, sheets};
use oddment::terminal::pictures;
use oddment::title::{Layout, cuts};

use super::pictures::{LARGE, SMALL, USUAL, picture};
use super::stage::{draw, on_sample, press, text};

/// The order of a plan whose strips are done, as its form and its paper are chosen after these keys.
fn order(keys: &str) -> State {
    let mut state = on_sample("quayside-supper");
    press(&mut state, "5");
    show(&mut state);
    press(&mut state, keys);
    show(&mut state);
    state
}

fn show(state: &mut State) {
    let order = Order::of(state.trial.plan(), &state.shelf.stash);
    let words = order_text(&order, &Head { date: None, file: Some("quayside-supper".into()) }, state.unit());
    let (paper, unit) = (state.order_paper(), state.unit());
    let sheets = paper.size(state.trial.plan().page.size, unit).map_err(|error| error.to_string());
    let sheets = sheets.map(|size| match state.order.form {
        Form::Text => Vec::new(),
        _ => vec![written(size.width.mm(), size.height.mm()), template(state)],
    });
    state.show_order(&words, sheets);
}

/// A sheet full of writing.
fn written(width: f64, height: f64) -> SheetPicture {
    let line = |y: f64, width: f64, size: f64, text: &str| Writing {
        at: (15.0, y),
        width,
        size,
        text: text.into(),
        strong: size > 4.0,
    };
    let mut writing = vec![line(25.0, 90.0, 8.0, "Placement order"), line(90.0, 70.0, 6.0, "What to pull")];
    writing
        .extend([40.0, 46.0, 52.0, 100.0, 106.0].map(|y| line(y, 120.0, 3.5, "one of the lines below it")));
    writing.push(line(120.0, 60.0, 3.5, "the last"));
    SheetPicture {
        told: "what to pull".into(),
        width,
        height,
        writing,
        shapes: Vec::new(),
        lines: Vec::new(),
    }
}

/// The letters of the first strip on a sheet that lies across, over their line.
fn template(state: &State) -> SheetPicture {
    let (strip, stash) = (state.strip(), &state.shelf.stash);
    let layout = Layout::of(strip, stash);
    let height = layout.letters.iter().map(|letter| letter.top().mm()).fold(0.0, f64::max);
    let laid = |one: &Polygon| one.iter().map(|&(x, y)| (20.0 + x, 60.0 + height - y)).collect();
    let letters = cuts(strip, &layout, stash);
    let shapes = letters.iter().map(|cut| cut.edge.iter().map(laid).collect()).collect();
    let end = layout.letters.iter().map(oddment::title::LetterBox::right).max().unwrap_or(Length::ZERO).mm();
    SheetPicture {
        told: "template of the title".into(),
        width: 297.0,
        height: 210.0,
        writing: vec![Writing {
            at: (20.0, 30.0),
            width: 120.0,
            size: 6.0,
            text: "Template of the title".into(),
            strong: true,
        }],
        shapes,
        lines: vec![
            ((20.0, 60.0 + height), (20.0 + end, 60.0 + height)),
            ((20.0, 180.0), (120.0, 180.0)),
            ((20.0, 178.0), (20.0, 182.0)),
            ((120.0, 178.0), (120.0, 182.0)),
        ],
    }
}

/// The order of the sample's other page as the program shows it.
fn printed(keys: &str) -> State {
    let mut state = on_sample("quayside-supper");
    press(&mut state, "5");
    let order = Order::of(state.trial.plan(), &state.shelf.stash);
    let head = Head { date: None, file: Some("quayside-supper".into()) };
    let sheets = sheets(&order, &head, state.order_paper(), state.unit()).unwrap();
    state.show_order(&order_text(&order, &head, state.unit()), Ok(pictures(&sheets)));
    press(&mut state, keys);
    state
}

#[test]
fn the_readme_shows_a_sheet_as_it_is() {
    let shown = text(&draw(&mut printed("tab right"), USUAL, Colours::None));
    let is_shown = include_str!("../../README.md").contains(&format!("```text\n{shown}```\n"));
    assert!(is_shown, "put it in the README:\n{shown}");
}

#[test]
fn every_sheet_of_a_printed_order_has_something_to_see() {
    let mut state = printed("tab");
    assert!(state.order.count() > 3);
    for place in 0..state.order.count() {
        let shown = text(&draw(&mut state, LARGE, Colours::None));
        let told = state.sheet_told(state.order.sheet().unwrap());
        assert!(told.starts_with(&format!("sheet {} of ", place + 1)), "{told}");
        let right = |line: &str| line.chars().skip(82).collect::<String>();
        let paper = shown.lines().skip(5).map(right).collect::<String>();
        assert!(paper.chars().any(|c| "·█▀▄".contains(c)), "{told}\n{shown}");
        press(&mut state, "right");
    }
}

#[test]
fn from_near_a_sheet_is_drawn_as_it_goes_on_and_on_a_large_screen_it_can_be_read() {
    let mut state = printed("right z");
    let edges = |state: &mut State| {
        let shown = text(&draw(state, LARGE, Colours::None));
        let edge = "─".repeat(138);
        (shown.contains(&format!("┌{edge}┐")), shown.contains(&format!("└{edge}┘")), shown)
    };
    let (top, bottom, shown) = edges(&mut state);
    assert!(top && !bottom, "{shown}");
    assert!(shown.contains("  Lay the clear carrier over the carrier line"), "{shown}");
    assert!(shown.contains(" 3 ") && shown.contains(" 7 "), "{shown}");
    press(&mut state, "end");
    let (top, bottom, shown) = edges(&mut state);
    assert!(!top && bottom, "{shown}");
    assert!(shown.contains("measure this before use"), "{shown}");
    let smaller = text(&draw(&mut state, USUAL, Colours::None));
    assert!(smaller.contains(&format!("└{}┘", "─".repeat(78))), "never beyond its lower edge\n{smaller}");
}

/// Pictures by name: the keys that lead there.
const VIEWS: [(&str, &str); 6] = [
    ("order", ""),
    ("order-sheets", "tab"),
    ("order-template", "tab right"),
    ("order-near", "right z down down down"),
    ("order-text", "f tab"),
    ("order-letter", "i p tab"),
];

#[test]
fn the_order_at_the_usual_size() {
    for (name, keys) in VIEWS {
        picture(&format!("{name}-80x24"), &mut order(keys), USUAL, Colours::True);
    }
}

#[test]
fn a_large_screen_shows_both_looks_and_a_small_one_one() {
    for (name, keys) in &VIEWS[..5] {
        picture(&format!("{name}-140x45"), &mut order(keys), LARGE, Colours::True);
    }
    for (name, keys) in &VIEWS[..4] {
        picture(&format!("{name}-60x18"), &mut order(keys), SMALL, Colours::True);
    }
}

#[test]
fn without_colours_the_same_is_seen() {
    for (name, keys) in &VIEWS[..4] {
        picture(&format!("{name}-no-colour"), &mut order(keys), USUAL, Colours::None);
    }
}

#[test]
fn where_there_can_be_no_sheets_it_is_told_why_and_what_would_help() {
    let mut state = order("p p tab");
    assert_eq!(state.order_paper(), Paper::Page);
    let told = "the plan gives no page size; choose a4 or letter, or give the plan a size";
    state.show_order("words", Err(told.into()));
    picture("order-no-sheets-80x24", &mut state, USUAL, Colours::True);
    picture("order-no-sheets-140x45", &mut state, LARGE, Colours::True);
}

#[test]
fn no_frame_is_broken_at_any_size() {
    let sizes = [USUAL, LARGE, SMALL, (59, 17), (61, 19), (119, 24), (120, 24), (200, 60), (1, 1), (0, 0)];
    for size in sizes {
        for colours in [Colours::True, Colours::Palette, Colours::Sixteen, Colours::None] {
            for (_, keys) in VIEWS {
                text(&draw(&mut order(keys), size, colours));
            }
        }
    }
}

#[test]
fn what_is_far_off_the_paper_or_odd_is_drawn_as_far_as_it_can_be() {
    let mut state = order("tab");
    let mut sheet = template(&state);
    sheet.lines.push(((-1e9, 5.0), (1e9, 6.0)));
    sheet.shapes.push(vec![vec![(-50.0, -50.0), (900.0, -50.0), (-50.0, 900.0)]]);
    for (at, width) in
        [((-40.0, 20.0), 60.0), ((280.0, 20.0), 500.0), ((10.0, 900.0), 9.0), ((0.0, 9.0), 0.0)]
    {
        sheet.writing.push(Writing {
            at,
            width,
            size: 5.0,
            text: "\u{1b}[2J\u{6f22}\u{5b57}".into(),
            strong: true,
        });
    }
    state.show_order("words\u{7}", Ok(vec![sheet]));
    for size in [USUAL, LARGE, SMALL] {
        text(&draw(&mut state, size, Colours::None));
    }
}
