//! Tiny stashes and short wordings, of characters that serve for one another. Invented data throughout.
//!
//! Must not know what is checked on them.

use std::fmt;

use oddment::letter::Character;
use oddment::measure::{Colour, Length, Points, Tint};
use oddment::stash::{
    ChipIx, Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::supply::{Asking, Costs, Supply};
use oddment::title::{CaseRule, FormRule, Wording};

use super::super::drawn::character;
use crate::draw::Draw;

/// Characters that letters pass between.
const KIN: [&[&str]; 8] = [
    &["O", "o", "Q", "0", "C", "c", "G", "♥"],
    &["I", "l", "1", "-", "i", "L", "'", ","],
    &["A", "V", "v", "a", "M", "W", "w", "m"],
    &["N", "Z", "z", "n", "u", "2", "U"],
    &["S", "s", "5", "B", "8", "P", "R", "p"],
    &["E", "F", "e", "É", "é"],
    &["6", "9", "b", "q", "d", "p"],
    &["X", "x", "K", "k", "ß", "&"],
];

/// Heights in micrometres: near the edge of a band, on it, and just over it.
const HEIGHTS: [i64; 14] = [
    12_000, 15_000, 16_000, 20_000, 20_000, 20_000, 24_000, 25_000, 25_099, 25_100, 25_200, 26_000, 31_250,
    40_000,
];

/// One case.
pub(super) struct Case {
    pub(super) stash: Stash,
    pub(super) asking: Asking,
    pub(super) text: String,
    /// How many of each chip are spoken for.
    kept: Vec<u16>,
}

impl Case {
    pub(super) fn new(seed: u64) -> Self {
        let mut draw = Draw::new(seed + 40_000_000);
        let pool = [*draw.pick(&KIN), *draw.pick(&KIN)].concat();
        let sheets = (0..=draw.below(4)).map(|place| sheet(&mut draw, place, &pool)).collect();
        let stash = Stash::new(sheets);
        let kept =
            stash.chips().map(|_| if draw.chance(12) { 1 + u16::from(draw.chance(30)) } else { 0 }).collect();
        let asking = asking(&mut draw);
        let text = wording(&mut draw, &pool);
        Self { stash, asking, text, kept }
    }

    /// A sheet of tiles with so many of one letter.
    pub(super) fn of_one_letter(text: &str, left: u16) -> Self {
        let mut draw = Draw::new(1);
        let mut only = sheet(&mut draw, 0, &[]);
        only.label.aside = false;
        only.make.form = Form::Tile;
        only.letters = vec![Letter::plain(character(text), None, left)];
        let asking = Asking { case: CaseRule::Any, forms: FormRule::Any, tall: None, ..asking(&mut draw) };
        Self { stash: Stash::new(vec![only]), asking, text: text.into(), kept: vec![0] }
    }

    pub(super) fn supply(&self) -> Supply {
        Supply::new(&self.stash, self.asking.clone(), |chip| self.kept[chip.get()])
    }

    pub(super) fn wording(&self) -> Wording {
        Wording::new(&self.text).unwrap()
    }

    /// How many of a chip may be used.
    pub(super) fn left(&self, chip: ChipIx) -> u16 {
        let seen = self.stash.chip(chip);
        if seen.sheet.label.aside { 0 } else { seen.letter.left.saturating_sub(self.kept[chip.get()]) }
    }
}

impl fmt::Debug for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{:?} {:?}", self.text, self.asking)?;
        for ix in self.stash.chips() {
            let chip = self.stash.chip(ix);
            let (make, size) = (chip.sheet.make, chip.sheet.size);
            writeln!(
                f,
                "{} x{} {} {} plain {} {} of {}, own {:?} x {:?}",
                chip.id(),
                self.left(ix),
                make.form,
                make.finish,
                make.plain_tile,
                size.height.mm(),
                size.height_of,
                chip.letter.height.map(Length::mm),
                chip.letter.width.map(Length::mm)
            )?;
        }
        Ok(())
    }
}

fn height(draw: &mut Draw) -> Length {
    Length::from_nm(1_000 * *draw.pick(&HEIGHTS))
}

fn sheet(draw: &mut Draw, place: usize, pool: &[&str]) -> Sheet {
    Sheet {
        id: SheetId::new(&format!("sheet-{place}")).unwrap(),
        label: Label { aside: draw.chance(6), ..Label::default() },
        make: Make {
            form: *draw.pick(Form::ALL),
            finish: if draw.chance(70) { Finish::Matte } else { *draw.pick(Finish::ALL) },
            neutral: false,
            joined: false,
            plain_tile: draw.chance(40),
        },
        size: Size {
            height: height(draw),
            height_of: if draw.chance(70) { HeightOf::Capital } else { *draw.pick(HeightOf::ALL) },
            tile_width: draw.chance(30).then(|| height(draw)),
            thick: None,
        },
        paint: Paint {
            colours: vec![Tint::plain(Colour::from_hex("#008080").unwrap())],
            outline: None,
            tile: None,
        },
        letters: letters(draw, pool),
        record: Record::default(),
    }
}

fn letters(draw: &mut Draw, pool: &[&str]) -> Vec<Letter> {
    let mut carried: Vec<(Character, Option<Mark>)> = Vec::new();
    for one in pool.iter().filter(|_| draw.chance(35)).map(|one| character(one)).collect::<Vec<_>>() {
        carried.push((one.clone(), None));
        if draw.chance(15) {
            carried.push((one, Some(Mark::new("spare").unwrap())));
        }
    }
    carried.sort();
    carried.dedup();
    let letter = |(character, mark): (Character, Option<Mark>)| Letter {
        character,
        mark,
        left: u16::try_from(*draw.pick(&[0, 1, 1, 1, 1, 2, 2, 3])).unwrap(),
        width: draw.chance(15).then(|| height(draw)),
        height: draw.chance(15).then(|| height(draw)),
        colours: Vec::new(),
    };
    carried.into_iter().map(letter).collect()
}

fn asking(draw: &mut Draw) -> Asking {
    let usual = draw.chance(60);
    let mut cost = |usually: i32| if usual { usually } else { *draw.pick(&[0, 1, 20, 30, 40, 80, 1_000]) };
    let [turned, look_alike, other_case, trimmed] =
        [30, 40, 20, 80].map(|usually| Points::from_tenths(cost(usually)));
    Asking {
        case: if draw.chance(20) { CaseRule::Any } else { *draw.pick(CaseRule::ALL) },
        forms: if draw.chance(20) { FormRule::Any } else { *draw.pick(FormRule::ALL) },
        tall: draw.chance(35).then(|| (draw.mm(8, 20), draw.mm(20, 42))),
        costs: Costs { turned, look_alike, other_case, trimmed },
    }
}

/// One letter to six; now and then with a gap, or on two lines.
fn wording(draw: &mut Draw, pool: &[&str]) -> String {
    let count = 1 + draw.below(6);
    let mut text = String::new();
    for place in 0..count {
        if place > 0 && draw.chance(10) {
            text.push(if text.contains('\n') || draw.chance(70) { ' ' } else { '\n' });
        }
        text.push_str(draw.pick::<&str>(pool));
    }
    text
}
