//! Made-up stashes and plans for seeded cases.
//!
//! Must not know what is tried on them.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

use oddment::checks::candidates;
use oddment::letter::Character;
use oddment::measure::{Angle, Colour, Length, Point, Size, Tint};
use oddment::page::{Cover, Element, Kind, Lie, Outline, Page};
use oddment::plan::Plan;
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size as SheetSize,
    Stash,
};
use oddment::title::{
    ByHand, CaseRule, FormRule, LineUp, Mix, Place, Role, Rules, Setting, Spacing, Sticker, Stood, Strip,
    Wording,
};

use super::dice::Dice;

const COLOURS: [&str; 12] = [
    "#d9a441", "#008080", "#f0735a", "#2f3e46", "#ffffff", "#111111", "#808080", "#b85fc0", "#dba33f",
    "#1f3a5f", "#0a8a86", "#c8a27a",
];
const LETTERS: [&str; 16] = ["L", "A", "N", "T", "E", "R", "W", "K", "M", "a", "e", "n", "u", "0", "O", ","];
const WORDINGS: [&str; 9] =
    ["", "A", "LANE", "TEN LAKE", "WALK", "AT\nNEWEL", "LANTERN WALK", "ante, neat", "KNEE LANE EARN"];

fn tint(dice: &mut Dice) -> Tint {
    Tint::plain(Colour::from_hex(dice.one_of(&COLOURS)).unwrap())
}

fn maybe<T>(dice: &mut Dice, sides: usize, make: impl FnOnce(&mut Dice) -> T) -> Option<T> {
    dice.hit(sides).then(|| make(dice))
}

fn sheet(dice: &mut Dice, place: usize) -> Sheet {
    let several = 1 + usize::from(dice.hit(4));
    Sheet {
        id: SheetId::new(&format!("sheet-{place}")).unwrap(),
        label: Label::default(),
        make: Make {
            form: if dice.hit(3) { Form::Tile } else { Form::DieCut },
            finish: dice.one_of(Finish::ALL),
            neutral: dice.hit(12),
            joined: dice.hit(8),
            plain_tile: dice.hit(2),
        },
        size: SheetSize {
            height: Length::from_nm(
                i64::try_from(16 + dice.below(14)).unwrap() * 1_000_000
                    + i64::try_from(dice.below(10)).unwrap() * 100_000,
            ),
            height_of: dice.one_of(HeightOf::ALL),
            tile_width: None,
            thick: None,
        },
        paint: Paint {
            colours: (0..several).map(|_| tint(dice)).collect(),
            outline: maybe(dice, 6, tint),
            tile: maybe(dice, 2, tint),
        },
        letters: letters(dice),
        record: Record::default(),
    }
}

fn letters(dice: &mut Dice) -> Vec<Letter> {
    let mut letters = Vec::new();
    for text in LETTERS {
        if dice.hit(3) {
            continue;
        }
        let letter = Letter {
            character: Character::new(text).unwrap(),
            mark: None,
            left: u16::try_from(dice.below(4)).unwrap(),
            width: maybe(dice, 5, |dice| Length::from_mm(8 + i64::try_from(dice.below(20)).unwrap())),
            height: maybe(dice, 9, |dice| Length::from_mm(15 + i64::try_from(dice.below(15)).unwrap())),
            colours: Vec::new(),
        };
        if dice.hit(7) {
            let mark = Some(Mark::new("other").unwrap());
            letters.push(Letter { mark, left: 1, colours: vec![tint(dice)], ..letter.clone() });
        }
        letters.push(letter);
    }
    letters
}

pub(super) fn stash(dice: &mut Dice) -> Stash {
    let sheets = 1 + dice.below(5);
    Stash::new((0..sheets).map(|place| sheet(dice, place)).collect())
}

fn page(dice: &mut Dice) -> Page {
    let mut page = Page::default();
    if dice.hit(3) {
        return page;
    }
    page.size = maybe(dice, 2, |_| Size { width: Length::from_mm(150), height: Length::from_mm(120) });
    page.ground = maybe(dice, 2, tint);
    if dice.hit(2) {
        page.colours = (0..=dice.below(4)).map(|_| tint(dice)).collect();
    }
    for _ in 0..dice.below(4) {
        page.elements.push(element(dice));
    }
    page
}

fn element(dice: &mut Dice) -> Element {
    let mm = |dice: &mut Dice, most: usize| Length::from_mm(i64::try_from(dice.below(most)).unwrap());
    let at = Point { x: mm(dice, 100), y: mm(dice, 80) };
    let size = Size { width: mm(dice, 80) + Length::from_mm(5), height: mm(dice, 60) + Length::from_mm(5) };
    let turn = Angle::from_thousandths(i32::try_from(dice.below(40)).unwrap() * 1000 - 20_000);
    Element {
        name: None,
        kind: dice.one_of(Kind::ALL),
        original: false,
        lie: Lie { at, size, turn, outline: dice.one_of(Outline::ALL) },
        colours: (0..dice.below(3)).map(|_| tint(dice)).collect(),
        cover: None::<Cover>,
        bed: None,
    }
}

fn strip(dice: &mut Dice, role: Role, stash: &Stash) -> Strip {
    let mut strip = Strip::new(role, Wording::new(dice.one_of(&WORDINGS)).unwrap());
    strip.rules = Rules {
        case: dice.one_of(CaseRule::ALL),
        forms: if dice.hit(3) { dice.one_of(FormRule::ALL) } else { FormRule::Any },
        mix: dice.one_of(Mix::ALL),
        tall: maybe(dice, 3, |_| (Length::from_mm(18), Length::from_mm(24))),
        room: maybe(dice, 3, |_| Length::from_mm(150)),
        on: maybe(dice, 3, tint),
    };
    strip.setting = Setting {
        spacing: dice.one_of(Spacing::ALL),
        line_up: dice.one_of(LineUp::ALL),
        ..Setting::default()
    };
    let at = maybe(dice, 2, |_| Point { x: Length::from_mm(20), y: Length::from_mm(60) });
    strip.place = Place { at, turn: Angle::from_thousandths(if dice.hit(2) { 5000 } else { 0 }) };
    for id in ["ends", "lead", "height", "scarce"] {
        if dice.hit(9) {
            strip.accepted.insert(id.into());
        }
    }
    let letters = (0..strip.len()).map(|slot| stood(dice, &strip, slot, stash)).collect();
    let _ = oddment::title::Edit::Wording(strip.wording().clone(), letters).apply(&mut strip);
    strip
}

/// Something that may stand in `slot`, or nothing.
pub(super) fn stood(dice: &mut Dice, strip: &Strip, slot: usize, stash: &Stash) -> Option<Stood> {
    if dice.hit(6) {
        return None;
    }
    if dice.hit(12) {
        let thing = ByHand {
            label: "button".into(),
            width: Length::from_mm(18),
            height: None,
            colour: maybe(dice, 2, tint),
        };
        return Some(Stood::straight(Sticker::Hand(thing)));
    }
    let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
    let serving = candidates(stash, strip, &wanted);
    if serving.is_empty() {
        return None;
    }
    let one = dice.one_of(&serving);
    Some(Stood::straight(Sticker::Chip { id: stash.chip(one.chip).id(), stands_in: one.stands_in }))
}

/// A plan with a title, and in every other case a subtitle.
pub(super) fn plan(dice: &mut Dice, stash: &Stash) -> Plan {
    let page = page(dice);
    let mut strips = vec![strip(dice, Role::title(), stash)];
    if dice.hit(2) {
        strips.push(strip(dice, Role::subtitle(), stash));
    }
    Plan::new(None, page, strips).unwrap()
}
