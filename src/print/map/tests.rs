//! What must hold of every map: to scale, named, and nothing off its sheet.
//!
//! Must not know how a map is drawn.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use super::{map_piece, true_size};
use crate::measure::{Angle, Extent, Length, Point, Size, Unit};
use crate::order::{Order, trial};
use crate::page::{Element, Kind, Lie, Outline, Page};
use crate::plan::Plan;
use crate::print::clip::holds;
use crate::print::sheet::{Mark, Piece, Sense};
use crate::title::Role;

fn at(x: i64, y: i64) -> Point {
    Point { x: Length::from_mm(x), y: Length::from_mm(y) }
}

fn size(width: i64, height: i64) -> Size {
    Size { width: Length::from_mm(width), height: Length::from_mm(height) }
}

fn thing(name: &str, kind: Kind, from: Point, size: Size, turn: i32) -> Element {
    let lie = Lie { at: from, size, turn: Angle::from_thousandths(turn), outline: Outline::Rect };
    Element {
        name: Some(name.into()),
        kind,
        original: false,
        lie,
        colours: Vec::new(),
        cover: None,
        bed: None,
    }
}

/// A photo on a mat of which little more than a rim is seen, something half off the page, an original, and a strip that runs
/// off the page.
fn order(page: Size) -> Order {
    let mut original = thing("the oldest picture", Kind::Photo, at(20, 130), size(50, 40), 2_000);
    original.original = true;
    let elements = vec![
        thing("mat", Kind::Mat, at(8, 30), size(104, 74), 0),
        thing("quay", Kind::Photo, at(10, 32), size(100, 70), 0),
        thing("ribbon", Kind::Border, at(-20, 180), size(400, 8), -1_000),
        original,
    ];
    let page = Page { size: Some(page), elements, ..Page::default() };
    let strip = trial::strip(Role::title(), "LANESTN", &["blocks/L", "blocks/A", "-", "blocks/E", "kelp/V"]);
    let strips = vec![trial::place(strip, 4_000)];
    Order::of(&Plan::new(None, page, strips).unwrap(), &trial::stash())
}

fn extent(mark: &Mark) -> Extent {
    match mark {
        Mark::Words(words) => {
            let (x, y) = words.at;
            Extent { left: x, top: y - words.size * 0.73, right: x + words.width(), bottom: y }
        }
        Mark::Shape(shape) => Extent::of(&shape.outline).unwrap(),
        Mark::Line { from, to, .. } => Extent::of(&[vec![*from, *to]]).unwrap(),
    }
}

fn words(pieces: &[Piece]) -> Vec<&str> {
    let words = |mark: &'_ Mark| matches!(mark, Mark::Words(_));
    let marks = pieces.iter().flat_map(|piece| &piece.marks).filter(|mark| words(mark));
    marks
        .filter_map(|mark| if let Mark::Words(words) = mark { Some(words.text.as_str()) } else { None })
        .collect()
}

#[test]
fn the_map_keeps_to_its_room_and_is_never_larger_than_the_page() {
    for page in [size(200, 300), size(125, 125), size(1000, 200), size(150, 1000)] {
        for (wide, high) in [(105.0, 200.0), (190.0, 150.0), (260.0, 250.0), (980.0, 980.0)] {
            let order = order(page);
            let map = order.map.as_ref().unwrap();
            let (pieces, used) = map_piece(map, (12.0, 34.0), (wide, high));
            let room = Extent { left: 12.0, top: 34.0, right: 12.0 + wide, bottom: 34.0 + used };
            for mark in pieces.iter().flat_map(|piece| &piece.marks) {
                assert!(holds(room, extent(mark)), "{mark:?} of {page:?} in {wide} x {high}, {used} used");
            }
            let outline = extent(&pieces[0].marks[0]);
            let (one, other) = (
                page.width.mm() / (outline.right - outline.left),
                page.height.mm() / (outline.bottom - outline.top),
            );
            assert!(one >= 1.0 - 1e-9 && (one - other).abs() < 1e-9, "{one} {other}");
        }
    }
}

#[test]
fn things_and_strips_are_named_on_the_map_and_in_its_key() {
    let order = order(size(200, 300));
    let (pieces, _) = map_piece(order.map.as_ref().unwrap(), (10.0, 10.0), (190.0, 160.0));
    let words = words(&pieces);
    for told in ["A", "B", "C", "D", "title", "A: mat", "B: quay, photo", "C: ribbon, border"] {
        assert!(words.contains(&told), "{told}: {words:?}");
    }
    assert!(
        words.iter().any(|line| line.starts_with("D: the oldest picture, photo, an original")),
        "{words:?}"
    );
    assert!(words.iter().any(|line| line.starts_with("The page, about 1 to ")), "{words:?}");
    let key = words.join(" ");
    assert!(key.contains("dashed: the strip's room; in thin outline: missing letters."), "{key}");
    let Sense::Drawing(told) = &pieces[0].sense else { return assert_eq!(pieces[0].sense, Sense::Ornament) };
    assert!(told.contains("B: quay, photo") && told.contains("the title"), "{told}");
}

#[test]
fn what_is_missing_is_outlined_and_no_thing_is_named_in_a_strips_room() {
    let order = order(size(200, 300));
    let map = order.map.as_ref().unwrap();
    assert_eq!((map.strips[0].letters.len(), map.strips[0].missing.len()), (4, 3));
    let (pieces, _) = map_piece(map, (10.0, 10.0), (190.0, 160.0));
    let thin = |mark: &&Mark| matches!(mark, Mark::Shape(shape) if shape.fill.is_none() && shape.pen.is_some_and(|pen| pen.width < 0.12));
    assert_eq!(pieces[0].marks.iter().filter(thin).count(), 3);
    let room =
        |mark: &Mark| matches!(mark, Mark::Shape(shape) if shape.pen.is_some_and(|pen| pen.dash.is_some()));
    let room = extent(pieces[0].marks.iter().find(|mark| room(mark)).unwrap());
    for mark in &pieces[0].marks {
        let names = match mark {
            Mark::Words(words) => words.text.chars().count() == 1,
            Mark::Line { .. } => true,
            Mark::Shape(_) => false,
        };
        assert!(!names || !crate::print::clip::meet(room, extent(mark)), "{mark:?} in {room:?}");
    }
}

#[test]
fn a_sheet_of_the_page_shows_every_letter_where_it_comes_to_stand() {
    for page in [size(200, 300), size(305, 305), size(125, 125), size(1000, 1000), size(90, 200)] {
        let order = order(page);
        let map = order.map.as_ref().unwrap();
        let sheet = true_size(&order, map, Unit::Millimetre);
        assert_eq!(sheet.size, page);
        let within = Extent { left: 0.0, top: 0.0, right: page.width.mm(), bottom: page.height.mm() };
        let marks: Vec<&Mark> = sheet.pieces.iter().flat_map(|piece| &piece.marks).collect();
        for mark in &marks {
            assert!(holds(within, extent(mark)), "{mark:?} on {page:?}");
        }
        for letter in &map.strips[0].letters {
            let whole = holds(within, Extent::of(letter).unwrap());
            let found =
                marks.iter().any(|mark| matches!(mark, Mark::Shape(shape) if &shape.outline == letter));
            assert_eq!(found, whole, "on {page:?}");
        }
        let bars = marks
            .iter()
            .filter(|mark| matches!(mark, Mark::Line { from, to, .. } if to.0 - from.0 > 99.0))
            .count();
        assert_eq!(bars, if page.width.mm() > 122.0 { 2 } else { 0 });
    }
}

#[test]
fn letters_of_the_page_have_the_numbers_of_their_slots() {
    let order = order(size(305, 305));
    let sheet = true_size(&order, order.map.as_ref().unwrap(), Unit::Inch);
    let words = words(&sheet.pieces);
    for (number, stands) in [("1", true), ("2", true), ("3", false), ("4", true), ("5", true), ("6", false)] {
        assert_eq!(words.contains(&number), stands, "{number}: {words:?}");
    }
    assert!(words.contains(&"mat") && words.contains(&"quay"), "{words:?}");
}

#[test]
fn the_cross_marks_are_where_the_sheet_says() {
    let order = order(size(305, 305));
    for (unit, told, inside) in [(Unit::Millimetre, "15 mm", 15.0), (Unit::Inch, "5/8 in", 25.4 * 5.0 / 8.0)]
    {
        let sheet = true_size(&order, order.map.as_ref().unwrap(), unit);
        let text = words(&sheet.pieces).join(" ");
        assert!(text.contains(&format!("Each cross mark is {told} from both edges")), "{text}");
        let crosses = |near: f64| {
            let over = |mark: &&Mark| {
                matches!(mark, Mark::Line { from, to, .. }
                    if (from.1 - near).abs() < 1e-9 && (to.1 - near).abs() < 1e-9
                        && [inside, 305.0 - inside].iter().any(|x| (f64::midpoint(from.0, to.0) - x).abs() < 1e-9))
            };
            sheet.pieces.iter().flat_map(|piece| &piece.marks).filter(over).count()
        };
        assert_eq!((crosses(inside), crosses(305.0 - inside)), (2, 2), "{told}");
    }
}
