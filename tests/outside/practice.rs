//! Facts of the trade, each on a worked line, good and bad. Every one of them: common practice, no source.
//!
//! Must not know how a check comes by its answer.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use oddment::checks::{Scene, Taste, Verdict, judge};
use oddment::letter::Character;
use oddment::measure::{Colour, Length, Tint};
use oddment::page::Page;
use oddment::plan::{History, Plan, PlanEdit, Spoken};
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::title::{Edit, Sticker, Stood, Wording};

/// The colours of the worked page: teal leads, mustard is second, coral the accent.
const PAGE: [&str; 3] = ["teal", "goldenrod", "coral"];

/// One letter of a worked line, each from a sheet of its own unless it says otherwise.
#[derive(Clone)]
struct Piece {
    colour: &'static str,
    height: i64,
    width: Option<i64>,
    finish: Finish,
    script: Option<&'static str>,
}

/// A letter of that colour, 24 mm high.
fn piece(colour: &'static str) -> Piece {
    Piece { colour, height: 24, width: None, finish: Finish::Matte, script: None }
}

fn pieces(colours: &[&'static str]) -> Vec<Piece> {
    colours.iter().map(|colour| piece(colour)).collect()
}

fn tint(name: &str) -> Tint {
    Tint::called(name, Colour::named(name).unwrap())
}

fn sheet(id: &str, piece: &Piece) -> Sheet {
    let joined = piece.script.is_some();
    Sheet {
        id: SheetId::new(id).unwrap(),
        label: Label::default(),
        make: Make { form: Form::DieCut, finish: piece.finish, neutral: false, joined, plain_tile: false },
        size: Size {
            height: Length::from_mm(piece.height),
            height_of: HeightOf::Capital,
            tile_width: None,
            thick: None,
        },
        paint: Paint { colours: vec![tint(piece.colour)], outline: None, tile: None },
        letters: Vec::new(),
        record: Record::default(),
    }
}

/// The verdict on `wording` made of `pieces` on the worked page.
fn verdict(wording: &str, pieces: &[Piece]) -> Verdict {
    let wording = Wording::new(wording).unwrap();
    assert_eq!(wording.len(), pieces.len(), "a piece for each letter");
    let mut sheets: Vec<Sheet> = Vec::new();
    let mut letters = Vec::new();
    for (slot, (asked, piece)) in wording.slots().iter().zip(pieces).enumerate() {
        let id = piece.script.map_or_else(|| format!("sheet-{slot}"), ToOwned::to_owned);
        let place = sheets.iter().position(|sheet| sheet.id.as_str() == id).unwrap_or_else(|| {
            sheets.push(sheet(&id, piece));
            sheets.len() - 1
        });
        let character: Character = asked.character.clone();
        let width = piece.width.map(Length::from_mm);
        // Plenty of each, so that none is scarce.
        let letter = Letter { character, mark: None, left: 9, width, height: None, colours: Vec::new() };
        letters.push(format!("{id}/{}", letter.character));
        sheets[place].letters.retain(|other| other.character != letter.character);
        sheets[place].letters.push(letter);
    }
    let stash = Stash::new(sheets);
    let stood = letters.iter().map(|id| {
        let id = oddment::stash::ChipId::parse(id).unwrap();
        Some(Stood::straight(Sticker::Chip { id, stands_in: None }))
    });
    let mut plan = Plan::titled(wording.clone());
    let stood = stood.collect();
    let mut history = History::default();
    history.make(&mut plan, PlanEdit::Strip(0, Edit::Wording(wording, stood)));
    let page = Page { colours: PAGE.map(tint).to_vec(), ..Page::default() };
    history.make(&mut plan, PlanEdit::Page(Box::new(page)));
    judge(&plan, &stash, &Scene::new(&stash, &plan.page, Taste::default(), Spoken::default()))
}

fn tells(verdict: &Verdict, id: &str) -> bool {
    verdict.findings.iter().any(|finding| finding.id == id)
}

/// Main colour at both ends and in the middle, second colour near both ends, an accent twice between.
const GOOD: [&str; 7] = ["teal", "goldenrod", "coral", "teal", "coral", "goldenrod", "teal"];

/// As [`GOOD`] with other colours in some slots.
fn with(others: &[(usize, &'static str)]) -> Vec<Piece> {
    let mut line = pieces(&GOOD);
    for &(slot, colour) in others {
        line[slot] = piece(colour);
    }
    line
}

#[test]
fn the_worked_line_is_good() {
    let good = verdict("LANTERN", &pieces(&GOOD));
    assert_eq!(good.findings, [], "nothing to tell");
}

#[test]
fn widths_never_cost_anything() {
    let narrow = verdict("LANTERN", &pieces(&GOOD));
    let mut line = pieces(&GOOD);
    for (piece, width) in line.iter_mut().zip([4, 40, 9, 60, 12, 30, 5]) {
        piece.width = Some(width);
    }
    let wide = verdict("LANTERN", &line);
    assert_eq!(wide.score, narrow.score);
    assert_eq!(wide.findings, narrow.findings);
}

#[test]
fn letters_of_like_height_sit_together() {
    let mut line = pieces(&GOOD);
    for (piece, height) in line.iter_mut().zip([24, 25, 24, 26, 24, 25, 24]) {
        piece.height = height;
    }
    assert!(!tells(&verdict("LANTERN", &line), "height"));
    line[3].height = 38;
    let bad = verdict("LANTERN", &line);
    let told = bad.findings.iter().find(|finding| finding.id == "height").unwrap();
    assert_eq!(told.slots, [3]);
}

#[test]
fn the_main_colour_stands_at_both_ends() {
    assert!(!tells(&verdict("LANTERN", &pieces(&GOOD)), "ends"));
    for end in [0, 6] {
        let bad = verdict("LANTERN", &with(&[(end, "coral")]));
        assert!(tells(&bad, "ends"), "letter {}", end + 1);
    }
}

#[test]
fn the_main_colour_stands_in_the_middle() {
    assert!(!tells(&verdict("LANTERN", &pieces(&GOOD)), "anchor"));
    let bare = verdict("LANTERN", &with(&[(3, "goldenrod")]));
    assert!(tells(&bare, "anchor"));
}

#[test]
fn the_second_colour_stands_near_both_ends() {
    assert!(!tells(&verdict("LANTERN", &pieces(&GOOD)), "second"));
    for near in [1, 5] {
        let bad = verdict("LANTERN", &with(&[(near, "coral")]));
        assert!(tells(&bad, "second"), "letter {}", near + 1);
    }
}

#[test]
fn two_colours_alone_are_flagged() {
    assert!(!tells(&verdict("LANTERN", &pieces(&GOOD)), "monotony"));
    let two = verdict("LANTERN", &with(&[(2, "goldenrod"), (4, "goldenrod")]));
    assert!(tells(&two, "monotony"));
}

#[test]
fn script_is_not_mixed() {
    let script = |sheet| Piece { script: Some(sheet), ..piece("teal") };
    let whole = vec![script("hand"); 4];
    assert!(!tells(&verdict("WALK", &whole), "joined"));
    let two_sheets = [script("hand"), script("hand"), script("other"), script("other")];
    assert!(tells(&verdict("WALK", &two_sheets), "joined"));
    let mut mixed = whole.clone();
    mixed[2] = piece("coral");
    assert!(tells(&verdict("WALK", &mixed), "joined"));
    // A word of script beside a word of other letters breaks nothing.
    let apart = [script("hand"), script("hand"), piece("coral"), piece("goldenrod")];
    assert!(!tells(&verdict("WA LK", &apart), "joined"));
}

#[test]
fn neutral_letters_go_with_anything() {
    let stray = verdict("LANTERN", &with(&[(3, "purple")]));
    assert!(tells(&stray, "stray"));
    for grey in ["white", "gray", "black"] {
        assert!(!tells(&verdict("LANTERN", &with(&[(3, grey)])), "stray"), "{grey}");
    }
    for finish in [Finish::Foil, Finish::Wood, Finish::Cork] {
        let mut line = pieces(&GOOD);
        line[3] = Piece { finish, ..piece("purple") };
        assert!(!tells(&verdict("LANTERN", &line), "stray"), "{finish}");
    }
}
