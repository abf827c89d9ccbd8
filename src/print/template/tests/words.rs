//! What must hold of the words of a template: beside what they name, and the same heard as seen.
//!
//! Must not know how a template is parted or drawn.

use super::*;
use crate::measure::Point;
use crate::print::sheet::Piece;

#[test]
fn what_is_beside_the_letters_is_named() {
    let order = order(&trial::on_photo("LA", &["blocks/L", "blocks/A"], false, 109));
    let sheets = sheets(&order, size(210, 297));
    let named =
        |name: &str| marks(&sheets[0]).any(|mark| matches!(mark, Mark::Words(words) if words.text == name));
    assert!(named("harbour photo") && named("measure to here") && named("carrier line"));
    let Some(Sense::Drawing(told)) =
        sheets[0].pieces.iter().map(|piece| &piece.sense).find(|sense| matches!(sense, Sense::Drawing(_)))
    else {
        return assert!(named("a drawing"));
    };
    assert!(told.contains("1 L, 2 A") && told.contains("In grey: harbour photo"), "{told}");
}

#[test]
fn every_cross_mark_and_every_carrier_line_has_its_words_beside_it() {
    everywhere(|strip, sheets| {
        let said = |told: &str| {
            let is_it =
                |mark: &&Mark| matches!(mark, Mark::Words(words) if words.text == told && words.size >= 2.6);
            sheets.iter().flat_map(marks).filter(is_it).count()
        };
        let wanted = strip.measured().len();
        let found = said("measure to here") + said("to here").min(said("measure"));
        assert_eq!(found, wanted, "{} on {:?}", strip.wording, sheets[0].size);
        assert!(said("carrier line") >= strip.template.feet.len(), "{}", strip.wording);
    });
}

#[test]
fn a_name_stands_in_its_thing_and_apart_from_numbers() {
    let order = order(&trial::on_photo("LA", &["blocks/L", "blocks/A"], false, 109));
    let strip = &order.strips[0];
    let photo = &strip.template.edges[1];
    let sheets = sheets(&order, size(210, 297));
    let outlines = outlines(&sheets[0]);
    let by = outlines.iter().find_map(|outline| moved(&strip.template.letters[0].edge, outline)).unwrap();
    let place = Extent::of(std::slice::from_ref(&photo.outline)).unwrap().moved(by.0, by.1);
    let name = marks(&sheets[0])
        .find(|mark| matches!(mark, Mark::Words(words) if words.text.starts_with("harbour photo")))
        .unwrap();
    assert!(holds(place, extent(name)), "{name:?} {place:?}");
    everywhere(|_, sheets| {
        for sheet in sheets {
            let words: Vec<_> = marks(sheet)
                .filter_map(
                    |mark| if let Mark::Words(words) = mark { Some((words, extent(mark))) } else { None },
                )
                .filter(|(words, _)| words.size == super::super::labels::SIZE)
                .collect();
            for (number, a) in words.iter().filter(|(words, _)| words.text.parse::<usize>().is_ok()) {
                for (name, b) in words.iter().filter(|(words, _)| words.text.parse::<usize>().is_err()) {
                    assert!(!meet(clip::grown(*a, 0.5), *b), "{number:?} {name:?}");
                }
            }
        }
    });
}

#[test]
fn what_is_missing_or_must_not_be_stuck_there_is_told_once_over_the_drawing() {
    let head = |order: &Order| {
        let sheet = sheets(order, size(210, 297)).remove(0);
        let words =
            |mark: &Mark| if let Mark::Words(words) = mark { words.text.clone() } else { String::new() };
        let paragraphs = sheet.pieces.iter().filter(|piece| piece.sense == Sense::Paragraph);
        paragraphs.flat_map(|piece| piece.marks.iter().map(words)).collect::<Vec<_>>().join(" ")
    };
    let on_original = order(&trial::on_photo("LA", &["blocks/L", "blocks/A"], true, 50));
    assert!(head(&on_original).contains("Do not stick it down where it lies: see sheet 1."));
    let two = order(&trial::placed("LANE", &["blocks/L", "-", "kelp/N"], 0));
    assert!(!head(&two).contains("Do not stick"));
    assert!(head(&two).contains("Outlines in fine dashes are missing: A (2), E (4)."), "{}", head(&two));
    let none = order(&trial::placed("LA", &["blocks/L", "blocks/A"], 0));
    assert!(!head(&none).contains("issing"), "{}", head(&none));
    let all = head(&empty("LANE", 20, 0));
    assert!(all.contains("Every letter is missing: their outlines are in fine dashes."), "{all}");
    let many = order(&trial::placed("ALONG THE QUAYSIDE", &["blocks/A"], 0));
    assert!(head(&many).contains("Outlines in fine dashes are missing: 15 of 16."), "{}", head(&many));
}

#[test]
fn what_is_seen_is_also_told() {
    let told = |order: &Order, paper: Size| -> Vec<String> {
        let pieces = sheets(order, paper).into_iter().flat_map(|sheet| sheet.pieces);
        let drawing = |piece: Piece| match piece.sense {
            Sense::Drawing(told) if told.starts_with("Letters") => Some(told),
            _ => None,
        };
        pieces.filter_map(drawing).collect()
    };
    let mut strip =
        trial::place(trial::strip(Role::title(), "LA\nN", &["blocks/L", "blocks/A", "kelp/N"]), 4_000);
    strip.place.at = Some(Point { x: Length::from_mm(-5), y: Length::from_mm(109) });
    let text = told(&of_strip(strip), size(210, 297)).concat();
    assert!(text.contains("1 L, 2 A; on the second line 3 N."), "{text}");
    assert!(
        text.contains(
            "measured to a cross mark on the carrier line at the left edge of 1 L and of 2 A and of 3 N."
        ),
        "{text}"
    );
    assert!(
        text.contains("reaches beyond the page's edge: 1.")
            || text.contains("letters reach beyond the page's edge: 1"),
        "{text}"
    );
    let parts = told(&empty("lantern walk along the quay", 25, 0), size(210, 297));
    assert!(parts[0].contains("At its right edge is joint 1: lay part 2's cut edge here."), "{parts:?}");
    assert!(parts[1].contains("At its left edge is joint 1: cut here."), "{parts:?}");
}
