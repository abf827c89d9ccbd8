//! The order that is looked at, when the plan, the stash or the way it is printed changes.
//!
//! Must not know how an order is set on paper.

use super::{KELP, QUAY, Room};
use crate::app::{OrderSide, View};

/// The words of the order as they are shown.
fn words(room: &Room) -> String {
    room.desk.state.order.words.lines.join("\n")
}

#[test]
fn a_plan_or_a_sheet_changed_outside_is_seen_in_the_order() {
    let mut room = Room::new();
    room.press("5");
    assert!(words(&room).contains("NOT COMPLETE") && room.desk.state.order.count() > 1);
    room.write("pages/quay.toml", &QUAY.replace("'AB'", "'BA'"));
    assert!(room.look());
    assert!(words(&room).contains("BA"), "{}", words(&room));
    room.press("1 home down s 5");
    let before = words(&room);
    room.write("sheets/kelp.toml", &format!("name = 'Seaweed'\n{KELP}"));
    assert!(room.look());
    assert!(!before.contains("Seaweed") && words(&room).contains("Seaweed"), "{}", words(&room));
    assert!(!room.look(), "it is not drawn again for nothing");
}

#[test]
fn sticking_down_stays_in_the_view_with_what_is_chosen_there() {
    let mut room = Room::new();
    room.press("home down end down s 3 5 p tab");
    let made = words(&room);
    room.press("k y");
    let state = &room.desk.state;
    assert_eq!((state.look.view, state.order.side), (View::Order, OrderSide::Sheets));
    assert!(state.order_told().starts_with("pdf on letter, "), "{}", state.order_told());
    assert!(words(&room) != made && words(&room).contains("stuck down already"), "{}", words(&room));
    assert!(room.said().starts_with("stuck down: title 2"));
    room.press("l y");
    assert_eq!(words(&room), made);
    room.press("esc");
    assert_eq!(room.desk.state.look.view, View::Stash);
}

#[test]
fn lengths_and_paper_are_those_chosen_and_what_cannot_be_printed_is_told_and_not_written() {
    let mut room = Room::new();
    room.press("5 i");
    assert!(words(&room).contains(" in"), "{}", words(&room));
    room.press("p p");
    let why = "the plan gives no page size; choose a4 or letter, or give the plan a size";
    assert_eq!(room.desk.state.order.sheets, Err(why.to_owned()));
    room.press("s");
    assert_eq!(room.said(), format!("nothing is written: {why}"));
    assert!(!room.path("orders").exists());
}
