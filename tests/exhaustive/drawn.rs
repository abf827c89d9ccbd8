//! Small cases drawn from a seed: a stash, a plan, and what other plans speak for. Invented data throughout.
//!
//! Must not know what is checked on them.

use oddment::letter::Character;
use oddment::measure::{Angle, Colour, Length, Point, Size as Box2, Tint};
use oddment::page::{Element, Kind, Lie, Outline, Page};
use oddment::plan::Plan;
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::title::{ByHand, CaseRule, FormRule, Mix, Place, Role, Rules, Sticker, Stood, Strip, Wording};

use crate::draw::{Draw, filled};
use crate::opinion::options;

/// Characters that sheets carry: with stand-ins of every kind among them, small marks, and one with an accent.
pub(super) const CARRIED: [&str; 28] = [
    "A", "E", "S", "O", "Q", "M", "W", "N", "Z", "V", "R", "P", "I", "a", "e", "s", "o", "n", "u", "l", "p",
    "0", "5", "1", ",", "-", "É", "♥",
];
/// Characters that wordings ask for.
const ASKED: [&str; 24] = [
    "A", "E", "S", "O", "M", "W", "N", "Z", "V", "P", "I", "F", "a", "e", "s", "o", "n", "u", "b", "0", "'",
    "-", "É", "é",
];
/// Colours: some alike, some greyish, some far from all.
const COLOURS: [&str; 16] = [
    "#008080", "#0a7a7c", "#20b2aa", "#d9a441", "#e0b050", "#ff7f50", "#e8684a", "#2f3e46", "#24343d",
    "#ffffff", "#f4efe6", "#808080", "#111111", "#7b2d8b", "#c2185b", "#3f51b5",
];

fn tint(draw: &mut Draw) -> Tint {
    Tint::plain(Colour::from_hex(draw.pick::<&str>(&COLOURS)).unwrap())
}

fn tints(draw: &mut Draw, least: usize, most: usize) -> Vec<Tint> {
    let count = least + draw.below(most - least + 1);
    (0..count).map(|_| tint(draw)).collect()
}

/// One case.
pub(super) struct Case {
    pub(super) stash: Stash,
    pub(super) plan: Plan,
    /// Another plan, whose letters are spoken for.
    pub(super) other: Plan,
}

impl Case {
    pub(super) fn new(seed: u64) -> Self {
        let mut draw = Draw::new(seed);
        let stash = stash(&mut draw);
        let page = page(&mut draw);
        let mut strips = vec![strip(&mut draw, Role::title(), &stash)];
        if draw.chance(30) {
            strips.push(strip(&mut draw, Role::subtitle(), &stash));
        }
        if draw.chance(10) {
            strips.push(strip(&mut draw, Role::new("date").unwrap(), &stash));
        }
        let other = Plan::new(None, Page::default(), vec![strip(&mut draw, Role::title(), &stash)]).unwrap();
        Self { plan: Plan::new(None, page, strips).unwrap(), stash, other }
    }

    /// The same, now and then with a strip that is stuck down save for a few letters.
    pub(super) fn stuck_here_and_there(seed: u64) -> Self {
        let mut case = Self::new(seed);
        let mut draw = Draw::new(!seed);
        let strips = case.plan.strips().iter().cloned();
        let strips =
            strips.map(|strip| if draw.chance(8) { stuck(&mut draw, strip) } else { strip }).collect();
        case.plan = Plan::new(None, case.plan.page, strips).unwrap();
        case
    }
}

fn stuck(draw: &mut Draw, mut strip: Strip) -> Strip {
    strip.stuck = Some(1);
    let mut loose = |stood: &Stood| Stood { loose: draw.chance(20), ..stood.clone() };
    let letters = strip.letters().iter().map(|stood| stood.as_ref().map(&mut loose)).collect();
    filled(strip, letters)
}

pub(super) fn character(text: &str) -> Character {
    Character::new(text).unwrap()
}

pub(super) fn stash(draw: &mut Draw) -> Stash {
    let count = 2 + draw.below(4);
    Stash::new((0..count).map(|place| sheet(draw, place)).collect())
}

fn sheet(draw: &mut Draw, place: usize) -> Sheet {
    let form = *draw.pick(Form::ALL);
    let tile = form == Form::Tile;
    let height = Length::from_nm(
        500_000 * *draw.pick(&[16, 24, 36, 37, 38, 40, 40, 40, 42, 44, 46, 48, 50, 60, 80_i64]),
    );
    Sheet {
        id: SheetId::new(&format!("sheet-{place}")).unwrap(),
        label: Label::default(),
        make: Make {
            form,
            finish: if draw.chance(60) { Finish::Matte } else { *draw.pick(Finish::ALL) },
            neutral: draw.chance(8),
            joined: draw.chance(20),
            plain_tile: draw.chance(50),
        },
        size: Size {
            height,
            height_of: if draw.chance(70) { HeightOf::Capital } else { *draw.pick(HeightOf::ALL) },
            tile_width: draw.chance(30).then(|| draw.mm(8, 30)),
            thick: None,
        },
        paint: Paint {
            colours: tints(draw, 1, 2),
            outline: (!tile && draw.chance(30)).then(|| tint(draw)),
            tile: (tile && draw.chance(80)).then(|| tint(draw)),
        },
        letters: letters(draw),
        record: Record::default(),
    }
}

fn letters(draw: &mut Draw) -> Vec<Letter> {
    let mut letters = Vec::new();
    for carried in CARRIED {
        for mark in [None, Some("spare")] {
            if draw.chance(if mark.is_none() { 60 } else { 12 }) {
                letters.push(Letter {
                    character: character(carried),
                    mark: mark.map(|mark| Mark::new(mark).unwrap()),
                    left: u16::try_from(draw.below(4)).unwrap(),
                    width: draw.chance(15).then(|| draw.mm(8, 30)),
                    height: draw.chance(10).then(|| draw.mm(10, 30)),
                    colours: if draw.chance(12) { tints(draw, 1, 2) } else { Vec::new() },
                });
            }
        }
    }
    letters
}

fn page(draw: &mut Draw) -> Page {
    let mut page = Page { ground: draw.chance(60).then(|| tint(draw)), ..Page::default() };
    if draw.chance(60) {
        page.size = Some(Box2 { width: draw.mm(60, 120), height: draw.mm(60, 120) });
    }
    if draw.chance(40) {
        page.colours = tints(draw, 1, 4);
    }
    if draw.chance(50) {
        page.elements = (0..=draw.below(3)).map(|_| element(draw)).collect();
    }
    page
}

fn element(draw: &mut Draw) -> Element {
    let lie = Lie {
        at: Point { x: draw.mm(0, 50), y: draw.mm(0, 50) },
        size: Box2 { width: draw.mm(10, 80), height: draw.mm(10, 80) },
        turn: Angle::ZERO,
        outline: Outline::Rect,
    };
    let colours = tints(draw, 0, 3);
    Element { name: None, kind: *draw.pick(Kind::ALL), original: false, lie, colours, cover: None, bed: None }
}

pub(super) fn wording(draw: &mut Draw) -> Wording {
    let count = draw.below(11);
    let broken = draw.chance(25).then(|| draw.below(count + 1));
    let mut text = String::new();
    for place in 0..count {
        if broken == Some(place) {
            text.push('\n');
        } else if draw.chance(25) {
            text.push(' ');
        }
        text.push_str(draw.pick::<&str>(&ASKED));
    }
    Wording::new(&text).unwrap()
}

fn rules(draw: &mut Draw, role: &Role) -> Rules {
    let mut rules = Rules::new(role.usual_mix());
    rules.mix = *draw.pick(Mix::ALL);
    rules.case = if draw.chance(60) { CaseRule::Any } else { *draw.pick(CaseRule::ALL) };
    rules.forms = if draw.chance(70) { FormRule::Any } else { *draw.pick(FormRule::ALL) };
    rules.tall = draw.chance(40).then(|| (draw.mm(8, 18), draw.mm(19, 40)));
    rules.on = draw.chance(30).then(|| tint(draw));
    rules
}

pub(super) fn strip(draw: &mut Draw, role: Role, stash: &Stash) -> Strip {
    let mut strip = Strip::new(role, wording(draw));
    strip.rules = rules(draw, strip.role());
    if draw.chance(50) {
        strip.place = Place { at: Some(Point { x: draw.mm(0, 40), y: draw.mm(20, 60) }), turn: Angle::ZERO };
    }
    let ids = ["ends", "lead", "scarce", "neighbours", "height", "missing", "near", "joined", "monotony"];
    strip.accepted = ids.iter().filter(|_| draw.chance(4)).map(|id| (*id).to_owned()).collect();
    let fills: Vec<Option<Stood>> = (0..strip.len()).map(|slot| fill(draw, &strip, slot, stash)).collect();
    filled(strip, fills)
}

fn fill(draw: &mut Draw, strip: &Strip, slot: usize, stash: &Stash) -> Option<Stood> {
    let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
    match draw.below(100) {
        0..10 => None,
        10..20 => Some(Stood::straight(by_hand(draw))),
        _ => {
            let options = options(stash, &wanted);
            if options.is_empty() {
                return draw.chance(70).then(|| Stood::straight(by_hand(draw)));
            }
            let &(chip, stands_in) = draw.pick(&options);
            Some(Stood::straight(Sticker::Chip { id: stash.chip(chip).id(), stands_in }))
        }
    }
}

fn by_hand(draw: &mut Draw) -> Sticker {
    let colour = draw.chance(70).then(|| tint(draw));
    Sticker::Hand(ByHand { label: "button".into(), width: draw.mm(8, 25), height: None, colour })
}
