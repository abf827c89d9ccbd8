//! Pages with things on them and strips of letters over them, drawn from a seed. Invented data throughout.
//!
//! Must not know what is checked on them.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

use oddment::letter::Character;
use oddment::measure::{Angle, Colour, Length, Point, Size as Box2, Tint};
use oddment::page::{Cover, Element, Kind, Lie, Outline, Page};
use oddment::plan::Plan;
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::title::{ByHand, Place, Role, Sticker, Stood, Strip, Wording};

use crate::draw::{Draw, filled};

/// How large things are drawn, in mm.
#[derive(Clone, Copy)]
pub(crate) struct Scale {
    /// The page's sides, least and most.
    pub(crate) page: (usize, usize),
    /// The letters' heights, least and most.
    pub(crate) tall: (usize, usize),
    /// How many things there are on the page, at most.
    pub(crate) things: usize,
    /// How many letters there are in a strip, at most.
    pub(crate) letters: usize,
}

/// A plan with its stash.
pub(crate) struct Drawn {
    pub(crate) stash: Stash,
    pub(crate) plan: Plan,
}

impl Drawn {
    /// A title that is placed and, some of the time, a subtitle that is too.
    pub(crate) fn new(seed: u64, scale: Scale) -> Self {
        let mut draw = Draw::new(seed);
        let stash = stash(&mut draw, scale);
        let page = page(&mut draw, scale);
        let mut strips = vec![strip(&mut draw, Role::title(), scale, &stash)];
        if draw.chance(40) {
            strips.push(strip(&mut draw, Role::subtitle(), scale, &stash));
        }
        Self { plan: Plan::new(None, page, strips).unwrap(), stash }
    }
}

/// A length with an odd part of a millimetre, so that no cell's centre lies on an edge by chance.
fn odd(draw: &mut Draw, least: i64, most: i64) -> Length {
    let mm = least + i64::try_from(draw.below(usize::try_from(most - least).unwrap())).unwrap();
    let rest = i64::try_from(draw.below(499_000)).unwrap();
    Length::from_nm(mm * 1_000_000 + 2 * rest + 1_001)
}

fn whole(draw: &mut Draw, least: i64, most: i64) -> Length {
    Length::from_mm(least + i64::try_from(draw.below(usize::try_from(most - least).unwrap())).unwrap())
}

/// Straight, a quarter turn, a slight turn, or any.
pub(crate) fn turn(draw: &mut Draw) -> Angle {
    match draw.below(10) {
        0..5 => Angle::ZERO,
        5 => *draw.pick(&[90_000, -90_000, 180_000].map(Angle::from_thousandths)),
        6..9 => Angle::from_thousandths(i32::try_from(draw.below(20_000)).unwrap() - 10_000),
        _ => Angle::from_thousandths(i32::try_from(draw.below(360_000)).unwrap()),
    }
}

fn page(draw: &mut Draw, scale: Scale) -> Page {
    let (least, most) = scale.page;
    let side = |draw: &mut Draw| {
        if draw.chance(60) {
            return draw.mm(least, most);
        }
        odd(draw, i64::try_from(least).unwrap(), i64::try_from(most).unwrap())
    };
    let size = Box2 { width: side(draw), height: side(draw) };
    let count = draw.below(scale.things + 1);
    Page {
        size: Some(size),
        margin: draw.mm(0, 8),
        elements: (0..count).map(|_| element(draw, size)).collect(),
        ..Page::default()
    }
}

fn element(draw: &mut Draw, page: Box2) -> Element {
    let round = draw.chance(25);
    let (wide, high) = (page.width.nm() / 1_000_000, page.height.nm() / 1_000_000);
    let of = if round || draw.chance(40) { odd } else { whole };
    let large = draw.chance(25);
    let most = |side: i64| if large { side } else { (side / 2).max(8) };
    let size = Box2 { width: of(draw, 5, most(wide)), height: of(draw, 5, most(high)) };
    let kind = *draw.pick(Kind::ALL);
    Element {
        name: None,
        kind,
        original: kind == Kind::Photo && draw.chance(30),
        lie: Lie {
            at: Point { x: of(draw, -6, wide - 4), y: of(draw, -6, high - 4) },
            size,
            turn: turn(draw),
            outline: if round { Outline::Round } else { Outline::Rect },
        },
        colours: Vec::new(),
        cover: draw.chance(40).then(|| *draw.pick(Cover::ALL)),
        bed: draw.chance(20).then(|| draw.chance(50)),
    }
}

/// A sheet of die-cut capitals, one of tiles, and one of small letters.
fn stash(draw: &mut Draw, scale: Scale) -> Stash {
    let makes = [(Form::DieCut, 'A'..='Z'), (Form::Tile, 'A'..='Z'), (Form::DieCut, 'a'..='z')];
    let sheets = makes.into_iter().zip(["capitals", "tiles", "small"]).map(|((form, letters), id)| {
        let letters = letters.map(|letter| Letter {
            character: Character::new(&letter.to_string()).unwrap(),
            mark: None,
            left: 99,
            width: draw.chance(10).then(|| draw.mm(scale.tall.0, scale.tall.1)),
            height: None,
            colours: Vec::new(),
        });
        let letters = letters.collect();
        let tenths = scale.tall.0 * 10 + draw.below((scale.tall.1 - scale.tall.0) * 10 + 1);
        Sheet {
            id: SheetId::new(id).unwrap(),
            label: Label::default(),
            make: Make { form, finish: Finish::Matte, neutral: false, joined: false, plain_tile: false },
            size: Size {
                height: Length::from_nm(i64::try_from(tenths).unwrap() * 100_000),
                height_of: HeightOf::Capital,
                tile_width: None,
                thick: None,
            },
            paint: Paint { colours: vec![Tint::plain(Colour::BLACK)], outline: None, tile: None },
            letters,
            record: Record::default(),
        }
    });
    Stash::new(sheets.collect())
}

fn wording(draw: &mut Draw, most: usize) -> Wording {
    let mut text = String::new();
    for place in 0..=draw.below(most) {
        if place > 0 && draw.chance(20) {
            text.push(if draw.chance(30) && !text.contains('\n') { '\n' } else { ' ' });
        }
        text.push(
            *draw.pick(&['A', 'E', 'I', 'L', 'M', 'O', 'T', 'V', 'W', 'J', 'a', 'e', 'g', 'l', 'o', 't']),
        );
    }
    Wording::new(&text).unwrap()
}

fn strip(draw: &mut Draw, role: Role, scale: Scale, stash: &Stash) -> Strip {
    let mut strip = Strip::new(role, wording(draw, scale.letters));
    if draw.chance(70) {
        let mm = |mm: usize| Length::from_mm(i64::try_from(mm).unwrap());
        strip.rules.tall = Some((mm(scale.tall.0), mm(scale.tall.1)));
    }
    let (most, wide) = (i64::try_from(scale.page.1).unwrap(), i64::try_from(scale.tall.1).unwrap());
    let at = Point { x: odd(draw, -wide, most - wide), y: odd(draw, 0, most) };
    strip.place = Place { at: Some(at), turn: turn(draw) };
    let ids = ["adrift", "trapped", "cover", "edge", "overlap", "off", "margin"];
    strip.accepted = ids.iter().filter(|_| draw.chance(4)).map(|id| (*id).to_owned()).collect();
    let fills: Vec<Option<Stood>> = (0..strip.len()).map(|slot| fill(draw, &strip, slot, stash)).collect();
    filled(strip, fills)
}

fn fill(draw: &mut Draw, strip: &Strip, slot: usize, stash: &Stash) -> Option<Stood> {
    let chips = stash.carrying(&strip.wording().slots()[slot].character);
    let sticker = match draw.below(100) {
        0..6 => return None,
        6..14 => Sticker::Hand(ByHand {
            label: "button".into(),
            width: draw.mm(4, 12),
            height: draw.chance(50).then(|| draw.mm(4, 12)),
            colour: None,
        }),
        _ => Sticker::Chip { id: stash.chip(*draw.pick(chips)).id(), stands_in: None },
    };
    let mut stood = Stood::straight(sticker);
    if draw.chance(20) {
        stood.tilt = Angle::from_thousandths(i32::try_from(draw.below(60_000)).unwrap() - 30_000);
    }
    if draw.chance(15) {
        (stood.nudge, stood.raise) = (odd(draw, -2, 3), odd(draw, -2, 6));
    }
    Some(stood)
}
