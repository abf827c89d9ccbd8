//! A small stash and plans on it, for the tests of orders: invented names and counts.
//!
//! Must not know what is tested.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use crate::letter::{Character, StandInKind, stand_ins};
use crate::measure::{Angle, Colour, Length, Point, Size, Tint};
use crate::page::{Element, Kind, Lie, Outline, Page};
use crate::plan::Plan;
use crate::stash::{
    ChipId, Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Stash,
};
use crate::title::{ByHand, Edit, Role, Sticker, Stood, Strip, Wording};

/// A sheet of these letters: `A2` are two plain ones, `S1:coral` one with a mark.
pub(crate) fn sheet(id: &str, tag: Option<&str>, name: Option<&str>, form: Form, letters: &str) -> Sheet {
    let letter = |text: &str| {
        let (text, mark) = text.split_once(':').map_or((text, None), |(text, mark)| (text, Some(mark)));
        let at = text.find(|c: char| c.is_ascii_digit()).unwrap();
        let own = mark.and_then(Colour::named);
        Letter {
            character: Character::new(&text[..at]).unwrap(),
            mark: mark.map(|mark| Mark::new(mark).unwrap()),
            left: text[at..].parse().unwrap(),
            width: None,
            height: None,
            colours: own.map(|colour| Tint::called(mark.unwrap(), colour)).into_iter().collect(),
        }
    };
    Sheet {
        id: SheetId::new(id).unwrap(),
        label: Label { name: name.map(Into::into), tag: tag.map(Into::into), note: None, aside: false },
        make: Make { form, finish: Finish::Matte, neutral: false, joined: false, plain_tile: false },
        size: crate::stash::Size {
            height: Length::from_mm(12),
            height_of: HeightOf::Capital,
            tile_width: None,
            thick: None,
        },
        paint: Paint {
            colours: vec![Tint::called("teal", Colour::named("teal").unwrap())],
            outline: None,
            tile: None,
        },
        letters: letters.split(' ').map(letter).collect(),
        record: Record::default(),
    }
}

/// Tiles with the tag 37, die-cut letters with the tag 4, and two sheets of one name.
pub(crate) fn stash() -> Stash {
    Stash::new(vec![
        sheet("blocks", Some("37"), Some("Harbour blocks"), Form::Tile, "L2 A2 E1 N3 T1 S1 S1:coral"),
        sheet("kelp", Some("4"), Some("Kelp"), Form::DieCut, "L1 N1 V1 Q2 R1 W1 g1 ,2 Z1"),
        sheet("plain-a", None, None, Form::Tile, "A1"),
        sheet("plain-b", None, None, Form::Tile, "O1"),
    ])
}

/// A strip of `wording` with these chips, `-` for an empty slot; a stand-in is found by the table.
pub(crate) fn strip(role: Role, wording: &str, chips: &[&str]) -> Strip {
    let mut strip = Strip::new(role, Wording::new(wording).unwrap());
    for (slot, chip) in chips.iter().enumerate().filter(|(_, chip)| **chip != "-") {
        let id = ChipId::parse(chip).unwrap();
        let wanted = strip.wording().slots()[slot].character.clone();
        let stands_in: Option<StandInKind> =
            stand_ins(&wanted).into_iter().find(|one| one.used == id.character).map(|one| one.kind);
        stand(&mut strip, slot, Stood::straight(Sticker::Chip { id, stands_in }));
    }
    strip
}

/// Puts `stood` in `slot`.
pub(crate) fn stand(strip: &mut Strip, slot: usize, stood: Stood) {
    let _ = Edit::Letter { slot, stood: Some(stood) }.apply(strip);
}

/// A thing of that width.
pub(crate) fn thing(label: &str, width: i64) -> Stood {
    let width = Length::from_mm(width);
    Stood::straight(Sticker::Hand(ByHand { label: label.into(), width, height: None, colour: None }))
}

/// A page of 200 by 300 mm with nothing on it.
pub(crate) fn page() -> Page {
    Page { size: Some(Size { width: Length::from_mm(200), height: Length::from_mm(300) }), ..Page::default() }
}

/// A strip placed with its first feet 40 mm from the left and 109 mm from the top edge, turned by thousandths.
pub(crate) fn place(mut strip: Strip, turn: i32) -> Strip {
    strip.place.at = Some(Point { x: Length::from_mm(40), y: Length::from_mm(109) });
    strip.place.turn = Angle::from_thousandths(turn);
    strip
}

/// A title with no page.
pub(crate) fn plan(wording: &str, chips: &[&str]) -> Plan {
    Plan::new(None, Page::default(), vec![strip(Role::title(), wording, chips)]).unwrap()
}

/// A title placed on [`page`].
pub(crate) fn placed(wording: &str, chips: &[&str], turn: i32) -> Plan {
    let strip = place(strip(Role::title(), wording, chips), turn);
    Plan::new(Some("Lantern walk".into()), page(), vec![strip]).unwrap()
}

/// The same with a photo whose top edge lies `top` mm down the page.
pub(crate) fn on_photo(wording: &str, chips: &[&str], original: bool, top: i64) -> Plan {
    let photo = Element {
        name: Some("harbour photo".into()),
        kind: Kind::Photo,
        original,
        lie: Lie {
            at: Point { x: Length::from_mm(20), y: Length::from_mm(top) },
            size: Size { width: Length::from_mm(150), height: Length::from_mm(100) },
            turn: Angle::ZERO,
            outline: Outline::Rect,
        },
        colours: Vec::new(),
        cover: None,
        bed: None,
    };
    let page = Page { elements: vec![photo], ..page() };
    let strips = placed(wording, chips, 0).strips().to_vec();
    Plan::new(Some("Lantern walk".into()), page, strips).unwrap()
}
