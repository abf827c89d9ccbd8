//! Cases of a likely size, drawn from a seed: a box of sheets and a title for it. Invented data throughout.
//!
//! Must not know what is checked on them.

use oddment::letter::{Character, StandInKind, stand_ins};
use oddment::measure::{Colour, Length, Tint};
use oddment::page::Page;
use oddment::plan::Plan;
use oddment::stash::{
    ChipIx, Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::title::{ByHand, Mix, Role, Rules, Sticker, Stood, Strip, Wording};

use crate::draw::{Draw, filled};
use crate::opinion::may_stand;

const TITLES: [&str; 12] = [
    "HARBOUR",
    "LANTERN WALK",
    "NIGHT TIDE",
    "Quay Lights",
    "SALT AND ROPE",
    "BOATS",
    "Winter",
    "LOW\nWATER",
    "THE LANTERNS ARE LIT",
    "BANANA SUNSET",
    "All along the harbour",
    "Where the river\nmeets us",
];
const SUBTITLES: [&str; 6] = ["by the sea", "our walk", "at dusk", "a calm", "Mole end", "ropes"];
const COLOURS: [&str; 12] = [
    "#008080", "#20b2aa", "#d9a441", "#ff7f50", "#e8684a", "#2f3e46", "#ffffff", "#f4efe6", "#808080",
    "#7b2d8b", "#c2185b", "#3f51b5",
];

/// One case.
pub(super) struct Likely {
    pub(super) stash: Stash,
    pub(super) plan: Plan,
    /// Another plan, whose letters are spoken for.
    pub(super) other: Plan,
}

impl Likely {
    pub(super) fn new(seed: u64) -> Self {
        let mut draw = Draw::new(seed + 9_000_000);
        let mut strips = vec![Strip::new(Role::title(), wording(&mut draw, &TITLES))];
        if seed % 2 == 1 {
            strips.push(Strip::new(Role::subtitle(), wording(&mut draw, &SUBTITLES)));
        }
        let theme: Vec<Tint> = (0..3 + draw.below(2)).map(|_| any_tint(&mut draw)).collect();
        let heights: Vec<i64> = (0..3 + draw.below(3)).map(|_| *draw.pick(&HALVES)).collect();
        let scarce = draw.chance(60);
        let box_of = Box { carried: carried(&mut draw, &strips), theme: &theme, heights: &heights, scarce };
        let count = if scarce { 10 + draw.below(31) } else { 10 + draw.below(9) };
        let stash = Stash::new((0..count).map(|place| box_of.sheet(&mut draw, place)).collect());
        let mut page = Page { ground: Some(any_tint(&mut draw)), ..Page::default() };
        if draw.chance(85) {
            page.colours.clone_from(&theme);
        }
        for strip in &mut strips {
            let mix = if strip.role() == &Role::title() {
                *draw.pick(&[Mix::Lively, Mix::Lively, Mix::Words])
            } else {
                *draw.pick(&[Mix::Plain, Mix::Plain, Mix::Lively])
            };
            strip.rules = Rules { mix, ..Rules::new(mix) };
            strip.rules.tall = draw.chance(30).then(|| (draw.mm(10, 16), draw.mm(20, 30)));
        }
        let other = pinned(&mut draw, strips[0].clone(), &stash, 25);
        let strips = strips.into_iter().map(|strip| pinned(&mut draw, strip, &stash, 8)).collect();
        Self {
            plan: Plan::new(None, page, strips).unwrap(),
            other: Plan::new(None, Page::default(), vec![other]).unwrap(),
            stash,
        }
    }
}

const HALVES: [i64; 10] = [24, 30, 36, 38, 40, 42, 46, 50, 56, 70];

fn wording(draw: &mut Draw, among: &[&str]) -> Wording {
    Wording::new(draw.pick::<&str>(among)).unwrap()
}

fn any_tint(draw: &mut Draw) -> Tint {
    Tint::plain(Colour::from_hex(draw.pick::<&str>(&COLOURS)).unwrap())
}

/// The characters that the wordings ask for, and some that serve for them.
fn carried(draw: &mut Draw, strips: &[Strip]) -> Vec<Character> {
    let asked = strips.iter().flat_map(|strip| strip.wording().slots());
    let mut carried: Vec<Character> = asked.map(|asked| asked.character.clone()).collect();
    let others: Vec<Character> =
        carried.iter().flat_map(stand_ins).filter(|_| draw.chance(15)).map(|row| row.used.clone()).collect();
    carried.extend(others);
    carried.sort();
    carried.dedup();
    carried
}

/// What the sheets of a box have in common.
struct Box<'a> {
    carried: Vec<Character>,
    theme: &'a [Tint],
    heights: &'a [i64],
    scarce: bool,
}

impl Box<'_> {
    fn tint(&self, draw: &mut Draw) -> Tint {
        if draw.chance(75) { draw.pick(self.theme).clone() } else { any_tint(draw) }
    }

    fn sheet(&self, draw: &mut Draw, place: usize) -> Sheet {
        let form = *draw.pick(Form::ALL);
        let tile = form == Form::Tile;
        Sheet {
            id: SheetId::new(&format!("sheet-{place}")).unwrap(),
            label: Label::default(),
            make: Make {
                form,
                finish: if draw.chance(80) { Finish::Matte } else { *draw.pick(Finish::ALL) },
                neutral: draw.chance(6),
                joined: draw.chance(8),
                plain_tile: draw.chance(50),
            },
            size: Size {
                height: Length::from_nm(500_000 * *draw.pick(self.heights)),
                height_of: HeightOf::Capital,
                tile_width: None,
                thick: None,
            },
            paint: Paint {
                colours: (0..=draw.below(2)).map(|_| self.tint(draw)).collect(),
                outline: (!tile && draw.chance(15)).then(|| self.tint(draw)),
                tile: tile.then(|| any_tint(draw)),
            },
            letters: self.letters(draw),
            record: Record::default(),
        }
    }

    fn letters(&self, draw: &mut Draw) -> Vec<Letter> {
        let (percent, most) = if self.scarce { (25, 1) } else { (65, 3) };
        let mut letters = Vec::new();
        for character in &self.carried {
            for mark in [None, Some("spare")] {
                if draw.chance(if mark.is_none() { percent } else { 3 }) {
                    letters.push(Letter {
                        character: character.clone(),
                        mark: mark.map(|mark| Mark::new(mark).unwrap()),
                        left: u16::try_from(1 + draw.below(most)).unwrap(),
                        width: None,
                        height: None,
                        colours: if mark.is_some() { vec![self.tint(draw)] } else { Vec::new() },
                    });
                }
            }
        }
        letters
    }
}

/// Every chip that may stand in `slot` and of which any is left.
pub(super) fn choices(strip: &Strip, slot: usize, stash: &Stash) -> Vec<(ChipIx, Option<StandInKind>)> {
    let left = stash.chips().filter(|&chip| stash.chip(chip).letter.left > 0);
    let ways = [None].into_iter().chain(StandInKind::ALL.iter().copied().map(Some));
    let each = left.flat_map(|chip| ways.clone().map(move |kind| (chip, kind)));
    each.filter(|&(chip, kind)| may_stand(strip, slot, chip, kind, stash)).collect()
}

/// `strip` with pinned letters in about so many slots, and now and then a thing by hand.
fn pinned(draw: &mut Draw, strip: Strip, stash: &Stash, percent: usize) -> Strip {
    let letter = |draw: &mut Draw, slot: usize| {
        if draw.chance(3) {
            let colour = Some(any_tint(draw));
            let thing = ByHand { label: "button".into(), width: draw.mm(8, 25), height: None, colour };
            return Some(Stood::straight(Sticker::Hand(thing)));
        }
        if !draw.chance(percent) {
            return None;
        }
        let options = choices(&strip, slot, stash);
        let &(chip, stands_in) = options.get(draw.below(options.len().max(1)))?;
        let sticker = Sticker::Chip { id: stash.chip(chip).id(), stands_in };
        Some(Stood { pinned: true, ..Stood::straight(sticker) })
    };
    let letters = (0..strip.len()).map(|slot| letter(draw, slot)).collect();
    filled(strip, letters)
}
