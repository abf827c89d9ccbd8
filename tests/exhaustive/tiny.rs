//! Cases so small that every arrangement of them can be gone through. Invented data throughout.
//!
//! Must not know what is checked on them.

use oddment::checks::{Candidate, Measure, Scene, THRESHOLDS, Taste, candidates};
use oddment::letter::{Character, stand_ins};
use oddment::measure::{Angle, Colour, Length, Point, Size as Box2, Tint};
use oddment::page::{Element, Kind, Lie, Outline, Page};
use oddment::plan::{Plan, Spoken};
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::title::{ByHand, CaseRule, FormRule, Mix, Role, Rules, Spacing, Sticker, Stood, Strip, Wording};

use super::drawn::character;
use crate::draw::{Draw, filled};

/// The most arrangements that a case has.
const MOST: usize = 3_000;
/// What wordings ask for: letters that others serve for, both cases, a mark too small to be compared.
const ASKED: [&str; 16] = ["A", "E", "S", "O", "M", "W", "N", "P", "I", "F", "e", "o", "n", "u", "b", "'"];
const COLOURS: [&str; 14] = [
    "#008080", "#0a7a7c", "#20b2aa", "#d9a441", "#e0b050", "#ff7f50", "#e8684a", "#2f3e46", "#ffffff",
    "#f4efe6", "#808080", "#7b2d8b", "#c2185b", "#3f51b5",
];

/// One case.
pub(super) struct Tiny {
    pub(super) sheets: Vec<Sheet>,
    pub(super) stash: Stash,
    pub(super) plan: Plan,
    /// Another plan, whose letters are spoken for.
    pub(super) other: Plan,
    pub(super) taste: Taste,
    /// The only strip that is asked about.
    pub(super) only: Option<usize>,
}

/// What a case has that others have not.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Twist {
    OneStrip,
    TwoStrips,
    /// Tiles of one height and many widths, and little room for them.
    Tight,
}

impl Tiny {
    pub(super) fn new(seed: u64, twist: Twist) -> Self {
        let mut draw = Draw::new(seed.wrapping_mul(4) + twist as u64 + 7_000_000);
        let theme: Vec<Tint> = (0..=2 + draw.below(2)).map(|_| any_tint(&mut draw)).collect();
        let asked: Vec<&str> = (0..=draw.below(4)).map(|_| *draw.pick(&ASKED)).collect();
        let count = 1 + draw.below(5);
        let mut sheets: Vec<Sheet> =
            (0..count).map(|place| sheet(&mut draw, place, &asked, &theme)).collect();
        for place in 1..sheets.len() {
            if draw.chance(25) {
                sheets[place] = another(&mut draw, &sheets[place - 1], &sheets[place]);
            }
        }
        if twist == Twist::Tight {
            for sheet in &mut sheets {
                make_tight(&mut draw, sheet);
            }
        }
        let mut strips = vec![bare(&mut draw, Role::title(), &asked, twist)];
        if twist == Twist::TwoStrips || (twist == Twist::Tight && draw.chance(25)) {
            strips.push(bare(&mut draw, Role::subtitle(), &asked, twist));
        }
        let only = (strips.len() > 1 && draw.chance(12)).then(|| draw.below(2));
        let page = page(&mut draw, &theme);
        let stash = Stash::new(sheets.clone());
        let other = strips.iter().take(1).map(|strip| fill(&mut draw, strip.clone(), &stash, 30)).collect();
        let mut strips: Vec<Strip> = strips
            .into_iter()
            .map(|strip| if twist == Twist::Tight { strip } else { fill(&mut draw, strip, &stash, 25) })
            .collect();
        if strips.len() > 1 && only != Some(1) && draw.chance(8) {
            strips[1].stuck = Some(3);
        }
        let mut case = Self {
            plan: Plan::new(None, page, strips).unwrap(),
            other: Plan::new(None, Page::default(), other).unwrap(),
            taste: taste(&mut draw),
            sheets,
            stash,
            only,
        };
        case.thin_out(&mut draw);
        case
    }

    pub(super) fn scene(&self, stash: &Stash) -> Scene {
        Scene::new(stash, &self.plan.page, self.taste.clone(), Spoken::by(&self.other, stash))
    }

    /// Whether a suggestion may change what stands there.
    pub(super) fn is_free(&self, place: usize, slot: usize) -> bool {
        let strip = &self.plan.strips()[place];
        let asked = strip.stuck.is_none() && self.only.is_none_or(|only| only == place);
        let kept = |stood: &Stood| stood.pinned || matches!(stood.sticker, Sticker::Hand(_));
        asked && !strip.letter(slot).is_some_and(kept)
    }

    /// What may stand in a free slot, by id and how it stands in; empty, the last, is not told.
    pub(super) fn choices(&self, place: usize, slot: usize) -> Vec<Candidate> {
        let strip = &self.plan.strips()[place];
        let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
        let mut found = candidates(&self.stash, strip, &wanted);
        found.retain(|one| self.stash.chip(one.chip).letter.left > 0);
        found.sort_by_cached_key(|one| (self.stash.chip(one.chip).id().to_string(), one.stands_in));
        found
    }

    /// Takes letters out of the stash until there are no more than so many arrangements.
    fn thin_out(&mut self, draw: &mut Draw) {
        let most = *draw.pick(&[60, 100, 300, 300, 1_000, MOST]);
        loop {
            let mut product = 1_usize;
            let mut widest: Vec<Candidate> = Vec::new();
            for (place, strip) in self.plan.strips().iter().enumerate() {
                for slot in (0..strip.len()).filter(|&slot| self.is_free(place, slot)) {
                    let choices = self.choices(place, slot);
                    product = product.saturating_mul(choices.len() + 1);
                    if choices.len() > widest.len() {
                        widest = choices;
                    }
                }
            }
            if product <= most {
                return;
            }
            if widest.is_empty() {
                return;
            }
            let id = self.stash.chip(draw.pick(&widest).chip).id();
            for sheet in self.sheets.iter_mut().filter(|sheet| sheet.id == id.sheet) {
                let same = |letter: &&mut Letter| letter.character == id.character && letter.mark == id.mark;
                sheet.letters.iter_mut().filter(same).for_each(|letter| letter.left = 0);
            }
            self.stash = Stash::new(self.sheets.clone());
        }
    }
}

fn any_tint(draw: &mut Draw) -> Tint {
    Tint::plain(Colour::from_hex(draw.pick::<&str>(&COLOURS)).unwrap())
}

/// A colour of the theme, mostly.
fn tint(draw: &mut Draw, theme: &[Tint]) -> Tint {
    if draw.chance(75) { draw.pick(theme).clone() } else { any_tint(draw) }
}

fn sheet(draw: &mut Draw, place: usize, asked: &[&str], theme: &[Tint]) -> Sheet {
    let form = *draw.pick(Form::ALL);
    let tile = form == Form::Tile;
    let halves = [16, 24, 30, 36, 38, 40, 40, 40, 42, 44, 46, 48, 50, 60, 80_i64];
    Sheet {
        id: SheetId::new(&format!("{}-{place}", draw.pick::<&str>(&["oak", "sea", "fig"]))).unwrap(),
        label: Label::default(),
        make: Make {
            form,
            finish: if draw.chance(75) { Finish::Matte } else { *draw.pick(Finish::ALL) },
            neutral: draw.chance(6),
            joined: draw.chance(15),
            plain_tile: draw.chance(50),
        },
        size: Size {
            height: Length::from_nm(500_000 * *draw.pick(&halves)),
            height_of: if draw.chance(70) { HeightOf::Capital } else { *draw.pick(HeightOf::ALL) },
            tile_width: draw.chance(30).then(|| draw.mm(8, 30)),
            thick: None,
        },
        paint: Paint {
            colours: (0..=draw.below(2)).map(|_| tint(draw, theme)).collect(),
            outline: (!tile && draw.chance(20)).then(|| tint(draw, theme)),
            tile: (tile && draw.chance(80)).then(|| any_tint(draw)),
        },
        letters: letters(draw, asked, theme),
        record: Record::default(),
    }
}

/// A second packet of `first` in the place of `was`, or one that differs in a single thing.
fn another(draw: &mut Draw, first: &Sheet, was: &Sheet) -> Sheet {
    let mut again = Sheet { id: was.id.clone(), ..first.clone() };
    match draw.below(6) {
        0 => again.make.finish = was.make.finish,
        1 => again.make.form = was.make.form,
        2 => again.size.height = was.size.height,
        3 => again.paint.colours.clone_from(&was.paint.colours),
        _ => {}
    }
    again
}

fn letters(draw: &mut Draw, asked: &[&str], theme: &[Tint]) -> Vec<Letter> {
    let mut carried: Vec<(Character, Option<Mark>)> = Vec::new();
    for wanted in asked.iter().map(|asked| character(asked)) {
        let served = stand_ins(&wanted);
        let others = served.iter().filter(|_| draw.chance(25)).map(|row| row.used.clone());
        for one in others.collect::<Vec<_>>().into_iter().chain(draw.chance(80).then(|| wanted.clone())) {
            carried.push((one.clone(), None));
            if draw.chance(20) {
                carried.push((one, Some(Mark::new("spare").unwrap())));
            }
        }
    }
    carried.sort();
    carried.dedup();
    let letter = |(character, mark): (Character, Option<Mark>)| Letter {
        character,
        mark,
        left: u16::try_from(*draw.pick(&[0, 1, 1, 1, 2, 2, 3, 5])).unwrap(),
        width: draw.chance(15).then(|| draw.mm(8, 30)),
        height: draw.chance(10).then(|| draw.mm(10, 30)),
        colours: if draw.chance(12) { vec![tint(draw, theme)] } else { Vec::new() },
    };
    carried.into_iter().map(letter).collect()
}

fn make_tight(draw: &mut Draw, sheet: &mut Sheet) {
    sheet.make.form = Form::Tile;
    sheet.size.height = Length::from_mm(20);
    sheet.size.tile_width = Some(draw.mm(8, 30));
    (sheet.paint.outline, sheet.make.plain_tile) = (None, false);
    for letter in &mut sheet.letters {
        letter.height = None;
        letter.width = draw.chance(40).then(|| draw.mm(8, 30));
    }
}

fn page(draw: &mut Draw, theme: &[Tint]) -> Page {
    let mut page = Page { ground: draw.chance(60).then(|| tint(draw, theme)), ..Page::default() };
    match draw.below(100) {
        0..45 => page.colours = (0..=draw.below(4)).map(|_| tint(draw, theme)).collect(),
        45..80 => {
            page.elements = (0..=draw.below(4)).map(|_| element(draw, theme)).collect();
            if draw.chance(15) {
                page.size = Some(Box2 { width: draw.mm(40, 60), height: draw.mm(40, 60) });
            }
        }
        _ => {}
    }
    page
}

fn element(draw: &mut Draw, theme: &[Tint]) -> Element {
    let lie = Lie {
        at: Point { x: draw.mm(0, 30), y: draw.mm(0, 30) },
        size: Box2 { width: draw.mm(5, 30), height: draw.mm(5, 30) },
        turn: Angle::ZERO,
        outline: Outline::Rect,
    };
    let colours = (0..=draw.below(3)).map(|_| tint(draw, theme)).collect();
    Element { name: None, kind: *draw.pick(Kind::ALL), original: false, lie, colours, cover: None, bed: None }
}

/// A strip with nothing on it. What lies under it does not change with its letters: it is not placed.
fn bare(draw: &mut Draw, role: Role, asked: &[&str], twist: Twist) -> Strip {
    let long = role == Role::title() && draw.chance(if twist == Twist::OneStrip { 80 } else { 60 });
    let count = match (long, twist) {
        (true, Twist::OneStrip) => 5 + draw.below(3),
        (true, _) => 5,
        (false, _) => 1 + draw.below(4),
    };
    let broken = draw.chance(15).then(|| draw.below(count));
    let mut text = String::new();
    for place in 0..count {
        if broken == Some(place) {
            text.push('\n');
        } else if draw.chance(20) {
            text.push(' ');
        }
        text.push_str(draw.pick::<&str>(asked));
    }
    let mut strip = Strip::new(role, Wording::new(&text).unwrap());
    strip.rules = rules(draw);
    let ids = ["ends", "lead", "scarce", "neighbours", "height", "missing", "near", "joined", "monotony"];
    strip.accepted = ids.iter().filter(|_| draw.chance(3)).map(|id| (*id).to_owned()).collect();
    // A page has a room of its own: out of the way, save where room is what it is about.
    strip.rules.room = Some(Length::from_mm(2_000));
    if twist == Twist::Tight {
        let count = i64::try_from(count).unwrap();
        strip.rules.tall = Some((Length::from_mm(20), Length::from_mm(20)));
        strip.rules.room = Some(draw.mm(10, 26) * count);
        strip.setting.spacing = *draw.pick(Spacing::ALL);
    }
    strip
}

fn rules(draw: &mut Draw) -> Rules {
    let mix = *draw.pick(&[Mix::Lively, Mix::Lively, Mix::Lively, Mix::Words, Mix::Plain]);
    Rules {
        case: if draw.chance(60) { CaseRule::Any } else { *draw.pick(CaseRule::ALL) },
        forms: if draw.chance(70) { FormRule::Any } else { *draw.pick(FormRule::ALL) },
        tall: draw.chance(40).then(|| (draw.mm(8, 18), draw.mm(19, 40))),
        on: draw.chance(40).then(|| any_tint(draw)),
        ..Rules::new(mix)
    }
}

/// `strip` with letters in some slots, some of them pinned, and things by hand.
fn fill(draw: &mut Draw, strip: Strip, stash: &Stash, percent: usize) -> Strip {
    let letter = |draw: &mut Draw, slot: usize| {
        if draw.chance(6) {
            let colour = draw.chance(70).then(|| any_tint(draw));
            let thing = ByHand { label: "button".into(), width: draw.mm(8, 25), height: None, colour };
            return Some(Stood::straight(Sticker::Hand(thing)));
        }
        let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
        let options = candidates(stash, &strip, &wanted);
        if options.is_empty() || !draw.chance(percent) {
            return None;
        }
        let one = draw.pick(&options);
        let sticker = Sticker::Chip { id: stash.chip(one.chip).id(), stands_in: one.stands_in };
        Some(Stood { pinned: draw.chance(60), tilt: Angle::ZERO, ..Stood::straight(sticker) })
    };
    let letters = (0..strip.len()).map(|slot| letter(draw, slot)).collect();
    filled(strip, letters)
}

/// The usual taste, or one with some weights changed.
fn taste(draw: &mut Draw) -> Taste {
    let mut taste = Taste::default();
    if draw.chance(70) {
        return taste;
    }
    for _ in 0..=draw.below(4) {
        let place = draw.below(THRESHOLDS.len());
        let row = &THRESHOLDS[place];
        let value = match row.measure {
            Measure::Count => i64::try_from(1 + draw.below(5)).unwrap(),
            _ => row.usual * *draw.pick(&[0, 1, 2, 3, 4, 6]) / 2,
        };
        // The two thresholds of contrast may not cross.
        if !row.key.starts_with("pale.") {
            taste.set(place, value.clamp(row.least, row.most)).unwrap();
        }
    }
    taste
}
